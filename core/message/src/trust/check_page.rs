use super::authority::Authority;
use super::keys::spoken_groups;
use super::message::TrustError;
use super::roles::Role;
use super::roster::Roster;
use super::signer::{Signer, Trusted, TrustedAuthority};
use crate::envelope::{Claims, Kind, Limits, Reader, ShapeError, Sign1, Unsigned, Writer};
use slingseal_catalogue::{Saying, check_page as words};
use slingseal_words::{CallSign, Digest, Seconds, Time};

/// What a check page for strangers' phones carries inside: whom it trusts, and what its leader knew of loads when it was made.
///
/// ```cddl
/// check-page = message ; header { 1: -19, 13: the leader's credential }
///                      ; claims { 4: relied on until, 6: made, -65537: content }
/// content    = [ [1*16 [ card: bstr, roster: bstr / null ]], [0*4000 [ 0..4, word: bstr ]] ]
///                                            ; 0 a seal, 1 a void, 2 a tag of either form, 3 an inspection,
///                                            ; 4 a movement report
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckPage {
    /// When it was made.
    pub made: Time,
    /// The last second in which it may be relied on.
    pub until: Time,
    /// The cards of the authorities, each with its newest roster.
    pub authorities: Vec<PageAuthority>,
    /// Seals, voids, tags, inspections of gear and movement reports, as received; a tag of either form stands as [`Kind::Tag`]: its content tells.
    pub words: Vec<(Kind, Vec<u8>)>,
}

/// One authority of a check page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageAuthority {
    /// Its card.
    pub card: Vec<u8>,
    /// Its newest roster, where the leader had one.
    pub roster: Option<Vec<u8>>,
}

/// A check page that holds: signed by a leader of one of its own authorities.
#[derive(Clone, Debug)]
pub struct OpenedPage {
    /// What it says.
    pub page: CheckPage,
    /// Whom it trusts.
    pub trusted: Trusted,
    /// The cards, in their order.
    pub cards: Vec<Authority>,
    /// The leader who signed it.
    pub leader: Signer,
}

/// Why a check page is not to be relied on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CheckPageError {
    /// Forged, altered or torn.
    Trust(TrustError),
    /// Its signer may not lead, or not any more.
    NotALeader(CallSign),
}

impl CheckPageError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Trust(error) => error.saying(),
            Self::NotALeader(who) => words::NotALeader { who }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(CheckPageError);

impl From<TrustError> for CheckPageError {
    fn from(error: TrustError) -> Self {
        Self::Trust(error)
    }
}

impl From<ShapeError> for CheckPageError {
    fn from(error: ShapeError) -> Self {
        Self::Trust(error.into())
    }
}

const CONTENT: &str = "content of a check page";

impl CheckPage {
    /// The longest that one may be relied on: a page cannot be told of a revocation.
    pub const LONGEST: Seconds = Seconds::days(7);
    /// The most authorities.
    pub const MOST_AUTHORITIES: usize = 16;
    /// The most words: a page opens each of them when it starts.
    pub const MOST_WORDS: usize = 4_000;
    /// A file that one person hands to another.
    pub const LIMITS: Limits = Limits { bytes: 295_000, depth: 8 };

    /// Prepares it under a leader's credential, to be signed and finished.
    pub fn prepare(&self, credential: &[u8]) -> Unsigned {
        let mut out = Writer::new();
        out.array(2).array(self.authorities.len());
        for authority in &self.authorities {
            out.array(2).bytes(&authority.card);
            out.maybe(authority.roster.as_ref(), |out, roster| out.bytes(roster));
        }
        out.array(self.words.len());
        for (kind, bytes) in &self.words {
            out.array(2).int(code(*kind)).bytes(bytes);
        }
        let content = out.into_bytes();
        let claims = Claims {
            expires: Some(self.until),
            issued: Some(self.made),
            ours: Some(&content),
            ..Claims::default()
        };
        Unsigned::prepare(Kind::CheckPage, credential, &claims)
    }

    /// Opens a page and proves it by its own cards: whoever made the file chose them, so that a person must still compare the
    /// thumbprint with the leader by voice.
    ///
    /// # Errors
    /// Bytes that are no check page in its only spelling; a card or a roster in it that does not hold; a signer who is no leader
    /// of its authorities, or whose credential had run out or is revoked.
    pub fn open(bytes: &[u8]) -> Result<OpenedPage, CheckPageError> {
        let message = Sign1::parse(bytes, Self::LIMITS).map_err(TrustError::Form)?;
        let page = Self::read(&message)?;
        let (mut trusted, mut cards) = (Trusted::default(), Vec::new());
        for one in &page.authorities {
            let card = Authority::open(&one.card)?;
            if trusted.authority(&card.key).is_some() {
                return Err(ShapeError("an authority stands twice").into());
            }
            let roster = one.roster.as_deref().map(|roster| Roster::open(roster, &card.key)).transpose()?;
            trusted.add(TrustedAuthority { name: card.name.clone(), key: card.key, roster });
            cards.push(card);
        }
        let leader = trusted.signer(Kind::CheckPage, &message)?;
        let leads = leader.credential.roles.has(Role::Leader)
            && page.made <= leader.credential.expires
            && !trusted.revoked(&leader);
        if !leads {
            return Err(CheckPageError::NotALeader(leader.credential.holder.clone()));
        }
        Ok(OpenedPage { page, trusted, cards, leader })
    }

    fn read(message: &Sign1<'_>) -> Result<Self, CheckPageError> {
        let Claims {
            subject: None,
            expires: Some(until),
            issued: Some(made),
            key: None,
            scope: None,
            ours: Some(content),
        } = Claims::parse(message.payload)?
        else {
            return Err(ShapeError("claims of a check page").into());
        };
        if until < made || until.since(made) > Self::LONGEST {
            return Err(ShapeError("how long the page holds").into());
        }
        let mut reader = Reader::new(content);
        reader.array(2, CONTENT)?;
        let authorities = reader.list(Self::MOST_AUTHORITIES, CONTENT, |reader| {
            reader.array(2, CONTENT)?;
            let card = reader.bytes(CONTENT)?.to_vec();
            let roster = reader.maybe(CONTENT, |reader| reader.bytes(CONTENT).map(<[u8]>::to_vec))?;
            Ok(PageAuthority { card, roster })
        })?;
        if authorities.is_empty() {
            return Err(ShapeError(CONTENT).into());
        }
        let words = reader.list(Self::MOST_WORDS, CONTENT, |reader| {
            reader.array(2, CONTENT)?;
            let number = reader.int(CONTENT)?;
            let kind = WORDS.into_iter().find(|kind| code(*kind) == number).ok_or(ShapeError(CONTENT))?;
            Ok((kind, reader.bytes(CONTENT)?.to_vec()))
        })?;
        Ok(Self { made, until, authorities, words })
    }

    /// What the leader says by voice and the page shows first: of the page's bytes as of a key (`PublicKey::fingerprint`).
    pub fn thumbprint(bytes: &[u8]) -> String {
        spoken_groups(&Digest::of_parts(&[b"slingseal check page", bytes]))
    }
}

const WORDS: [Kind; 5] = [Kind::Seal, Kind::Void, Kind::Tag, Kind::Inspection, Kind::Movement];

/// The number of a kind of word; what is no word of a load has none that is read.
fn code(kind: Kind) -> i64 {
    match kind {
        Kind::Seal => 0,
        Kind::Void => 1,
        Kind::Tag | Kind::TagWithBasis => 2,
        Kind::Inspection => 3,
        Kind::Movement => 4,
        _ => -1,
    }
}
