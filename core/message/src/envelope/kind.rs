use std::fmt;

use slingseal_catalogue::{Saying, faults as words};

macro_rules! kinds {
    ($($(#[$doc:meta])* $variant:ident $front:literal $english:literal,)*) => {
        /// What a message is. The front is part of what is signed, so no message passes for another kind.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind {
            $($(#[$doc])* $variant,)*
        }

        impl Kind {
            /// Every kind.
            pub const ALL: &[Self] = &[$(Self::$variant),*];

            /// Two letters and a version: what the text starts with, before the colon.
            pub fn front(self) -> &'static str {
                match self { $(Self::$variant => $front,)* }
            }

            /// What a person calls it.
            pub fn english(self) -> &'static str {
                match self { $(Self::$variant => $english,)* }
            }
        }
    };
}

kinds! {
    /// What hangs on the load.
    Tag "LT1" "load tag",
    /// What hangs on the load, with what it was planned and rigged by.
    TagWithBasis "LT2" "load tag",
    /// The inspector's attestation.
    Seal "SL1" "seal",
    /// An authority's word that a key belongs to a person with roles.
    Credential "CR1" "credential",
    /// A device's wish to be credentialed.
    KeyRequest "KR1" "key request",
    /// An authority's name and public key.
    Authority "AU1" "authority",
    /// An authority's list of what it has revoked.
    Roster "RO1" "roster",
    /// A roster that revokes keys and approves procedures as well.
    RosterOfKeys "RO2" "roster",
    /// An inspector's word on what is no load: a piece of gear, an aircraft's hooks, a zone, what was done with a load.
    Inspection "PI1" "inspection",
    /// The word that a seal no longer holds.
    Void "VO1" "void",
    /// A report of what became of a load: lifted, refused, lost, set down, derigged, equipment returned.
    Movement "MV1" "movement report",
    /// What a leader hands up once an account is closed.
    Closing "CS1" "closing statement",
    /// One frame of a moving code.
    BundleFrame "BF1" "bundle frame",
    /// What a device already has, so that a bundle can leave it out.
    Have "HV1" "have list",
    /// Whom a check page trusts and what it knows, signed by a leader.
    CheckPage "CP1" "check page",
    /// An instructor's lock on the deficiencies planted for an examination.
    ExamKey "XK1" "examination key",
    /// A student's signed examination result; never an inspection.
    ExamResult "XR1" "examination result",
}

impl Kind {
    /// The kind of a front such as `SL1`.
    pub fn from_front(front: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|kind| kind.front() == front)
    }

    /// The letters of the front, without the number of the form: two forms of one thing share them.
    pub fn letters(self) -> &'static str {
        self.front().trim_end_matches(|c: char| c.is_ascii_digit())
    }

    /// The bytes that a signature binds beside the message (`external_aad` of RFC 9052 §4.3).
    pub fn namespace(self) -> Vec<u8> {
        format!("slingseal/{}", self.front()).into_bytes()
    }
}

impl Kind {
    /// What a person calls it, in no language yet.
    pub fn saying(self) -> Saying {
        match self {
            Self::Tag | Self::TagWithBasis => words::KindTag.into(),
            Self::Seal => words::KindSeal.into(),
            Self::Credential => words::KindCredential.into(),
            Self::KeyRequest => words::KindKeyRequest.into(),
            Self::Authority => words::KindAuthority.into(),
            Self::Roster | Self::RosterOfKeys => words::KindRoster.into(),
            Self::Inspection => words::KindInspection.into(),
            Self::Void => words::KindVoid.into(),
            Self::Movement => words::KindMovement.into(),
            Self::Closing => words::KindClosing.into(),
            Self::BundleFrame => words::KindBundleFrame.into(),
            Self::Have => words::KindHave.into(),
            Self::CheckPage => words::KindCheckPage.into(),
            Self::ExamKey => words::KindExamKey.into(),
            Self::ExamResult => words::KindExamResult.into(),
        }
    }
}

impl slingseal_catalogue::ToArgument for Kind {
    fn to_argument(&self) -> slingseal_catalogue::Argument {
        slingseal_catalogue::Argument::Said(self.saying())
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.english())
    }
}
