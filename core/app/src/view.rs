use std::collections::BTreeMap;

use serde::{Serialize, Serializer};

use slingseal_account::report::{MomentKind, PointKind};
use slingseal_judgement::{FlowState, Grade, TagSignature};
use slingseal_message::movement::{MovementKind, RefusalCause};
use slingseal_message::tag::WeightSource;
use slingseal_message::trust::Role;
use slingseal_walk::exam::Outcome;
use slingseal_walk::procedure::Subject;
use slingseal_words::Time;

/// An enum of a room that knows no JSON. Views hold it as it is, and JSON, exports and commands write its stable word.
pub(crate) trait Worded {
    /// The word.
    fn word(&self) -> &'static str;
}

macro_rules! worded {
    ($($name:ty: $word:ident),+ $(,)?) => {
        $(impl Worded for $name {
            fn word(&self) -> &'static str {
                <$name>::$word(*self)
            }
        })+
    };
}

worded!(
    FlowState: word,
    Grade: word,
    MomentKind: word,
    MovementKind: word,
    Outcome: word,
    PointKind: word,
    RefusalCause: word,
    Role: name,
    Subject: word,
    TagSignature: word,
    WeightSource: word,
    slingseal_rigging::State: as_str,
    slingseal_rigging::Verdict: as_str,
);

/// The stable word, for `serialize_with`.
pub(crate) fn word<T: Worded, S: Serializer>(of: &T, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(of.word())
}

/// The stable word, or null.
pub(crate) fn word_or_null<T: Worded, S: Serializer>(of: &Option<T>, to: S) -> Result<S::Ok, S::Error> {
    of.as_ref().map(Worded::word).serialize(to)
}

/// The stable word, or the empty text.
pub(crate) fn word_or_empty<T: Worded, S: Serializer>(of: &Option<T>, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(of.as_ref().map_or("", Worded::word))
}

/// The stable words of several, in their order.
pub(crate) fn words<T: Worded, S: Serializer>(of: &[T], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(of.iter().map(Worded::word))
}

/// How many of each, by the stable word.
pub(crate) fn counted<T: Worded, S: Serializer>(of: &BTreeMap<T, u64>, to: S) -> Result<S::Ok, S::Error> {
    to.collect_map(of.iter().map(|(one, count)| (one.word(), count)))
}

/// A moment in both ways of writing: for machines and for the trade.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Stamp {
    /// Seconds since 1970-01-01T00:00:00Z.
    pub unix: i64,
    /// RFC 3339, UTC.
    pub rfc3339: String,
    /// Date-time group.
    pub dtg: String,
}

impl From<Time> for Stamp {
    fn from(time: Time) -> Self {
        Self { unix: time.unix(), rfc3339: time.rfc3339(), dtg: time.dtg() }
    }
}

/// How long something took, in seconds: `1:05`, or `1:00:05`.
pub fn clock(seconds: impl Into<i64>) -> String {
    let seconds = seconds.into();
    match (seconds / 3_600, seconds / 60 % 60, seconds % 60) {
        (0, minutes, seconds) => format!("{minutes}:{seconds:02}"),
        (hours, minutes, seconds) => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

/// Lower-case hexadecimal, and back.
pub(crate) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Sixteen bytes of hexadecimal.
pub(crate) fn unhex16(text: &str) -> Option<[u8; 16]> {
    let number = (text.len() == 32 && text.bytes().all(|byte| byte.is_ascii_hexdigit()))
        .then(|| u128::from_str_radix(text, 16).ok())??;
    Some(number.to_be_bytes())
}

#[cfg(test)]
mod tests {
    use super::clock;

    #[test]
    fn how_long_is_said_as_people_say_it() {
        assert_eq!([5, 65, 3_599, 3_605].map(clock), ["0:05", "1:05", "59:59", "1:00:05"]);
    }
}
