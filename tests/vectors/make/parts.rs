//! The people, keys and papers of the vectors, and messages built byte by byte.

use std::collections::{BTreeMap, BTreeSet};

use slingseal_message::envelope::{
    Claims, Header, Kind, Limits, OURS, Sign1, Unsigned, Writer, assemble, to_be_signed, wrap,
};
use slingseal_message::seal::{Outcome, Seal, TagPrint, Void, VoidCause};
use slingseal_message::tag::read_plan;
use slingseal_message::trust::{
    Approval, Authority, Credential, CredentialId, DEFAULT_VALIDITY, Edition, Role, Roles, Roster, SecretKey,
};
use slingseal_words::{CallSign, Digest, LoadNumber, Name, ProcedureId, Quantity, Seconds, Time};

use crate::vector::{Authority as Trusted, Expect, Vector};

/// When the load was inspected.
pub const SEALED: &str = "2026-07-09T16:00:00Z";
/// When it is looked at.
pub const SEEN: i64 = 600;

/// The two authorities, the inspector, the second inspector, the planner, the hookup, a stranger: seeds of their keys.
pub const SELA: u8 = 1;
pub const ALDER: u8 = 9;
pub const ANVIL: u8 = 2;
pub const HERALD: u8 = 4;
pub const LANTERN: u8 = 5;
pub const THISTLE: u8 = 6;
pub const STRANGER: u8 = 66;

pub fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

/// So many seconds after the inspection.
pub fn after(seconds: i64) -> Time {
    Time::parse(SEALED).expect("a time").plus(Seconds(seconds))
}

pub fn card(seed: u8, name: &str) -> String {
    let name = Name::new(name).expect("a name");
    wrap(Kind::Authority, &Authority::sign(&name, after(-86_400), &key(seed)))
}

fn plain_roster(sequence: u32, issued: i64, expires: i64, revoked: &[&[u8]]) -> Roster {
    let revoked: BTreeSet<CredentialId> = revoked.iter().map(|bytes| CredentialId::of(bytes)).collect();
    Roster { revoked, ..Roster::new(sequence, after(issued), after(expires)) }
}

/// A roster of the first form: it approves nothing, since it cannot.
pub fn first_roster(seed: u8, sequence: u32, issued: i64, expires: i64, revoked: &[&[u8]]) -> String {
    let roster = plain_roster(sequence, issued, expires, revoked);
    wrap(Kind::Roster, &roster.sign_first_kind(&key(seed)).expect("it revokes no key"))
}

/// The edition that every seal here was walked by.
pub fn edition() -> Edition {
    Edition { procedure: seal().procedure, version: 1, thumbprint: [3; 16] }
}

/// Since a month before the seal.
pub fn approving() -> BTreeMap<Edition, Approval> {
    [(edition(), Approval { from: after(-30 * 86_400), withdrawn: None })].into()
}

/// A roster that approves the edition which every seal here was walked by.
pub fn roster(seed: u8, sequence: u32, issued: i64, expires: i64, revoked: &[&[u8]]) -> String {
    let roster = Roster { approved: approving(), ..plain_roster(sequence, issued, expires, revoked) };
    wrap(Kind::RosterOfKeys, &roster.sign(&key(seed)))
}

pub fn sela() -> Trusted {
    Trusted { card: card(SELA, "Sela Relief"), rosters: vec![roster(SELA, 1, -3_600, 7 * 86_400, &[])] }
}

pub fn alder() -> Trusted {
    Trusted { card: card(ALDER, "Alder Aid"), rosters: vec![roster(ALDER, 1, -3_600, 7 * 86_400, &[])] }
}

/// A credential of a year, for a day's seals.
pub fn credential_of(authority: u8, holder: &str, roles: &[Role], holder_key: u8) -> Credential {
    let _ = authority;
    Credential {
        holder: CallSign::new(holder).expect("a call sign"),
        roles: Roles::of(roles),
        expires: after(365 * 86_400),
        longest_validity: DEFAULT_VALIDITY,
        key: key(holder_key).public(),
    }
}

pub fn credential(authority: u8, holder: &str, roles: &[Role], holder_key: u8) -> Vec<u8> {
    credential_of(authority, holder, roles, holder_key).issue(&key(authority))
}

/// The inspector's.
pub fn anvil() -> Vec<u8> {
    credential(SELA, "Anvil 3", &[Role::Inspector], ANVIL)
}

/// The second inspector's, of the other authority.
pub fn herald() -> Vec<u8> {
    credential(ALDER, "Herald 2", &[Role::Inspector], HERALD)
}

pub fn planner() -> Vec<u8> {
    credential(SELA, "Lantern 1", &[Role::Planner], LANTERN)
}

pub fn hookup() -> Vec<u8> {
    credential(SELA, "Thistle 7", &[Role::Hookup], THISTLE)
}

const PLAN: &str = r#"
load = "KM-014"
description = "Rations, webbing bag"
procedure = "bag"
gross = "1800 lb"
rigger = "Mason 5"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
[destination]
name = "Alder Bridge"
"#;

/// The tag, with the plan changed, signed by a planner or by nobody.
pub fn tag_of(from: &str, to: &str, signer: Option<(&[u8], u8)>) -> Vec<u8> {
    assert!(from.is_empty() || PLAN.contains(from), "the plan does not say {from}");
    let plan = if from.is_empty() { PLAN.to_owned() } else { PLAN.replace(from, to) };
    let tag = read_plan(&plan, after(-7_200), &|_| Err("no file".into())).expect("a plan").tag;
    let content = tag.content();
    let claims = tag.claims(&content);
    match signer {
        None => claims.to_bytes(),
        Some((credential, seed)) => {
            let unsigned = Unsigned::prepare(tag.kind(), credential, &claims);
            unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
        }
    }
}

/// The tag of the plan, which orders an edition, signed by the planner.
pub fn tag_ordering(edition: Edition) -> Vec<u8> {
    let mut tag = read_plan(PLAN, after(-7_200), &|_| Err("no file".into())).expect("a plan").tag;
    tag.basis.edition = Some(edition);
    let content = tag.content();
    let unsigned = Unsigned::prepare(tag.kind(), &planner(), &tag.claims(&content));
    unsigned.finish(&key(LANTERN).sign(&unsigned.to_be_signed()))
}

pub fn tag() -> Vec<u8> {
    tag_of("", "", Some((&planner(), LANTERN)))
}

/// What the inspector says of the tag's load.
pub fn seal_on(tag: &[u8]) -> Seal {
    Seal {
        load: LoadNumber::new("KM-014").expect("a load number"),
        issued: after(0),
        valid_until: after(86_400),
        tag: TagPrint::of(&Digest::of(tag)),
        tag_signed: true,
        procedure: ProcedureId::new("bag").expect("a procedure"),
        version: 1,
        procedure_print: [3; 4],
        outcome: Outcome::Fit,
        found: 0,
        corrected: 0,
        mass: Quantity::parse("1800 lb").expect("a mass"),
        record: Digest::of(b"the record of KM-014"),
    }
}

pub fn seal() -> Seal {
    seal_on(&tag())
}

pub fn sign_seal(seal: &Seal, credential: &[u8], seed: u8) -> Vec<u8> {
    let unsigned = seal.prepare(credential);
    unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
}

/// The seal as it should be.
pub fn good() -> Vec<u8> {
    sign_seal(&seal(), &anvil(), ANVIL)
}

pub fn sign_void(record: Digest, issued: i64, credential: &[u8], seed: u8) -> Vec<u8> {
    let void = Void {
        load: seal().load,
        issued: after(issued),
        record,
        cause: VoidCause::RiggingDisturbed,
        note: None,
    };
    let unsigned = void.prepare(credential);
    unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
}

/// A vector about a seal's bytes, seen ten minutes after with its tag.
pub fn about(about: &str, seal: &[u8]) -> Vector {
    Vector {
        about: about.into(),
        at: after(SEEN).rfc3339(),
        holds: Vec::new(),
        refuses: Vec::new(),
        seal: Some(wrap(Kind::Seal, seal)),
        tag: Some(wrap(Kind::Tag, &tag())),
        expect: Expect::default(),
        authority: vec![sela()],
    }
}

impl Vector {
    /// What must come of it, for a seal whose signatures hold in deterministic form.
    pub fn expect(mut self, verdict: &str, reasons: &[&str]) -> Self {
        self.expect = Expect {
            verdict: Some(verdict.into()),
            refused: None,
            reasons: reasons.iter().map(|code| (*code).to_owned()).collect(),
            signatures: true,
            deterministic: true,
        };
        self
    }

    pub fn signatures(mut self, hold: bool) -> Self {
        self.expect.signatures = hold;
        self
    }

    pub fn deterministic(mut self, so: bool) -> Self {
        self.expect.deterministic = so;
        self
    }
}

/// The head of a CBOR item, shortest.
pub fn head(major: u8, number: usize) -> Vec<u8> {
    let major = major << 5;
    match number {
        0..=23 => vec![major | number as u8],
        24..=0xff => vec![major | 24, number as u8],
        _ => [vec![major | 25], (number as u16).to_be_bytes().to_vec()].concat(),
    }
}

pub fn bytes(content: &[u8]) -> Vec<u8> {
    [head(2, content.len()), content.to_vec()].concat()
}

pub fn text(content: &str) -> Vec<u8> {
    [head(3, content.len()), content.as_bytes().to_vec()].concat()
}

pub fn int(number: i64) -> Vec<u8> {
    let mut out = Writer::new();
    out.int(number);
    out.into_bytes()
}

pub type Pairs = Vec<(Vec<u8>, Vec<u8>)>;

/// A map of pairs in the order given, whatever it is.
pub fn map(pairs: &Pairs) -> Vec<u8> {
    let mut out = head(5, pairs.len());
    for (key, value) in pairs {
        out.extend([key.clone(), value.clone()].concat());
    }
    out
}

/// The parts of a COSE_Sign1, each as it will stand.
#[derive(Clone)]
pub struct Raw {
    pub protected: Vec<u8>,
    pub unprotected: Vec<u8>,
    pub payload: Vec<u8>,
    pub aad: Vec<u8>,
}

impl Raw {
    /// The good seal's parts.
    pub fn good() -> Self {
        Self {
            protected: map(&header_pairs(&anvil())),
            unprotected: vec![0xa0],
            payload: map(&claim_pairs(&seal())),
            aad: Kind::Seal.namespace(),
        }
    }

    pub fn to_be_signed(&self) -> Vec<u8> {
        [head(4, 4), text("Signature1"), bytes(&self.protected), bytes(&self.aad), bytes(&self.payload)]
            .concat()
    }

    pub fn with(&self, signature: &[u8]) -> Vec<u8> {
        [head(4, 4), bytes(&self.protected), self.unprotected.clone(), bytes(&self.payload), bytes(signature)]
            .concat()
    }

    /// The message, signed by the inspector over whatever the parts are: the worst case, a signer's own program that
    /// writes what it likes.
    pub fn signed(&self) -> Vec<u8> {
        self.with(&key(ANVIL).sign(&self.to_be_signed()))
    }
}

/// Header 1: algorithm -19; header 13: the credential.
pub fn header_pairs(credential: &[u8]) -> Pairs {
    vec![(int(1), int(-19)), (int(13), credential.to_vec())]
}

pub fn content(seal: &Seal) -> Vec<u8> {
    let message = seal.prepare(&[0x80]).finish(&[0; 64]);
    let parsed = Sign1::parse(&message, Limits::CODE).expect("our own message");
    Claims::parse(parsed.payload).expect("our own claims").ours.expect("a seal has content").to_vec()
}

pub fn claim_pairs(seal: &Seal) -> Pairs {
    vec![
        (int(2), text(seal.load.as_str())),
        (int(4), int(seal.valid_until.unix())),
        (int(6), int(seal.issued.unix())),
        (int(OURS), content(seal)),
    ]
}

/// A credential's claims: subject, expiry, key, roles.
pub fn credential_pairs(holder: &str, expires: Time, public: &[u8; 32], roles: &[u8]) -> Pairs {
    let cose_key = map(&vec![(int(1), int(1)), (int(-1), int(6)), (int(-2), bytes(public))]);
    vec![
        (int(2), text(holder)),
        (int(4), int(expires.unix())),
        (int(8), map(&vec![(int(1), cose_key)])),
        (int(9), bytes(roles)),
    ]
}

/// A credential of whatever claims, signed by an authority.
pub fn credential_with(pairs: &Pairs, authority: u8) -> Vec<u8> {
    let payload = map(pairs);
    let authority = key(authority);
    let header = Header { key_id: Some(authority.public().id()), credential: None };
    let signature = authority.sign(&to_be_signed(Kind::Credential, header, &payload));
    assemble(header, &payload, &signature)
}
