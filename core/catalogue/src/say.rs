use std::fmt;
use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use crate::{AREAS, FOLDERS, Language, pseudo, visibly};

/// Which message: its file and its name there. Made by the generated types alone, so that it always is one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct Id {
    pub(crate) area: usize,
    pub(crate) name: &'static str,
}

/// A message of the catalogue with its arguments, in no language yet: an error or a view holds it, and says it in the
/// language of whoever reads. Its `Display` is the English.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Saying(Said);

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
enum Said {
    Message {
        id: Id,
        arguments: Vec<(&'static str, Argument)>,
    },
    /// What has no language: a name, a number, what another program said.
    Verbatim(String),
    /// Several in one, with what stands between them.
    Joined {
        parts: Vec<Saying>,
        between: &'static str,
    },
    /// Lines, each behind the same.
    Behind {
        before: String,
        said: Box<Saying>,
    },
}

/// What fills a place of a message.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Argument {
    /// A name, a number with its unit, a time: the same in every language. What it holds that cannot be seen is spelled out
    /// where it is said: a stranger's text stays on its line.
    Text(String),
    /// How many: chooses singular and plural.
    Count(i64),
    /// A message within the message.
    Said(Saying),
}

/// What can fill a place of a message.
pub trait ToArgument {
    /// The argument.
    fn to_argument(&self) -> Argument;
}

impl Saying {
    pub(crate) fn new(id: Id, arguments: Vec<(&'static str, Argument)>) -> Self {
        Self(Said::Message { id, arguments })
    }

    /// What has no language: what a person wrote, what another program said. What it holds that cannot be seen is spelled
    /// out, so that it stays one line.
    pub fn verbatim(text: impl fmt::Display) -> Self {
        Self(Said::Verbatim(visibly(&text.to_string())))
    }

    /// Several, one after the other. `between` holds no word.
    pub fn joined(parts: impl IntoIterator<Item = Self>, between: &'static str) -> Self {
        Self(Said::Joined { parts: parts.into_iter().collect(), between })
    }

    /// Each line of it behind the same: a file's name before each of its faults.
    pub fn behind(before: impl fmt::Display, said: &Self) -> Self {
        Self(Said::Behind { before: visibly(&before.to_string()), said: Box::new(said.clone()) })
    }

    /// The words, in a language.
    pub fn say(&self, language: Language) -> String {
        match &self.0 {
            Said::Verbatim(text) => text.clone(),
            Said::Joined { parts, between } => {
                let said: Vec<String> = parts.iter().map(|part| part.say(language)).collect();
                said.join(between)
            }
            Said::Behind { before, said } => {
                let said = said.say(language);
                let lines: Vec<String> = said.lines().map(|line| format!("{before}: {line}")).collect();
                lines.join("\n")
            }
            Said::Message { id, arguments } => message(*id, arguments, language),
        }
    }
}

impl From<&str> for Saying {
    fn from(text: &str) -> Self {
        Self::verbatim(text)
    }
}

impl From<String> for Saying {
    fn from(text: String) -> Self {
        Self::verbatim(text)
    }
}

impl From<&Self> for Saying {
    fn from(saying: &Self) -> Self {
        saying.clone()
    }
}

impl fmt::Display for Saying {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.say(Language::English))
    }
}

fn message(id: Id, arguments: &[(&'static str, Argument)], language: Language) -> String {
    let mut values = FluentArgs::with_capacity(arguments.len());
    for (name, argument) in arguments {
        let value: FluentValue<'_> = match argument {
            Argument::Text(text) => visibly(text).into(),
            Argument::Count(count) => (*count).into(),
            Argument::Said(saying) => saying.say(language).into(),
        };
        values.set(*name, value);
    }
    // Another language falls back to English; that English has every message the compiler has seen to.
    [language, Language::English]
        .into_iter()
        .find_map(|one| formatted(id, &values, one))
        .unwrap_or_else(|| id.name.to_owned())
}

fn formatted(id: Id, values: &FluentArgs<'_>, language: Language) -> Option<String> {
    let bundle = bundle(id.area, language)?;
    let pattern = bundle.get_message(id.name)?.value()?;
    // What is wrong with a message or its arguments is found by the tests; a person is shown what there is.
    let mut ignored = Vec::new();
    Some(bundle.format_pattern(pattern, Some(values), &mut ignored).into_owned())
}

type Bundle = FluentBundle<FluentResource>;

/// Languages that fit the table: more folders than that are not made in one program.
const MOST: usize = 32;
/// Files of a language that fit the table.
const MOST_AREAS: usize = 32;

/// Parsed when the first of its messages is asked for: a verdict waits for the few messages of its own file alone.
static BUNDLES: [[OnceLock<Bundle>; MOST_AREAS]; MOST] =
    [const { [const { OnceLock::new() }; MOST_AREAS] }; MOST];

pub(crate) fn bundle(area: usize, language: Language) -> Option<&'static Bundle> {
    let row = if language == Language::Pseudo { MOST - 1 } else { language.folder() };
    let cell = BUNDLES.get(row)?.get(area)?;
    Some(cell.get_or_init(|| parsed(area, language)))
}

/// Reads the messages of an area anew, as the first word said from it does; whether its first reason is there. For measurements alone.
pub fn read_again(language: Language, area: &str) -> bool {
    let number = AREAS.iter().position(|known| *known == area);
    number.is_some_and(|number| parsed(number, language).get_message("reason-not-fit").is_some())
}

fn parsed(area: usize, language: Language) -> Bundle {
    const { assert!(AREAS.len() <= MOST_AREAS && FOLDERS.len() < MOST) };
    let folder = FOLDERS.get(language.folder());
    let tag: LanguageIdentifier = folder.and_then(|folder| folder.tag.parse().ok()).unwrap_or_default();
    let mut bundle = Bundle::new_concurrent(vec![tag]);
    // Marks of isolation break codes and the columns of a terminal; languages written from the right have no folder yet.
    bundle.set_use_isolating(false);
    if language == Language::Pseudo {
        bundle.set_transform(Some(pseudo::transform));
    }
    if let Some(folder) = folder {
        for text in [folder.terms, folder.areas.get(area).copied().unwrap_or_default()] {
            // The tests parse every file without a fault; what could not be read is left out.
            let resource = FluentResource::try_new(text.to_owned()).unwrap_or_else(|(resource, _)| resource);
            bundle.add_resource_overriding(resource);
        }
    }
    bundle
}

impl ToArgument for Saying {
    fn to_argument(&self) -> Argument {
        Argument::Said(self.clone())
    }
}

impl ToArgument for Argument {
    fn to_argument(&self) -> Argument {
        self.clone()
    }
}

impl<T: ToArgument + ?Sized> ToArgument for &T {
    fn to_argument(&self) -> Argument {
        (**self).to_argument()
    }
}

/// What is the same in every language.
#[macro_export]
macro_rules! argument_by_display {
    ($($noun:ty),* $(,)?) => {
        $(impl $crate::ToArgument for $noun {
            fn to_argument(&self) -> $crate::Argument {
                $crate::Argument::Text(self.to_string())
            }
        })*
    };
}

argument_by_display!(
    str,
    String,
    char,
    std::borrow::Cow<'_, str>,
    std::path::Display<'_>,
    fmt::Arguments<'_>
);

macro_rules! counts {
    ($($number:ty),*) => {
        $(impl ToArgument for $number {
            fn to_argument(&self) -> Argument {
                Argument::Count(i64::try_from(*self).unwrap_or(i64::MAX))
            }
        })*
    };
}

counts!(u8, u16, u32, u64, usize, i32, i64);

/// An error that says what is wrong by `saying()`: its `Display`, which is the English, and what lets it stand in another
/// message.
#[macro_export]
macro_rules! error_by_saying {
    ($($error:ty),* $(,)?) => {
        $(
            impl std::fmt::Display for $error {
                fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                    std::fmt::Display::fmt(&self.saying(), f)
                }
            }

            impl std::error::Error for $error {}

            impl $crate::ToArgument for $error {
                fn to_argument(&self) -> $crate::Argument {
                    $crate::Argument::Said(self.saying())
                }
            }

            impl From<$error> for $crate::Saying {
                fn from(error: $error) -> Self {
                    error.saying()
                }
            }

            impl From<&$error> for $crate::Saying {
                fn from(error: &$error) -> Self {
                    error.saying()
                }
            }
        )*
    };
}
