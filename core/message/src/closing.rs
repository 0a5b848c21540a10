//! The closing statement: what a leader hands up once an account is closed. The digest of everything that the account rests on,
//! what did not add up, and how the leader explains each of it.

use crate::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Sign1Error, Unsigned, Writer};
use slingseal_catalogue::Saying;
use slingseal_words::{Description, Digest, Digesting, Note, Time};

/// The most open points of one statement.
pub const MOST_EXPLAINED: usize = 200;

/// Bytes and depth of a statement: more than a code holds, since an account may need many words.
const LIMITS: Limits = Limits { bytes: 65_536, depth: 8 };

/// A point that did not add up, and what the leader says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// What it is: the code of its kind, at most 24 bytes of a-z and `_`.
    pub kind: String,
    /// Of what: a load, a piece, a device.
    pub subject: Description,
    /// The leader's words.
    pub note: Note,
}

/// What a leader hands up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosingStatement {
    /// When it was signed.
    pub issued: Time,
    /// What the leader calls it: a day, an operation.
    pub name: Description,
    /// The first second that it is about, and the first that it is not; none where it was not chosen by time.
    pub days: Option<(Time, Time)>,
    /// SHA-256 over everything that the account rests on: see the specification.
    pub account: Digest,
    /// How many words that is.
    pub words: u32,
    /// Loads, inspections, loads lifted, loads set down, loads lost.
    pub counts: [u32; 5],
    /// Every point that did not add up, with the leader's words.
    pub explained: Vec<Explained>,
}

/// Why bytes are not a closing statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClosingError {
    /// Not a signed message.
    Form(Sign1Error),
    /// Not built as a statement.
    Shape(ShapeError),
}

impl ClosingError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Form(error) => error.saying(),
            Self::Shape(error) => error.saying(),
        }
    }
}

slingseal_catalogue::error_by_saying!(ClosingError);

impl From<Sign1Error> for ClosingError {
    fn from(error: Sign1Error) -> Self {
        Self::Form(error)
    }
}

impl From<ShapeError> for ClosingError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

/// The digest of an account that is being made, of every word that it rests on: each once, in the order of their digests.
pub struct AccountDigest {
    all: Digesting,
    last: Option<Digest>,
    words: u32,
}

impl Default for AccountDigest {
    fn default() -> Self {
        let mut all = Digest::begin();
        all.take(b"slingseal account 1");
        Self { all, last: None, words: 0 }
    }
}

impl AccountDigest {
    /// Takes the next word. The caller gives them in order; one that is given twice is one.
    pub fn take(&mut self, word: Digest) {
        debug_assert!(self.last.is_none_or(|last| last <= word), "words come in order");
        if self.last != Some(word) {
            self.all.take(word.as_bytes());
            self.last = Some(word);
            self.words = self.words.saturating_add(1);
        }
    }

    /// The digest, and of how many words it is.
    pub fn finish(self) -> (Digest, u32) {
        (self.all.finish(), self.words)
    }
}

/// The digest of an account: of every word that it rests on, whatever the order in which they are given.
pub fn account_digest(words: impl IntoIterator<Item = Digest>) -> (Digest, u32) {
    let words: std::collections::BTreeSet<Digest> = words.into_iter().collect();
    let mut all = AccountDigest::default();
    words.into_iter().for_each(|word| all.take(word));
    all.finish()
}

impl ClosingStatement {
    /// Prepares the statement under the leader's credential, to be signed and finished.
    ///
    /// ```cddl
    /// closing   = message  ; header { 1: -19, 13: the leader's credential }
    ///                      ; claims { 6: issued, -65537: content }
    /// content   = [name: tstr, days: [from: uint, to: uint] / null, account: bstr .size 32, words: uint .size 4,
    ///              [5*5 uint .size 4], [0*200 explained]]
    /// explained = [kind: tstr, subject: tstr, note: tstr]
    /// ```
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(6).text(self.name.as_str());
        out.maybe(self.days, |out, (from, to)| out.array(2).int(from.unix()).int(to.unix()));
        out.bytes(self.account.as_bytes()).int(self.words.into()).array(self.counts.len());
        for count in self.counts {
            out.int(count.into());
        }
        out.array(self.explained.len());
        for one in &self.explained {
            out.array(3).text(&one.kind).text(one.subject.as_str()).text(one.note.as_str());
        }
        let content = out.into_bytes();
        let claims = Claims { issued: Some(self.issued), ours: Some(&content), ..Claims::default() };
        Unsigned::prepare(Kind::Closing, credential, &claims)
    }

    /// Reads a statement; believe nothing of it before the signer is known.
    ///
    /// # Errors
    /// Bytes that are not a statement in its only spelling.
    pub fn open(bytes: &[u8]) -> Result<(Self, Sign1<'_>), ClosingError> {
        let message = Sign1::parse(bytes, LIMITS)?;
        let Claims {
            subject: None,
            expires: None,
            issued: Some(issued),
            key: None,
            scope: None,
            ours: Some(content),
        } = Claims::parse(message.payload)?
        else {
            return Err(ShapeError("claims of a closing statement").into());
        };
        let mut reader = Reader::new(content);
        reader.array(6, "content of a closing statement")?;
        let name = reader.line("name", Description::received)?;
        let days = reader.maybe("days", |reader| {
            reader.array(2, "days")?;
            let (from, to) = (reader.time("first day")?, reader.time("last day")?);
            if from < to { Ok((from, to)) } else { Err(ShapeError("days")) }
        })?;
        let account = Digest::from_bytes(reader.fixed("account")?);
        let words = reader.small("number of words")?;
        reader.array(5, "counts")?;
        let mut counts = [0; 5];
        for count in &mut counts {
            *count = reader.small("count")?;
        }
        let explained = reader.list(MOST_EXPLAINED, "explained points", explained)?;
        Ok((Self { issued, name, days, account, words, counts, explained }, message))
    }
}

fn explained(reader: &mut Reader<'_>) -> Result<Explained, ShapeError> {
    reader.array(3, "explained point")?;
    let kind = reader.text("kind of a point")?;
    if kind.is_empty()
        || kind.len() > 24
        || !kind.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_')
    {
        return Err(ShapeError("kind of a point"));
    }
    Ok(Explained {
        kind: kind.to_owned(),
        subject: reader.line("subject", Description::received)?,
        note: reader.line("note", Note::received)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn statement() -> ClosingStatement {
        ClosingStatement {
            issued: Time::from_unix(1_790_000_000),
            name: Description::new("25 NOV").unwrap(),
            days: Some((Time::from_unix(1_789_900_000), Time::from_unix(1_789_986_400))),
            account: Digest::of(b"all of it"),
            words: 40,
            counts: [12, 11, 10, 9, 1],
            explained: vec![Explained {
                kind: "lost".into(),
                subject: Description::new("load KM-007").unwrap(),
                note: Note::new("jettisoned over water, crew unhurt").unwrap(),
            }],
        }
    }

    #[test]
    fn goes_out_and_comes_back() {
        for statement in [statement(), ClosingStatement { days: None, explained: Vec::new(), ..statement() }]
        {
            let unsigned = statement.prepare(&[0xa0]);
            let bytes = unsigned.finish(&[9; 64]);
            let (read, message) = ClosingStatement::open(&bytes).unwrap();
            assert_eq!(read, statement);
            assert_eq!(message.to_be_signed(Kind::Closing), unsigned.to_be_signed());
        }
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let open = |statement: ClosingStatement| {
            ClosingStatement::open(&statement.prepare(&[0xa0]).finish(&[9; 64])).is_ok()
        };
        let one = statement().explained.remove(0);
        assert!(open(ClosingStatement { explained: vec![one.clone(); MOST_EXPLAINED], ..statement() }));
        assert!(!open(ClosingStatement { explained: vec![one.clone(); MOST_EXPLAINED + 1], ..statement() }));
        let capitals = Explained { kind: "Lost".into(), ..one };
        assert!(!open(ClosingStatement { explained: vec![capitals], ..statement() }));
        let now = Time::from_unix(5);
        assert!(!open(ClosingStatement { days: Some((now, now)), ..statement() }));
    }

    #[test]
    fn an_account_is_a_set() {
        let (a, b) = (Digest::of(b"a"), Digest::of(b"b"));
        assert_eq!(account_digest([a, b, a]), account_digest([b, a]));
        assert_ne!(account_digest([a]), account_digest([a, b]));
        let by_hand = Digest::of_parts(&[b"slingseal account 1", a.as_bytes()]);
        assert_eq!(account_digest([a]), (by_hand, 1));
    }
}
