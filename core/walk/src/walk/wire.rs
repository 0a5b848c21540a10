//! How the nouns of `words` stand in a stored event: as the text that a person would read, refused on the way in unless
//! the noun's own maker takes it.

use std::fmt;
use std::marker::PhantomData;

use serde::{Deserialize, Deserializer, Serializer, de};

use slingseal_words::{CallSign, Digest, Name, Note, PointId, ProcedureId, Quantity, Serial, Source, Time};

/// A noun that is written as one line of text and read back from it.
pub(super) trait Line: Sized {
    fn show(&self) -> String;
    fn read(text: &str) -> Option<Self>;
}

macro_rules! lines {
    ($($name:ident $read:expr,)*) => {
        $(
            impl Line for $name {
                fn show(&self) -> String {
                    self.to_string()
                }

                fn read(text: &str) -> Option<Self> {
                    let read: fn(&str) -> Option<Self> = $read;
                    read(text)
                }
            }
        )*
    };
}

lines! {
    ProcedureId |text| Self::new(text).ok(),
    PointId |text| Self::new(text).ok(),
    CallSign |text| Self::received(text).ok(),
    Name |text| Self::received(text).ok(),
    Serial |text| Self::received(text).ok(),
    Source |text| Self::received(text).ok(),
    Note |text| Self::received(text).ok(),
    Digest Self::from_hex,
    Quantity |text| Self::parse(text).ok(),
    Time |text| Self::parse(text).ok(),
}

/// Reads a noun from a text where it lies: a walk has hundreds.
struct Reading<T>(PhantomData<T>);

impl<T: Line> de::Visitor<'_> for Reading<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a string")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        read(text)
    }
}

fn read<T: Line, E: de::Error>(text: &str) -> Result<T, E> {
    T::read(text).ok_or_else(|| E::custom(format!("\"{text}\" cannot stand here")))
}

/// One noun.
pub(super) mod line {
    use super::{Deserializer, Line, PhantomData, Reading, Serializer};

    pub(in crate::walk) fn serialize<T: Line, S: Serializer>(line: &T, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(&line.show())
    }

    pub(in crate::walk) fn deserialize<'de, T: Line, D: Deserializer<'de>>(from: D) -> Result<T, D::Error> {
        from.deserialize_str(Reading(PhantomData))
    }
}

/// A noun that may be missing.
pub(super) mod maybe {
    use super::{Deserialize, Deserializer, Line, Serializer, read};

    pub(in crate::walk) fn serialize<T: Line, S: Serializer>(
        line: &Option<T>,
        out: S,
    ) -> Result<S::Ok, S::Error> {
        match line {
            Some(line) => out.serialize_some(&line.show()),
            None => out.serialize_none(),
        }
    }

    pub(in crate::walk) fn deserialize<'de, T: Line, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<T>, D::Error> {
        Option::<String>::deserialize(from)?.map(|text| read(&text)).transpose()
    }
}

/// A list of nouns.
pub(super) mod list {
    use super::{Deserialize, Deserializer, Line, Serializer, read};

    pub(in crate::walk) fn serialize<T: Line, S: Serializer>(lines: &[T], out: S) -> Result<S::Ok, S::Error> {
        out.collect_seq(lines.iter().map(Line::show))
    }

    pub(in crate::walk) fn deserialize<'de, T: Line, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Vec<T>, D::Error> {
        Vec::<String>::deserialize(from)?.iter().map(|text| read(text)).collect()
    }
}
