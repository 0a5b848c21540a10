use std::collections::{BTreeMap, BTreeSet};

use super::credential::CredentialId;
use super::edition::{Approval, Edition, EditionStanding};
use super::keys::{KeyThumbprint, PublicKey, SecretKey};
use super::message::{TrustError, make, open, verify};
use crate::envelope::{Claims, Header, Kind, Limits, Reader, ShapeError, Writer};
use slingseal_words::{KeyId, ProcedureId, Time};

/// What an authority has taken back and what it approves. A later sequence replaces an earlier one, never the other way
/// round, and the two kinds count in one series: an `RO2` of sequence 5 replaces an `RO1` of sequence 4, and an `RO1` of
/// sequence 6 replaces both.
///
/// ```cddl
/// roster-1   = message ; RO1: header { 1: -19, 4: authority's key id }
///                      ;      claims { 4: valid until, 6: issued, -65537: [sequence, [0*10000 credential-id]] }
/// roster-2   = message ; RO2: header as above
///                      ;      claims { 4: valid until, 6: issued, -65537: content-2 }
/// content-2  = [ sequence, [0*10000 credential-id], [0*10000 revoked-key], [0*1000 approval] ]
/// sequence      = uint .size 4
/// credential-id = bstr .size 8                       ; first 8 bytes of SHA-256 of the credential as issued
/// revoked-key   = [ thumbprint: bstr .size 8, since: time ]
///                                                    ; first 8 bytes of SHA-256 of the 32 bytes of the public key
/// approval      = [ procedure: tstr, version: 1..9999, thumbprint: bstr .size 16, from: time, withdrawn: time / null ]
///                                                    ; first 16 bytes of SHA-256 of the procedure's text
/// time          = uint                               ; seconds since 1970
/// ```
/// Each list is sorted and repeats nothing: ids and keys by their bytes, approvals by the bytes of the procedure's id, then
/// version, then thumbprint. `withdrawn` is never before `from`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Roster {
    /// Counts up with each roster of the authority, of either kind.
    pub sequence: u32,
    /// When it was issued.
    pub issued: Time,
    /// Past this it is too old to rely on.
    pub expires: Time,
    /// Credentials that are revoked one by one.
    pub revoked: BTreeSet<CredentialId>,
    /// Keys that are revoked, with everything that was or will be issued to them, and since when.
    pub keys: BTreeMap<KeyThumbprint, Time>,
    /// The editions of procedures that the authority approves or has withdrawn.
    pub approved: BTreeMap<Edition, Approval>,
}

impl Roster {
    /// The most credentials that one roster revokes, and the most keys.
    pub const MOST: usize = 10_000;
    /// The most editions of procedures that one roster speaks of.
    pub const MOST_APPROVED: usize = 1_000;
    /// Nine bytes for each credential, at most 19 for a key and 66 for an approval, and what stands around.
    const LIMITS: Limits =
        Limits { bytes: (9 + 19) * Self::MOST + 66 * Self::MOST_APPROVED + 1_000, depth: 8 };

    /// A roster that revokes nothing and approves nothing.
    pub fn new(sequence: u32, issued: Time, expires: Time) -> Self {
        Self {
            sequence,
            issued,
            expires,
            revoked: BTreeSet::new(),
            keys: BTreeMap::new(),
            approved: BTreeMap::new(),
        }
    }

    /// Whether it takes back a credential of this id and key.
    pub fn revokes(&self, id: CredentialId, key: &PublicKey) -> bool {
        self.revoked.contains(&id) || self.keys.contains_key(&key.thumbprint())
    }

    /// How an edition stands for an inspection made at a time. `print` is as much of the digest of its text as whoever asks
    /// knows: a seal has fewer bytes than an approval, and all that it has must agree. Of several that agree the kindest is
    /// told, so that the order of the list decides nothing.
    pub fn edition(&self, procedure: &ProcedureId, version: u32, print: &[u8], at: Time) -> EditionStanding {
        let named = self.approved.iter().filter(|(edition, _)| {
            edition.procedure == *procedure
                && edition.version == version
                && !print.is_empty()
                && edition.thumbprint.starts_with(print)
        });
        let mut standing = EditionStanding::NotApproved;
        for (_, approval) in named {
            if approval.held_at(at) {
                return EditionStanding::Approved;
            }
            if let Some(since) = approval.withdrawn.filter(|since| *since <= at) {
                standing = EditionStanding::Withdrawn(since);
            }
        }
        standing
    }

    /// How many credentials and keys it revokes.
    pub fn entries(&self) -> u32 {
        u32::try_from(self.revoked.len() + self.keys.len()).unwrap_or(u32::MAX)
    }

    /// How many editions of procedures it approves, those left out that it withdrew.
    pub fn approvals(&self) -> u32 {
        let standing = self.approved.values().filter(|approval| approval.withdrawn.is_none());
        u32::try_from(standing.count()).unwrap_or(u32::MAX)
    }

    /// Signs it, as `RO2`.
    pub fn sign(&self, authority: &SecretKey) -> Vec<u8> {
        let mut ours = Writer::new();
        ours.array(4).int(self.sequence.into());
        self.write_ids(&mut ours);
        ours.array(self.keys.len());
        for (key, since) in &self.keys {
            ours.array(2).bytes(&key.0).int(since.unix());
        }
        ours.array(self.approved.len());
        for (edition, approval) in &self.approved {
            ours.array(5).text(edition.procedure.as_str()).int(edition.version.into());
            ours.bytes(&edition.thumbprint).int(approval.from.unix());
            ours.maybe(approval.withdrawn, |ours, withdrawn| ours.int(withdrawn.unix()));
        }
        self.finish(Kind::RosterOfKeys, &ours.into_bytes(), authority)
    }

    /// Signs it as `RO1`, which says nothing of keys and procedures: `None` where this roster does. For what must be read
    /// by a program that knows no `RO2`, and for vectors.
    pub fn sign_first_kind(&self, authority: &SecretKey) -> Option<Vec<u8>> {
        if !self.keys.is_empty() || !self.approved.is_empty() {
            return None;
        }
        let mut ours = Writer::new();
        ours.array(2).int(self.sequence.into());
        self.write_ids(&mut ours);
        Some(self.finish(Kind::Roster, &ours.into_bytes(), authority))
    }

    fn write_ids(&self, ours: &mut Writer) {
        ours.array(self.revoked.len());
        for id in &self.revoked {
            ours.bytes(&id.0);
        }
    }

    fn finish(&self, kind: Kind, ours: &[u8], authority: &SecretKey) -> Vec<u8> {
        let claims = Claims {
            expires: Some(self.expires),
            issued: Some(self.issued),
            ours: Some(ours),
            ..Claims::default()
        };
        let header = Header { key_id: Some(authority.public().id()), credential: None };
        make(kind, header, &claims, authority)
    }

    /// Which kind of roster it is, before it is verified: its content tells, and the signature binds what it tells.
    pub fn kind(bytes: &[u8]) -> Result<Kind, TrustError> {
        let (_, claims) = open(bytes, Self::LIMITS)?;
        kind_of(claims.ours.ok_or(ShapeError(CLAIMS))?).map_err(TrustError::from)
    }

    /// Whose roster it claims to be, before it is verified.
    pub fn authority(bytes: &[u8]) -> Result<KeyId, TrustError> {
        let (message, _) = open(bytes, Self::LIMITS)?;
        message.header.key_id.ok_or_else(|| ShapeError(HEADER).into())
    }

    /// Reads a roster of either kind and checks that the authority signed it.
    pub fn open(bytes: &[u8], authority: &PublicKey) -> Result<Self, TrustError> {
        let (message, claims) = open(bytes, Self::LIMITS)?;
        let Claims {
            subject: None,
            expires: Some(expires),
            issued: Some(issued),
            key: None,
            scope: None,
            ours: Some(ours),
        } = claims
        else {
            return Err(ShapeError(CLAIMS).into());
        };
        if message.header.key_id != Some(authority.id()) || message.header.credential.is_some() {
            return Err(ShapeError(HEADER).into());
        }
        let kind = kind_of(ours)?;
        verify(kind, &message, authority)?;
        let mut roster = Self::new(0, issued, expires);
        let mut reader = Reader::new(ours);
        reader.any_array(CONTENT)?;
        roster.sequence = reader.small("sequence")?;
        roster.revoked = revoked(&mut reader)?;
        if kind == Kind::RosterOfKeys {
            roster.keys = keys(&mut reader)?;
            roster.approved = approved(&mut reader)?;
        }
        Ok(roster)
    }
}

const CLAIMS: &str = "claims of a roster";
const HEADER: &str = "header of a roster";
const CONTENT: &str = "roster";

fn kind_of(ours: &[u8]) -> Result<Kind, ShapeError> {
    match Reader::new(ours).any_array(CONTENT)? {
        2 => Ok(Kind::Roster),
        4 => Ok(Kind::RosterOfKeys),
        _ => Err(ShapeError(CONTENT)),
    }
}

fn revoked(reader: &mut Reader<'_>) -> Result<BTreeSet<CredentialId>, ShapeError> {
    const PART: &str = "revoked credentials";
    let ids = reader.list(Roster::MOST, PART, |reader| reader.fixed(PART).map(CredentialId))?;
    sorted(ids, PART)
}

fn keys(reader: &mut Reader<'_>) -> Result<BTreeMap<KeyThumbprint, Time>, ShapeError> {
    const PART: &str = "revoked keys";
    let keys = reader.list(Roster::MOST, PART, |reader| {
        reader.array(2, PART)?;
        Ok((KeyThumbprint(reader.fixed(PART)?), reader.time(PART)?))
    })?;
    sorted_by_key(keys, PART)
}

fn approved(reader: &mut Reader<'_>) -> Result<BTreeMap<Edition, Approval>, ShapeError> {
    const PART: &str = "approved procedures";
    let approved = reader.list(Roster::MOST_APPROVED, PART, |reader| {
        reader.array(5, PART)?;
        let edition = Edition::read(reader, PART)?;
        let from = reader.time(PART)?;
        let withdrawn = reader.maybe(PART, |reader| reader.time(PART))?;
        if withdrawn.is_some_and(|withdrawn| withdrawn < from) {
            return Err(ShapeError(PART));
        }
        Ok((edition, Approval { from, withdrawn }))
    })?;
    sorted_by_key(approved, PART)
}

/// A list in its only spelling: sorted, nothing twice.
fn sorted<T: Ord + Clone>(list: Vec<T>, part: &'static str) -> Result<BTreeSet<T>, ShapeError> {
    let set: BTreeSet<T> = list.iter().cloned().collect();
    if set.iter().eq(list.iter()) { Ok(set) } else { Err(ShapeError(part)) }
}

fn sorted_by_key<K: Ord + Clone, V: Clone>(
    list: Vec<(K, V)>,
    part: &'static str,
) -> Result<BTreeMap<K, V>, ShapeError> {
    let map: BTreeMap<K, V> = list.iter().cloned().collect();
    if map.keys().eq(list.iter().map(|(key, _)| key)) { Ok(map) } else { Err(ShapeError(part)) }
}
