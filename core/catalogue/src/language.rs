use std::fmt;

use crate::{FOLDERS, languages};

/// The language that a person reads: one that has a folder in the catalogue. What is signed has none.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Language(u8);

/// No folder of the catalogue is of that language. The message lists those that are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownLanguage {
    asked: String,
}

#[allow(
    non_upper_case_globals,
    reason = "they read as the variants of an enum that a folder more must not break"
)]
impl Language {
    /// English: the source, and what is spoken where nothing else is asked for.
    pub const English: Self = Self(0);
    /// Spanish.
    pub const Spanish: Self = Self(1);
    /// English with every letter of the catalogue accented and the text made longer: what is still plain on a screen did
    /// not come from the catalogue, and a layout that holds it holds a language of long words. For trials alone.
    pub const Pseudo: Self = Self(u8::MAX);
}

/// The tag of the pseudo-language, as other programs' trials name it.
const PSEUDO: &str = "en-XA";

impl Language {
    /// Every language that has a folder, English first.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..).map(Self).take(FOLDERS.len())
    }

    /// The BCP 47 tag: the folder's name.
    pub fn code(self) -> &'static str {
        if self == Self::Pseudo {
            return PSEUDO;
        }
        FOLDERS.get(usize::from(self.0)).map_or("en", |folder| folder.tag)
    }

    /// What its own speakers call it.
    pub fn name(self) -> String {
        languages::LanguageName.say(self)
    }

    /// The language that a person named: a code, or a locale such as `es-MX` or `es_MX.UTF-8`.
    ///
    /// # Errors
    /// The catalogue has no such language.
    pub fn named(asked: &str) -> Result<Self, UnknownLanguage> {
        if asked.eq_ignore_ascii_case(PSEUDO) {
            return Ok(Self::Pseudo);
        }
        let code = asked.split(['-', '_', '.', '@']).next().unwrap_or_default();
        Self::all()
            .find(|one| one.code().eq_ignore_ascii_case(code))
            .ok_or_else(|| UnknownLanguage { asked: asked.chars().take(40).collect() })
    }

    /// The language of a locale that nobody chose for this program; English for every other, `C` and `POSIX` among them.
    pub fn of_locale(locale: &str) -> Self {
        Self::named(locale).unwrap_or_default()
    }

    /// The index of its folder.
    pub(crate) fn folder(self) -> usize {
        if self == Self::Pseudo { 0 } else { usize::from(self.0) }
    }

    /// One of two texts, for what is data and stands in two languages where it lies.
    pub fn pick<T>(self, english: T, spanish: T) -> T {
        if self == Self::Spanish { spanish } else { english }
    }
}

impl fmt::Debug for Language {
    /// The name in English of those that code names, else the tag.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::English => f.write_str("English"),
            Self::Spanish => f.write_str("Spanish"),
            other => f.write_str(other.code()),
        }
    }
}

impl fmt::Display for UnknownLanguage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let known: Vec<String> =
            Language::all().map(|one| format!("{} ({})", one.code(), one.name())).collect();
        let line = languages::LanguageUnknown { asked: self.asked.as_str(), known: known.join(", ") };
        f.write_str(&line.say(Language::English))
    }
}

impl std::error::Error for UnknownLanguage {}
