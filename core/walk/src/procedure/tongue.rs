use std::fmt;

use slingseal_words::Language;

/// The languages of which a table may stand in a file: the two letters of ISO 639-1, but for English, which needs no table. A unit
/// adds its own by writing it; that the program itself speaks it is not asked. Indonesian's letters are the key `id`.
pub(super) const TONGUES: &[&str] = &[
    "es", "ar", "bg", "bn", "ca", "cs", "cy", "da", "de", "el", "et", "eu", "fa", "fi", "fr", "ga", "gl",
    "gn", "he", "hi", "hr", "ht", "hu", "hy", "is", "it", "ja", "ka", "kk", "km", "ko", "ku", "ky", "la",
    "lo", "lt", "lv", "mi", "mk", "mn", "ms", "mt", "my", "nb", "ne", "nl", "nn", "no", "pl", "ps", "pt",
    "qu", "ro", "ru", "rw", "sk", "sl", "sm", "so", "sq", "sr", "sv", "sw", "ta", "tg", "th", "tk", "tl",
    "tr", "uk", "ur", "uz", "vi", "xh", "yo", "zh", "zu",
];

/// The language in which a list is told: English, one that the program speaks, or a unit's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tongue(&'static str);

impl Tongue {
    /// What every file is written in, and what records name deficiencies by.
    pub const ENGLISH: Self = Self("en");

    /// The language of two letters of ISO 639-1; none where no file could have it.
    pub fn named(code: &str) -> Option<Self> {
        let code = code.trim().to_ascii_lowercase();
        let mut known = TONGUES.iter().chain(["en"].iter());
        known.find(|known| **known == code).map(|known| Self(known))
    }

    /// Its two letters.
    pub fn code(self) -> &'static str {
        self.0
    }
}

impl From<Language> for Tongue {
    fn from(language: Language) -> Self {
        Self(language.code())
    }
}

impl fmt::Display for Tongue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}
