use slingseal_catalogue::{Saying, faults as words};
use slingseal_message::envelope::{Kind, Sign1};
use slingseal_message::movement::{Movement, MovementError, ReceivedMovement};
use slingseal_message::seal::{ReceivedSeal, Seal, SealError, Void, VoidError};
use slingseal_message::tag::{ReceivedTag, Tag, TagError, kind_of_tag};
use slingseal_message::trust::{Role, Signer, TrustError, Trusted};
use slingseal_words::{Digest, LoadNumber, Time};

use super::order::Inspection;
use super::time::{LatestTrusted, Speaker};

/// What a word of a load says.
#[derive(Clone, Debug, PartialEq)]
pub enum Said {
    /// An inspection, if its author may inspect.
    Seal(Seal),
    /// That a seal is taken back.
    Void(Void),
    /// What hangs on the load.
    Tag(Box<Tag>),
    /// What became of the load.
    Movement(Box<Movement>),
}

/// Who stands behind a word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Author {
    /// Both signatures pass under a trusted authority. What this person may say, and whether it was revoked since, is for the
    /// rules.
    Known(Box<Signer>),
    /// Nobody signed it: a tag or a movement report that is marked unsigned.
    Nobody,
    /// Nobody signed it, and it is a movement report that this device wrote into its own journal.
    ThisDevice,
    /// Nobody here trusts the authority.
    Unknown,
    /// A signature does not match, or the credential in it is none.
    Refused(TrustError),
}

/// A signed word that names a load, opened once: what it says, who stands behind it, its own digest.
///
/// Its identity is the SHA-256 of its bytes as received. A digest that it *claims* (a seal's record) is no identity: whoever may
/// sign can claim any.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadWord {
    said: Said,
    author: Author,
    digest: Digest,
    bytes: Vec<u8>,
}

/// Why bytes are no word of a load.
#[derive(Clone, Debug, PartialEq)]
pub enum WordError {
    /// No seal.
    Seal(SealError),
    /// No void.
    Void(VoidError),
    /// No tag.
    Tag(TagError),
    /// No movement report.
    Movement(MovementError),
    /// A kind of message that says nothing of a load.
    OtherKind(Kind),
}

impl WordError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Seal(error) => error.saying(),
            Self::Void(error) => error.saying(),
            Self::Tag(error) => error.saying(),
            Self::Movement(error) => error.saying(),
            Self::OtherKind(kind) => words::WordErrorOtherKind { kind }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(WordError);

impl From<SealError> for WordError {
    fn from(error: SealError) -> Self {
        Self::Seal(error)
    }
}

impl From<VoidError> for WordError {
    fn from(error: VoidError) -> Self {
        Self::Void(error)
    }
}

impl From<MovementError> for WordError {
    fn from(error: MovementError) -> Self {
        Self::Movement(error)
    }
}

impl From<TagError> for WordError {
    fn from(error: TagError) -> Self {
        Self::Tag(error)
    }
}

impl LoadWord {
    /// Opens a word and asks who signed it.
    ///
    /// # Errors
    /// Bytes that are not a seal, void, tag or movement report in its only spelling. A signature that does not hold is no error here: it is the
    /// word's [`Author`].
    pub fn open(kind: Kind, bytes: &[u8], trusted: &Trusted) -> Result<Self, WordError> {
        let (said, author) = match kind {
            Kind::Seal => {
                let received = ReceivedSeal::open(bytes)?;
                (Said::Seal(received.seal), Author::of(kind, Some(&received.message), trusted))
            }
            Kind::Void => {
                let (void, message) = Void::open(bytes)?;
                (Said::Void(void), Author::of(kind, Some(&message), trusted))
            }
            Kind::Tag | Kind::TagWithBasis => {
                let received = ReceivedTag::open_as(kind, bytes)?;
                let author = Author::of(kind, received.message.as_ref(), trusted);
                (Said::Tag(Box::new(received.tag)), author)
            }
            Kind::Movement => {
                let received = ReceivedMovement::open(bytes)?;
                let author = Author::of(kind, received.message.as_ref(), trusted);
                (Said::Movement(Box::new(received.movement)), author)
            }
            other => return Err(WordError::OtherKind(other)),
        };
        Ok(Self { said, author, digest: Digest::of(bytes), bytes: bytes.to_vec() })
    }

    /// The same word as one that this device wrote itself: the caller has found it, by its digest, in the device's own journal.
    /// Who signed a signed one is not changed by that.
    #[must_use]
    pub fn written_here(mut self) -> Self {
        if self.author == Author::Nobody && self.movement().is_some() {
            self.author = Author::ThisDevice;
        }
        self
    }

    /// What it says.
    pub fn said(&self) -> &Said {
        &self.said
    }

    /// Opens a tag that is kept or carried as bytes alone: which form it is, its content tells.
    ///
    /// # Errors
    /// Those of [`Self::open`].
    pub fn open_tag(bytes: &[u8], trusted: &Trusted) -> Result<Self, WordError> {
        Self::open(kind_of_tag(bytes), bytes, trusted)
    }

    /// Who stands behind it.
    pub fn author(&self) -> &Author {
        &self.author
    }

    /// Its author, where both signatures pass under a trusted authority.
    pub fn signer(&self) -> Option<&Signer> {
        match &self.author {
            Author::Known(signer) => Some(signer),
            _ => None,
        }
    }

    /// SHA-256 of its bytes: its identity.
    pub fn digest(&self) -> Digest {
        self.digest
    }

    /// Its bytes as received.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// What kind of message it is.
    pub fn kind(&self) -> Kind {
        match &self.said {
            Said::Seal(_) => Kind::Seal,
            Said::Void(_) => Kind::Void,
            Said::Tag(tag) => tag.kind(),
            Said::Movement(_) => Kind::Movement,
        }
    }

    /// The load that it names.
    pub fn load(&self) -> &LoadNumber {
        match &self.said {
            Said::Seal(seal) => &seal.load,
            Said::Void(void) => &void.load,
            Said::Tag(tag) => &tag.load,
            Said::Movement(movement) => &movement.load,
        }
    }

    /// When it was signed, by its author's clock.
    pub fn issued(&self) -> Time {
        match &self.said {
            Said::Seal(seal) => seal.issued,
            Said::Void(void) => void.issued,
            Said::Tag(tag) => tag.planned,
            Said::Movement(movement) => movement.issued,
        }
    }

    /// The seal, where it is one.
    pub fn seal(&self) -> Option<&Seal> {
        match &self.said {
            Said::Seal(seal) => Some(seal),
            _ => None,
        }
    }

    /// The void, where it is one.
    pub fn void(&self) -> Option<&Void> {
        match &self.said {
            Said::Void(void) => Some(void),
            _ => None,
        }
    }

    /// The tag, where it is one.
    pub fn tag(&self) -> Option<&Tag> {
        match &self.said {
            Said::Tag(tag) => Some(tag),
            _ => None,
        }
    }

    /// The movement report, where it is one.
    pub fn movement(&self) -> Option<&Movement> {
        match &self.said {
            Said::Movement(movement) => Some(movement),
            _ => None,
        }
    }

    /// Its author, where the author's credential had not run out when it was signed.
    pub(super) fn in_time(&self) -> Option<&Signer> {
        self.signer().filter(|signer| self.issued() <= signer.credential.expires)
    }

    /// Whether it is an inspection: a seal whose author was an inspector with a credential that had not run out. Nothing else
    /// supersedes, refuses or is shown as the load's state. That the author was revoked since changes nothing here.
    pub fn counts(&self) -> bool {
        self.seal().is_some()
            && self.in_time().is_some_and(|signer| signer.credential.roles.has(Role::Inspector))
    }

    /// How it stands in the order of inspections, where it is a seal with a known author.
    pub fn inspection(&self) -> Option<Inspection> {
        Some(Inspection::of(self.seal()?, self.signer()?, self.digest))
    }

    /// The time that this word proves to be past, and whose word it is: of a trusted authority's person whose credential had not
    /// run out and is not revoked; a tag's, where a planner signed it.
    pub fn proves(&self, trusted: &Trusted) -> Option<LatestTrusted> {
        let signer = self.in_time().filter(|signer| !trusted.revoked(signer))?;
        if self.tag().is_some() && !signer.credential.roles.has(Role::Planner) {
            return None;
        }
        Some(LatestTrusted { time: self.issued(), by: Speaker::Person(signer.credential.holder.clone()) })
    }
}

impl Author {
    /// Who signed a message, if it is signed at all.
    pub fn of(kind: Kind, message: Option<&Sign1<'_>>, trusted: &Trusted) -> Self {
        let Some(message) = message else { return Self::Nobody };
        match trusted.signer(kind, message) {
            Ok(signer) => Self::Known(Box::new(signer)),
            Err(TrustError::UnknownAuthority { .. }) => Self::Unknown,
            Err(error) => Self::Refused(error),
        }
    }
}
