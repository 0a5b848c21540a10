use slingseal_catalogue::{Saying, faults as words};
use std::fmt;

use unicode_normalization::UnicodeNormalization;

use slingseal_catalogue::is_invisible;

/// Why a text cannot stand where one short line is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineError {
    /// Nothing but blanks.
    Empty {
        /// What was to be written.
        what: &'static str,
    },
    /// It would not fit on the code.
    TooLong {
        /// What was to be written.
        what: &'static str,
        /// How long it is, UTF-8.
        bytes: usize,
        /// How long it may be.
        most: usize,
    },
    /// A line break, tab or another control character.
    Control {
        /// What was to be written.
        what: &'static str,
    },
    /// A character that nobody sees, or that moves what stands around it.
    Invisible {
        /// What was to be written.
        what: &'static str,
        /// The character's number.
        code: u32,
    },
    /// Signs alone.
    NoLetter {
        /// What was to be written.
        what: &'static str,
    },
    /// A character outside the set that may be used.
    Outside {
        /// What was to be written.
        what: &'static str,
        /// The character.
        found: char,
    },
}

impl LineError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Empty { what } => words::LineErrorEmpty { what: noun(what) }.into(),
            Self::TooLong { what, bytes, most } => {
                words::LineErrorTooLong { what: noun(what), bytes, most }.into()
            }
            Self::Control { what } => words::LineErrorControl { what: noun(what) }.into(),
            Self::Invisible { what, code } => {
                words::LineErrorInvisible { what: noun(what), code: format!("{code:04X}") }.into()
            }
            Self::NoLetter { what } => words::LineErrorNoLetter { what: noun(what) }.into(),
            Self::Outside { what, found } => words::LineErrorOutside { what: noun(what), found }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(LineError);

/// What was to be written, in the reader's language.
fn noun(what: &'static str) -> Saying {
    match what {
        LoadNumber::WHAT => words::NounLoadNumber.into(),
        ProcedureId::WHAT => words::NounProcedureId.into(),
        PointId::WHAT => words::NounPointId.into(),
        CallSign::WHAT => words::NounCallSign.into(),
        Name::WHAT => words::NounName.into(),
        Description::WHAT => words::NounDescription.into(),
        PlaceName::WHAT => words::NounPlaceName.into(),
        Serial::WHAT => words::NounSerial.into(),
        Source::WHAT => words::NounSource.into(),
        Note::WHAT => words::NounNote.into(),
        other => Saying::verbatim(other),
    }
}

/// What a person chose: composed (NFC, UAX 15), so that one text has one spelling, and with nothing in it that cannot be seen.
fn chosen_line(text: &str, what: &'static str, most: usize) -> Result<String, LineError> {
    let composed: String = text.trim().nfc().collect();
    let line = one_line(&composed, what, most)?;
    match line.chars().find(|letter| is_invisible(*letter)) {
        Some(letter) => Err(LineError::Invisible { what, code: u32::from(letter) }),
        None => Ok(line),
    }
}

/// The same for what something is called: a name of signs alone cannot be said, and would be everyone's.
fn chosen_name(text: &str, what: &'static str, most: usize) -> Result<String, LineError> {
    let line = chosen_line(text, what, most)?;
    if line.chars().any(char::is_alphanumeric) { Ok(line) } else { Err(LineError::NoLetter { what }) }
}

fn one_line(text: &str, what: &'static str, most: usize) -> Result<String, LineError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(LineError::Empty { what });
    }
    if text.len() > most {
        return Err(LineError::TooLong { what, bytes: text.len(), most });
    }
    // U+202A..U+202E and U+2066..U+2069 reorder what stands around them: a name must not be able to repaint a screen.
    if text.chars().any(|c| c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}'))
    {
        return Err(LineError::Control { what });
    }
    Ok(text.to_owned())
}

macro_rules! line {
    ($(#[$doc:meta])* $name:ident, $what:literal, $most:literal, $chosen:ident) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);

        impl $name {
            /// The most bytes, UTF-8, that it may have.
            pub const MOST: usize = $most;
            const WHAT: &'static str = $what;

            /// Takes one line that a person writes now: trimmed, composed, all of it to be seen.
            pub fn new(text: &str) -> Result<Self, LineError> {
                $chosen(text, $what, $most).map(Self)
            }

            /// Takes one line of a message or a row: earlier builds sealed what [`new`](Self::new) refuses, and that is read
            /// for ever. Show it through [`visibly`](crate::visibly).
            pub fn received(text: &str) -> Result<Self, LineError> {
                one_line(text, $what, $most).map(Self)
            }

            /// The text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

macro_rules! code_line {
    ($(#[$doc:meta])* $name:ident, $what:literal, $most:literal, $case:ident) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);

        impl $name {
            /// The most characters that it may have.
            pub const MOST: usize = $most;
            const WHAT: &'static str = $what;

            /// Takes letters, digits, hyphen, slash and dot; the case of letters is folded, so that a voice can spell it.
            pub fn new(text: &str) -> Result<Self, LineError> {
                let text = one_line(text, $what, $most)?.$case();
                match text.chars().find(|c| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '/' | '.'))) {
                    Some(found) => Err(LineError::Outside { what: $what, found }),
                    None => Ok(Self(text)),
                }
            }

            /// The text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

code_line!(
    /// The number that a load goes by on its zone.
    LoadNumber, "load number", 16, to_ascii_uppercase
);
code_line!(
    /// What a procedure goes by.
    ProcedureId, "procedure id", 24, to_ascii_lowercase
);
code_line!(
    /// What a point goes by inside its procedure, once expanded: `side-1.lateral-2.twist`.
    PointId, "point id", 80, to_ascii_lowercase
);
line!(
    /// What a person goes by: a call sign, or a name where the unit wants names.
    CallSign, "name or call sign", 24, chosen_name
);
line!(
    /// The name of an authority, a device, an aircraft type, a kind of equipment.
    Name, "name", 32, chosen_name
);
line!(
    /// What a load is, in a few words.
    Description, "description", 48, chosen_line
);
line!(
    /// The name of a pickup or landing zone.
    PlaceName, "name of the place", 24, chosen_name
);
line!(
    /// A serial number as it stands on the data plate.
    Serial, "serial number", 24, chosen_line
);

/// What an inspection goes by is a serial number's line, whatever is inspected: a load number always is one.
impl From<&LoadNumber> for Serial {
    fn from(number: &LoadNumber) -> Self {
        Self(number.0.clone())
    }
}
line!(
    /// Where a value comes from: a manual, a data plate, a data sheet.
    Source, "source", 48, chosen_line
);
line!(
    /// What a person adds in their own words.
    Note, "note", 280, chosen_line
);

/// The first four bytes of the SHA-256 of a public key: enough to find the key among a few, never enough to trust it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyId(pub [u8; 4]);

impl fmt::Display for KeyId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

#[cfg(test)]
mod tests {
    use super::{CallSign, LineError, LoadNumber, Note};

    #[test]
    fn keeps_to_one_short_line() {
        assert_eq!(LoadNumber::new(" pz-7/014 ").unwrap().as_str(), "PZ-7/014");
        assert!(matches!(LoadNumber::new("14 a"), Err(LineError::Outside { found: ' ', .. })));
        assert!(matches!(CallSign::new("  "), Err(LineError::Empty { .. })));
        assert!(matches!(CallSign::new("a\nb"), Err(LineError::Control { .. })));
        assert!(matches!(CallSign::new("OK\u{202E}DENIED"), Err(LineError::Control { .. })));
        for hidden in
            ["Anvil\u{200b} 3", "Anvil\u{a0}3", "\u{3164}", "Anvil\u{ad}", "\u{feff}Anvil", "A\u{e0041}"]
        {
            assert!(matches!(CallSign::new(hidden), Err(LineError::Invisible { .. })), "{hidden:?}");
        }
        for signs in ["!!", "\u{1f6a9}", "- -", "\u{301}"] {
            assert!(matches!(CallSign::new(signs), Err(LineError::NoLetter { .. })), "{signs}");
            assert_eq!(CallSign::received(signs).unwrap().as_str(), signs, "an older message holds it");
        }
        assert_eq!(CallSign::new("Jose\u{301}").unwrap(), CallSign::new("Jos\u{e9}").unwrap());
        assert_eq!(Note::new("?!").unwrap().as_str(), "?!");
        let error = CallSign::new(&"x".repeat(25)).unwrap_err();
        assert_eq!(
            error.to_string(),
            "the name or call sign has 25 bytes and the code has room for 24; shorten it"
        );
    }
}
