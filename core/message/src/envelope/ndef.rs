//! Messages on an NFC sticker: an NDEF message (NFC Forum, "NFC Data Exchange Format", NDEF 1.0, 2006) with one MIME record
//! (its §3.2.6, type name format 2) a message, the payload the binary message itself.

use super::Kind;
use slingseal_catalogue::{Saying, faults as words};

/// Why the bytes of a sticker are none of our messages, or ours fit on none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NdefError {
    /// A sticker that nobody has written.
    Empty,
    /// It holds something, but nothing of ours.
    NotOurs,
    /// The kind is known in another version.
    OtherVersion {
        /// The kind.
        kind: Kind,
        /// Its front, as in [`Kind::front`].
        front: String,
    },
    /// It breaks the format, or holds one kind twice.
    Damaged(&'static str),
    /// More than any sticker holds.
    TooLong(usize),
}

impl NdefError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Empty => words::NdefErrorEmpty.into(),
            Self::NotOurs => words::NdefErrorNotOurs.into(),
            Self::OtherVersion { kind, front } => words::NdefErrorOtherVersion { kind, front }.into(),
            Self::Damaged(what) => words::NdefErrorDamaged { what }.into(),
            Self::TooLong(count) => words::NdefErrorTooLong { count }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(NdefError);

/// What was read: our messages in their order, and how many records of others stand beside them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ndef {
    /// Ours, each kind once.
    pub messages: Vec<(Kind, Vec<u8>)>,
    /// Records that are none of ours.
    pub others: usize,
}

/// More than any sticker that is meant here: what a reader may hand us and we look at.
const LONGEST: usize = 32 * 1024;

/// Before the front in lower case. The name is not registered with IANA (RFC 6838 §3.2).
const TYPE: &str = "application/vnd.slingseal.";

// The head of a record, §3.2: first and last of the message, more chunks follow, short payload, an id is there, kind of type.
const BEGINS: u8 = 0x80;
const ENDS: u8 = 0x40;
const CHUNK: u8 = 0x20;
const SHORT: u8 = 0x10;
const HAS_ID: u8 = 0x08;
const FORMAT: u8 = 0x07;
const EMPTY: u8 = 0;
const MIME: u8 = 2;
const UNKNOWN: u8 = 5;

impl Kind {
    /// The MIME type of its record on a sticker: `application/vnd.slingseal.sl1`.
    pub fn mime(self) -> String {
        format!("{TYPE}{}", self.front().to_ascii_lowercase())
    }
}

/// The one NDEF message that holds these, in this order; its length is what the sticker must have room for.
pub fn to_ndef(messages: &[(Kind, &[u8])]) -> Result<Vec<u8>, NdefError> {
    let mut out = Vec::new();
    let last = messages.len().checked_sub(1).ok_or(NdefError::Empty)?;
    for (at, (kind, payload)) in messages.iter().enumerate() {
        if messages.iter().take(at).any(|(earlier, _)| earlier.letters() == kind.letters()) {
            return Err(NdefError::Damaged("one kind twice"));
        }
        let first = if at == 0 { BEGINS } else { 0 };
        let end = if at == last { ENDS } else { 0 };
        let mime = kind.mime();
        let type_length = u8::try_from(mime.len()).map_err(|_| NdefError::Damaged("type"))?;
        match u8::try_from(payload.len()) {
            Ok(length) => out.extend([first | end | SHORT | MIME, type_length, length]),
            Err(_) => {
                let length = u32::try_from(payload.len()).map_err(|_| NdefError::TooLong(payload.len()))?;
                out.extend([first | end | MIME, type_length]);
                out.extend(length.to_be_bytes());
            }
        }
        out.extend(mime.bytes());
        out.extend_from_slice(payload);
    }
    if out.len() > LONGEST { Err(NdefError::TooLong(out.len())) } else { Ok(out) }
}

/// Our messages out of an NDEF message. Records of others are passed over; ours have one spelling, and what is not in it is
/// damaged. Chunked records are refused: nobody needs them for what fits on a sticker.
pub fn from_ndef(bytes: &[u8]) -> Result<Ndef, NdefError> {
    if bytes.len() > LONGEST {
        return Err(NdefError::TooLong(bytes.len()));
    }
    let mut read = Ndef { messages: Vec::new(), others: 0 };
    let (mut rest, mut begun, mut ended, mut blank) = (bytes, false, bytes.is_empty(), bytes.is_empty());
    let mut newer = None;
    while !ended {
        let (record, after) = Record::take(rest)?;
        rest = after;
        if record.begins == begun {
            return Err(NdefError::Damaged("order of records"));
        }
        begun = true;
        ended = record.ends;
        match record.ours() {
            Some(Ok(kind)) => {
                if read.messages.iter().any(|(earlier, _)| earlier.letters() == kind.letters()) {
                    return Err(NdefError::Damaged("one kind twice"));
                }
                if !record.plain {
                    return Err(NdefError::Damaged("head of a record"));
                }
                read.messages.push((kind, record.payload.to_vec()));
            }
            Some(Err(other)) => newer = Some(other),
            None if record.format == EMPTY => blank = true,
            None => read.others = read.others.saturating_add(1),
        }
    }
    if !rest.is_empty() {
        return Err(NdefError::Damaged("bytes behind the last record"));
    }
    match (newer, read.messages.is_empty()) {
        // What is of a version to come may say that the rest holds no more.
        (Some(newer), _) => Err(newer),
        (None, true) if blank && read.others == 0 => Err(NdefError::Empty),
        (None, true) => Err(NdefError::NotOurs),
        (None, false) => Ok(read),
    }
}

struct Record<'b> {
    begins: bool,
    ends: bool,
    format: u8,
    mime: &'b [u8],
    payload: &'b [u8],
    /// No id, and the length in the fewest bytes.
    plain: bool,
}

impl<'b> Record<'b> {
    fn take(bytes: &'b [u8]) -> Result<(Self, &'b [u8]), NdefError> {
        let (&[head, type_length], bytes) = bytes.split_first_chunk::<2>().ok_or(CUT)?;
        if head & CHUNK != 0 || head & FORMAT > UNKNOWN {
            return Err(NdefError::Damaged("a record in pieces"));
        }
        let (length, bytes) = if head & SHORT != 0 {
            let (&[length], bytes) = bytes.split_first_chunk::<1>().ok_or(CUT)?;
            (u32::from(length), bytes)
        } else {
            let (&length, bytes) = bytes.split_first_chunk::<4>().ok_or(CUT)?;
            (u32::from_be_bytes(length), bytes)
        };
        let (id_length, bytes) = if head & HAS_ID != 0 {
            let (&[length], bytes) = bytes.split_first_chunk::<1>().ok_or(CUT)?;
            (length, bytes)
        } else {
            (0, bytes)
        };
        let format = head & FORMAT;
        // §3.2.6: an empty record has no type, id and payload; an unknown one has no type.
        if (matches!(format, EMPTY | UNKNOWN) && type_length != 0)
            || (format == EMPTY && (length != 0 || id_length != 0))
        {
            return Err(NdefError::Damaged("head of a record"));
        }
        let (mime, bytes) = bytes.split_at_checked(type_length.into()).ok_or(CUT)?;
        let (_, bytes) = bytes.split_at_checked(id_length.into()).ok_or(CUT)?;
        let size = usize::try_from(length).map_err(|_| CUT)?;
        let (payload, bytes) = bytes.split_at_checked(size).ok_or(CUT)?;
        let plain = head & HAS_ID == 0 && (head & SHORT != 0) == (length < 256);
        Ok((Self { begins: head & BEGINS != 0, ends: head & ENDS != 0, format, mime, payload, plain }, bytes))
    }

    /// The kind, where it is one of ours; an error where it is of a version that is not known here.
    fn ours(&self) -> Option<Result<Kind, NdefError>> {
        let front = self.mime.strip_prefix(TYPE.as_bytes()).filter(|_| self.format == MIME)?;
        if let Some(kind) = Kind::ALL.iter().find(|kind| kind.mime().as_bytes() == self.mime) {
            return Some(Ok(*kind));
        }
        let (letters, version) = front.split_at_checked(2)?;
        let digits = (1..4).contains(&version.len()) && version.iter().all(u8::is_ascii_digit);
        let kind = Kind::ALL.iter().find(|kind| {
            kind.front().as_bytes().iter().map(u8::to_ascii_lowercase).take(2).eq(letters.iter().copied())
        });
        let front = String::from_utf8_lossy(front).to_uppercase();
        kind.filter(|_| digits).map(|kind| Err(NdefError::OtherVersion { kind: *kind, front }))
    }
}

const CUT: NdefError = NdefError::Damaged("it ends too soon");

#[cfg(test)]
mod tests {
    use super::{Kind, NdefError, from_ndef, to_ndef};

    fn read(bytes: &[u8]) -> Vec<(Kind, Vec<u8>)> {
        from_ndef(bytes).unwrap().messages
    }

    /// NDEF 1.0 §3.2, by hand: MB, ME, SR and format 2 in one byte, then both lengths, the type and the payload.
    #[test]
    fn one_record_by_the_book() {
        let bytes = to_ndef(&[(Kind::Seal, &[1, 2, 3])]).unwrap();
        let mut wanted = vec![0xD2, 29, 3];
        wanted.extend(b"application/vnd.slingseal.sl1");
        wanted.extend([1, 2, 3]);
        assert_eq!(bytes, wanted);
        assert_eq!(read(&bytes), [(Kind::Seal, vec![1, 2, 3])]);
    }

    #[test]
    fn two_records_and_a_long_payload() {
        let (seal, tag) = ([7; 317], [9; 255]);
        let bytes = to_ndef(&[(Kind::Seal, &seal), (Kind::Tag, &tag)]).unwrap();
        // MB alone with a length of four bytes, then ME and SR.
        assert_eq!(bytes.get(..6), Some(&[0x82, 29, 0, 0, 1, 61][..]));
        assert_eq!(bytes.get(6 + 29 + 317), Some(&0x52));
        assert_eq!(bytes.len(), 6 + 29 + 317 + 3 + 29 + 255);
        assert_eq!(read(&bytes), [(Kind::Seal, seal.to_vec()), (Kind::Tag, tag.to_vec())]);
    }

    #[test]
    fn stickers_of_others() {
        // A factory-new sticker: one empty record; or nothing at all.
        for empty in [&[0xD0, 0, 0][..], &[]] {
            assert_eq!(from_ndef(empty), Err(NdefError::Empty));
        }
        // A web address (RTD URI 1.0: type U, 0x04 stands for https://).
        let address = [0xD1, 1, 6, b'U', 4, b'a', b'.', b'o', b'r', b'g'];
        assert_eq!(from_ndef(&address), Err(NdefError::NotOurs));
        // Beside ours it is passed over.
        let mut both = to_ndef(&[(Kind::Tag, &[5])]).unwrap();
        both[0] &= !0x40;
        both.extend([0x51, 1, 6, b'U', 4, b'a', b'.', b'o', b'r', b'g']);
        let read = from_ndef(&both).unwrap();
        assert_eq!((read.messages, read.others), (vec![(Kind::Tag, vec![5])], 1));
    }

    #[test]
    fn a_version_to_come_is_told() {
        let mut bytes = to_ndef(&[(Kind::Seal, &[1])]).unwrap();
        bytes[3 + 28] = b'2';
        let error = from_ndef(&bytes).unwrap_err();
        assert_eq!(error, NdefError::OtherVersion { kind: Kind::Seal, front: "SL2".into() });
    }

    /// Every cut, and every way in which a head can lie.
    #[test]
    fn what_is_damaged_is_told() {
        let bytes = to_ndef(&[(Kind::Seal, &[1; 300]), (Kind::Tag, &[2; 40])]).unwrap();
        for length in 1..bytes.len() {
            assert!(matches!(from_ndef(&bytes[..length]), Err(NdefError::Damaged(_))), "{length}");
        }
        for (at, bit, what) in [
            (0, 0x80, "begins in the middle"),
            (0, 0x40, "ends too soon"),
            (0, 0x20, "in pieces"),
            (0, 0x10, "short and long"),
            (0, 0x08, "an id that is not there"),
            (6 + 29 + 300, 0x80, "begins twice"),
            (6 + 29 + 300, 0x40, "does not end"),
        ] {
            let mut bad = bytes.clone();
            bad[at] ^= bit;
            assert!(matches!(from_ndef(&bad), Err(NdefError::Damaged(_))), "{what}: {:?}", from_ndef(&bad));
        }
        // A length of four gigabytes is not believed.
        assert!(from_ndef(&[0xC2, 1, 0xFF, 0xFF, 0xFF, 0xFF, b'a']).is_err());
        // A short payload in the long form, and an id: another spelling of ours.
        let mut long = vec![0xC2, 29, 0, 0, 0, 1];
        long.extend(b"application/vnd.slingseal.sl1\x05");
        let mut with_id = vec![0xDA, 29, 1, 1];
        with_id.extend(b"application/vnd.slingseal.sl1i\x05");
        for other in [long, with_id] {
            assert_eq!(from_ndef(&other), Err(NdefError::Damaged("head of a record")));
        }
        let twice = [(Kind::Seal, &[1][..]), (Kind::Seal, &[2][..])];
        assert_eq!(to_ndef(&twice), Err(NdefError::Damaged("one kind twice")));
        assert_eq!(to_ndef(&[]), Err(NdefError::Empty));
        assert!(matches!(to_ndef(&[(Kind::Tag, &[0; 40_000])]), Err(NdefError::TooLong(_))));
    }
}
