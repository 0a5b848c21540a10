use super::Kind;
use slingseal_catalogue::{Saying, faults as words};

/// Why a text is not a message of ours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TextError {
    /// It does not start with a kind.
    NotOurs,
    /// The kind is known in another version.
    OtherVersion {
        /// The kind.
        kind: Kind,
        /// What it starts with.
        front: String,
    },
    /// The Base45 part is damaged or not in its only spelling.
    Damaged(Kind),
    /// Longer than any code.
    TooLong(usize),
}

impl TextError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::NotOurs => words::TextErrorNotOurs.into(),
            Self::OtherVersion { kind, front } => words::TextErrorOtherVersion { kind, front }.into(),
            Self::Damaged(kind) => words::TextErrorDamaged { kind }.into(),
            Self::TooLong(count) => words::TextErrorTooLong { count }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(TextError);

/// The most characters that are looked at: what a frame, a file of text or a scanner may bring for one message.
const LONGEST: usize = 8 * 1024;
/// The same for a closing statement, which travels as a text where it fits no code: 65,536 bytes in Base45, and what stands before them.
const LONGEST_CLOSING: usize = 65_536 / 2 * 3 + 4;

fn longest(text: &str) -> usize {
    let closing = text.split_once(':').is_some_and(|(front, _)| front == Kind::Closing.front());
    if closing { LONGEST_CLOSING } else { LONGEST }
}

/// The message as text for a code's alphanumeric mode: kind, version, colon, Base45 (RFC 9285).
pub fn wrap(kind: Kind, bytes: &[u8]) -> String {
    format!("{}:{}", kind.front(), base45::encode(bytes))
}

/// The kind and the bytes of a text. Line ends around it do not count (a keyboard-wedge scanner types one); anything
/// else that is not the one spelling of its bytes is refused.
pub fn unwrap(text: &str) -> Result<(Kind, Vec<u8>), TextError> {
    let text = text.trim_matches(['\r', '\n', '\t']);
    if text.len() > longest(text) {
        return Err(TextError::TooLong(text.len()));
    }
    let (front, body) = text.split_once(':').ok_or(TextError::NotOurs)?;
    let Some(kind) = Kind::from_front(front) else {
        let letters: String = front.chars().take(2).collect();
        let version: String = front.chars().skip(2).collect();
        let known = Kind::ALL.iter().find(|kind| kind.front().starts_with(&letters) && letters.len() == 2);
        return match known {
            Some(kind)
                if !version.is_empty()
                    && version.len() < 4
                    && version.bytes().all(|b| b.is_ascii_digit()) =>
            {
                Err(TextError::OtherVersion { kind: *kind, front: front.to_owned() })
            }
            _ => Err(TextError::NotOurs),
        };
    };
    let bytes = base45::decode(body).map_err(|_| TextError::Damaged(kind))?;
    // The decoder folds some spellings (a last pair above 255) into others: only the one that we would write passes.
    if base45::encode(&bytes) == body { Ok((kind, bytes)) } else { Err(TextError::Damaged(kind)) }
}

#[cfg(test)]
mod tests {
    use super::{Kind, TextError, unwrap, wrap};

    /// RFC 9285 §4.3 and §4.4: the examples.
    #[test]
    fn rfc_9285_examples() {
        for (plain, coded) in
            [("AB", "BB8"), ("Hello!!", "%69 VD92EX0"), ("base-45", "UJCLQE7W581"), ("ietf!", "QED8WEX0")]
        {
            assert_eq!(wrap(Kind::Seal, plain.as_bytes()), format!("SL1:{coded}"));
            assert_eq!(unwrap(&format!("SL1:{coded}\r\n")), Ok((Kind::Seal, plain.as_bytes().to_vec())));
        }
    }

    #[test]
    fn one_spelling_alone() {
        // RFC 9285 §6: GGW is 65,536 and must be refused; "::" would be 2,024 in one byte.
        for bad in ["GGW", "::", "A", "BB8A", "bb8", "BB8 ", "é"] {
            assert_eq!(unwrap(&format!("LT1:{bad}")), Err(TextError::Damaged(Kind::Tag)), "{bad}");
        }
    }

    #[test]
    fn says_what_it_is_not() {
        assert_eq!(unwrap("hello"), Err(TextError::NotOurs));
        assert_eq!(unwrap("https://example.org/x"), Err(TextError::NotOurs));
        assert!(matches!(unwrap("SL2:BB8"), Err(TextError::OtherVersion { kind: Kind::Seal, .. })));
        assert_eq!(unwrap(&"9".repeat(10_000)), Err(TextError::TooLong(10_000)));
        // A closing statement of the most bytes is a text; one of a byte more is none.
        let text = wrap(Kind::Closing, &[7; 65_536]);
        assert_eq!(unwrap(&text).map(|(_, bytes)| bytes.len()), Ok(65_536));
        assert!(matches!(unwrap(&wrap(Kind::Closing, &[7; 65_537])), Err(TextError::TooLong(_))));
        assert!(matches!(unwrap(&text.replace("CS1:", "MV1:")), Err(TextError::TooLong(_))));
    }
}
