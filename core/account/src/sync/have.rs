//! The have code: what a device has, said so shortly that one code carries it.
//!
//! Records are counted by the day on which they were sealed, with a print over their digests. The other side counts its own in
//! the same days and sends every day that differs: a little too much now and then, never too little.

use slingseal_catalogue::{Saying, faults as words};
use std::collections::BTreeMap;

use slingseal_message::envelope::{
    Kind, Limits, Reader, ShapeError, StrictError, TextError, Writer, check, unwrap, wrap,
};
use slingseal_words::{Digest, Time};

/// The newest days stand alone; all older ones share as many spans.
const DAYS_ALONE: usize = 30;
const OLD_SPANS: usize = 8;
const PRINT: usize = 8;

/// A record that a device has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Known {
    /// When it was sealed.
    pub issued: Time,
    /// What it goes by.
    pub digest: Digest,
    /// Whether the full record is there, or the seal alone.
    pub whole: bool,
}

impl Known {
    fn day(&self) -> i64 {
        self.issued.unix().div_euclid(86_400)
    }
}

/// What a device has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Have {
    /// Of everything that is no record: tags, voids, credentials, rosters.
    papers: [u8; PRINT],
    /// The first day of a span, how many records it holds, and their print; the first span begins with time itself.
    spans: Vec<(i64, u64, [u8; PRINT])>,
}

/// Why a text is no have code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HaveError {
    /// Not a text of ours.
    Text(TextError),
    /// A code of another kind.
    OtherKind(Kind),
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// Not built as a have list.
    Shape(ShapeError),
}

impl HaveError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Text(error) => error.saying(),
            Self::OtherKind(kind) => words::HaveErrorOtherKind { kind }.into(),
            Self::Strict(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(HaveError);

impl From<TextError> for HaveError {
    fn from(error: TextError) -> Self {
        Self::Text(error)
    }
}

impl From<StrictError> for HaveError {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<ShapeError> for HaveError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

fn print_of(digests: impl Iterator<Item = (Digest, bool)>) -> [u8; PRINT] {
    let mut sorted: Vec<(Digest, bool)> = digests.collect();
    sorted.sort_unstable();
    sorted.dedup();
    let mut bytes = Vec::with_capacity(sorted.len() * 33);
    for (digest, whole) in sorted {
        bytes.extend_from_slice(digest.as_bytes());
        bytes.push(whole.into());
    }
    Digest::of(&bytes).as_bytes().first_chunk().copied().unwrap_or_default()
}

impl Have {
    /// Says what is there: the records, and the digests of all tags, voids, credentials and rosters.
    pub fn of(records: &[Known], papers: &[Digest]) -> Self {
        let mut days: BTreeMap<i64, Vec<(Digest, bool)>> = BTreeMap::new();
        for record in records {
            days.entry(record.day()).or_default().push((record.digest, record.whole));
        }
        let old = days.len().saturating_sub(DAYS_ALONE);
        let each = old.div_ceil(OLD_SPANS).max(1);
        let mut spans: Vec<(i64, Vec<(Digest, bool)>)> = Vec::new();
        for (at, (day, digests)) in days.into_iter().enumerate() {
            match spans.last_mut() {
                Some((_, last)) if at < old && !at.is_multiple_of(each) => last.extend(digests),
                _ => spans.push((day, digests)),
            }
        }
        Self {
            papers: print_of(papers.iter().map(|digest| (*digest, true))),
            spans: spans
                .into_iter()
                .map(|(day, digests)| (day, digests.len() as u64, print_of(digests.into_iter())))
                .collect(),
        }
    }

    /// Whether the other side's tags, voids, credentials and rosters are these.
    pub fn has_papers(&self, mine: &[Digest]) -> bool {
        self.papers == print_of(mine.iter().map(|digest| (*digest, true)))
    }

    /// Of my records, those that the other side may lack.
    pub fn lacks(&self, mine: &[Known]) -> Vec<Known> {
        let mut spans: BTreeMap<usize, Vec<Known>> = BTreeMap::new();
        for record in mine {
            let day = record.day();
            let span = self.spans.iter().rposition(|(first, ..)| *first <= day).unwrap_or(0);
            spans.entry(span).or_default().push(*record);
        }
        let mut lacking = Vec::new();
        for (span, records) in spans {
            let print = print_of(records.iter().map(|record| (record.digest, record.whole)));
            if self.spans.get(span).is_none_or(|(_, _, theirs)| *theirs != print) {
                lacking.extend(records);
            }
        }
        lacking
    }

    /// How many records the other side counts.
    pub fn count(&self) -> u64 {
        self.spans.iter().map(|(_, count, _)| count).sum()
    }

    /// As the text of a code. Unsigned: a lie costs the liar a longer bundle.
    ///
    /// ```cddl
    /// have = [papers: bstr .size 8, [* [first day since 1970: int, count: uint, print: bstr .size 8]]]
    /// ```
    pub fn to_text(&self) -> String {
        let mut out = Writer::new();
        out.array(2).bytes(&self.papers).array(self.spans.len());
        for (day, count, print) in &self.spans {
            out.array(3).int(*day).int(i64::try_from(*count).unwrap_or(i64::MAX)).bytes(print);
        }
        wrap(Kind::Have, &out.into_bytes())
    }

    /// Reads the text of a code.
    ///
    /// # Errors
    /// A text that is no have list in its only spelling.
    pub fn parse(text: &str) -> Result<Self, HaveError> {
        let bytes = match unwrap(text)? {
            (Kind::Have, bytes) => bytes,
            (other, _) => return Err(HaveError::OtherKind(other)),
        };
        check(&bytes, Limits::CODE)?;
        let mut reader = Reader::new(&bytes);
        reader.array(2, "have list")?;
        let papers = reader.fixed("papers")?;
        let spans = reader.list(DAYS_ALONE + OLD_SPANS, "days", |reader| {
            reader.array(3, "day")?;
            Ok((reader.int("day")?, reader.small("count")?, reader.fixed("print")?))
        })?;
        if spans.windows(2).any(|pair| matches!(pair, [(a, ..), (b, ..)] if a >= b)) {
            return Err(ShapeError("order of days").into());
        }
        Ok(Self { papers, spans })
    }
}

#[cfg(test)]
mod tests {
    use super::{Have, HaveError, Known};
    use slingseal_words::{Digest, Seconds, Time};

    fn known(number: u32, day: i64) -> Known {
        let issued =
            Time::parse("2026-07-09").unwrap().plus(Seconds::days(day)).plus(Seconds(i64::from(number)));
        Known { issued, digest: Digest::of(&number.to_be_bytes()), whole: true }
    }

    fn many(count: u32, days: i64) -> Vec<Known> {
        (0..count).map(|number| known(number, i64::from(number) % days)).collect()
    }

    #[test]
    fn only_days_that_differ_are_sent() {
        let theirs = many(100, 10);
        let have = Have::parse(&Have::of(&theirs, &[]).to_text()).unwrap();
        assert_eq!(have.count(), 100);
        assert_eq!(have.lacks(&theirs), []);
        let mut mine = theirs.clone();
        mine.push(known(1_000, 3));
        let lacking = have.lacks(&mine);
        assert_eq!(lacking.len(), 11, "the day of the new one");
        assert!(lacking.contains(&known(1_000, 3)));
        // Days that the other side has never heard of, before and after all that it has.
        for day in [-400, 400] {
            assert!(have.lacks(&[known(7_000, day)]).contains(&known(7_000, day)));
        }
    }

    /// Whatever two devices have, what the one lacks is sent: a year and more, and seals without their records.
    #[test]
    fn never_too_little() {
        let all = many(3_000, 400);
        for step in [2, 3, 7, 50, 2_999] {
            let theirs: Vec<Known> = all.iter().copied().step_by(step).collect();
            let have = Have::parse(&Have::of(&theirs, &[]).to_text()).unwrap();
            let sent = have.lacks(&all);
            for record in &all {
                assert!(theirs.contains(record) || sent.contains(record), "step {step}");
            }
        }
        let seals: Vec<Known> = all.iter().map(|record| Known { whole: false, ..*record }).collect();
        assert_eq!(Have::of(&seals, &[]).lacks(&all).len(), all.len());
        assert_eq!(Have::of(&[], &[]).lacks(&all).len(), all.len());
    }

    /// 100,000 records over three years still fit one code: version 40 at level M holds 3,391 characters (ISO/IEC 18004), and
    /// this stays far below.
    #[test]
    fn one_code_carries_it() {
        let text = Have::of(&many(100_000, 1_000), &[]).to_text();
        assert!(text.len() < 1_000, "{} characters", text.len());
    }

    #[test]
    fn papers_as_a_set() {
        let [a, b] = [Digest::of(b"a"), Digest::of(b"b")];
        let have = Have::of(&[], &[a, b]);
        assert!(have.has_papers(&[b, a, a]));
        assert!(!have.has_papers(&[a]));
    }

    #[test]
    fn refuses_other_texts() {
        assert!(matches!(Have::parse("SL1:BB8"), Err(HaveError::OtherKind(_))));
        assert!(matches!(Have::parse("HV1:BB8"), Err(HaveError::Strict(_) | HaveError::Shape(_))));
        assert!(matches!(Have::parse("hello"), Err(HaveError::Text(_))));
    }
}
