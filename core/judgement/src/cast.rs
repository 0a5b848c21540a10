//! The people, papers and loads of this room's tests.

use std::collections::BTreeSet;

use super::*;
use slingseal_message::envelope::{Kind, Unsigned};
use slingseal_message::movement::{JournalEnd, Movement, MovementEvent};
use slingseal_message::seal::{Outcome, Seal, TagPrint, Void, VoidCause};
use slingseal_message::tag::{Equipment, EquipmentRating, Tag, Zone};
use slingseal_message::trust::{
    Approval, Credential, CredentialId, DEFAULT_VALIDITY, Edition, Role, Roles, Roster, SecretKey, Trusted,
    TrustedAuthority,
};
use slingseal_words::{
    CallSign, Description, Digest, LoadNumber, Name, PlaceName, ProcedureId, Quantity, Serial, Source, Time,
};

/// Seeds of keys: two authorities, two inspectors, a planner, a hookup, a stranger.
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

pub fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

pub fn credential(holder: &str, roles: &[Role], seed: u8, expires: i64, authority: u8) -> Vec<u8> {
    Credential {
        holder: CallSign::new(holder).unwrap(),
        roles: Roles::of(roles),
        expires: at(expires),
        longest_validity: DEFAULT_VALIDITY,
        key: key(seed).public(),
    }
    .issue(&key(authority))
}

pub fn anvil() -> Vec<u8> {
    credential("Anvil 3", &[Role::Inspector], ANVIL, 1_000_000, SELA)
}

pub fn herald() -> Vec<u8> {
    credential("Herald 2", &[Role::Inspector], HERALD, 1_000_000, SELA)
}

pub fn hookup() -> Vec<u8> {
    credential("Thistle 7", &[Role::Hookup], THISTLE, 1_000_000, SELA)
}

pub fn planner() -> Vec<u8> {
    credential("Lantern 1", &[Role::Planner], LANTERN, 1_000_000, SELA)
}

/// Signs whatever was prepared.
pub fn finish(unsigned: &Unsigned, seed: u8) -> Vec<u8> {
    unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
}

pub fn load() -> LoadNumber {
    LoadNumber::new("KM-014").unwrap()
}

pub fn mass(text: &str) -> Quantity {
    Quantity::parse(text).unwrap()
}

/// The tag of the load, as planned.
pub fn tag() -> Tag {
    let zone = |name| Zone { name: PlaceName::new(name).unwrap(), grid: None };
    Tag {
        load: load(),
        planned: at(-7_200),
        description: Description::new("Rations, webbing bag").unwrap(),
        procedure: ProcedureId::new("bag").unwrap(),
        gross: mass("4200 lb"),
        aircraft: Name::new("Heron M2").unwrap(),
        allowable: mass("7000 lb"),
        pickup: zone("Kestrel Meadow"),
        destination: zone("Alder Bridge"),
        rigger: Some(CallSign::new("Mason 5").unwrap()),
        equipment: Vec::new(),
        links: Vec::new(),
        rigging: None,
        basis: slingseal_message::tag::Basis::default(),
    }
}

pub fn sling(rating: Option<&str>, next_inspection: Option<Time>) -> Equipment {
    Equipment {
        kind: Name::new("sling").unwrap(),
        serial: Serial::new("SL-1").unwrap(),
        rating: rating.map(|rating| EquipmentRating {
            value: mass(rating),
            source: Source::new("data plate").unwrap(),
        }),
        next_inspection,
    }
}

/// A tag's bytes, signed or marked unsigned.
pub fn tag_bytes(tag: &Tag, signer: Option<(&[u8], u8)>) -> Vec<u8> {
    let content = tag.content();
    let claims = tag.claims(&content);
    match signer {
        None => claims.to_bytes(),
        Some((credential, seed)) => finish(&Unsigned::prepare(tag.kind(), credential, &claims), seed),
    }
}

pub fn planned(tag: &Tag) -> Vec<u8> {
    tag_bytes(tag, Some((&planner(), LANTERN)))
}

/// A sound seal of the tag as planned, without findings.
pub fn seal() -> Seal {
    seal_of(&planned(&tag()))
}

pub fn seal_of(tag: &[u8]) -> Seal {
    let received = slingseal_message::tag::ReceivedTag::open(tag).unwrap();
    Seal {
        load: received.tag.load,
        issued: at(0),
        valid_until: at(86_400),
        tag: TagPrint::of(&received.digest),
        tag_signed: received.message.is_some(),
        procedure: received.tag.procedure,
        version: 1,
        procedure_print: [3; 4],
        outcome: Outcome::Fit,
        found: 0,
        corrected: 0,
        mass: received.tag.gross,
        record: Digest::of(b"record"),
    }
}

/// An inspection of the same load at another time, of a record of its own.
pub fn seal_at(seconds: i64, outcome: Outcome) -> Seal {
    Seal {
        issued: at(seconds),
        valid_until: at(seconds + 86_400),
        outcome,
        record: Digest::of(format!("record {seconds} {outcome:?}").as_bytes()),
        ..seal()
    }
}

pub fn by_anvil(seal: &Seal) -> Vec<u8> {
    finish(&seal.prepare(&anvil()), ANVIL)
}

pub fn by_herald(seal: &Seal) -> Vec<u8> {
    finish(&seal.prepare(&herald()), HERALD)
}

pub fn void(record: Digest, seconds: i64, credential: &[u8], seed: u8) -> Vec<u8> {
    let void = Void { load: load(), issued: at(seconds), record, cause: VoidCause::LoadMoved, note: None };
    finish(&void.prepare(credential), seed)
}

/// The edition that the seals of this cast were walked by.
pub fn edition() -> Edition {
    Edition { procedure: ProcedureId::new("bag").unwrap(), version: 1, thumbprint: [3; 16] }
}

/// A report of the load by nobody yet.
pub fn movement(event: MovementEvent, written: i64, happened: Option<i64>, seal: Option<Digest>) -> Movement {
    Movement {
        load: load(),
        event,
        issued: at(written),
        happened: happened.map(at),
        device: [7; 16],
        journal: JournalEnd { seq: 3, digest: Digest::of(b"journal") },
        before: None,
        seal,
        shown: None,
        aircraft: None,
        place: None,
        photos: Vec::new(),
        pieces: Vec::new(),
        note: None,
    }
}

/// The same, signed.
pub fn signed_movement(
    event: MovementEvent,
    seconds: i64,
    seal: Option<Digest>,
    credential: &[u8],
    seed: u8,
) -> Vec<u8> {
    finish(&movement(event, seconds, None, seal).prepare(credential), seed)
}

pub fn authority(seed: u8, name: &str, revoked: &[&[u8]]) -> TrustedAuthority {
    let revoked: BTreeSet<CredentialId> = revoked.iter().map(|bytes| CredentialId::of(bytes)).collect();
    let approved = [(edition(), Approval { from: at(-90_000), withdrawn: None })].into();
    let roster = Roster { revoked, approved, ..Roster::new(1, at(-100), at(500_000)) };
    TrustedAuthority { name: Name::new(name).unwrap(), key: key(seed).public(), roster: Some(roster) }
}

pub fn trusting(revoked: &[&[u8]]) -> Trusted {
    let mut trusted = Trusted::default();
    trusted.add(authority(SELA, "Sela Relief", revoked));
    trusted
}

/// What a device knows and was shown.
pub struct Scene {
    pub trusted: Trusted,
    pub now: Time,
    pub latest: Option<LatestTrusted>,
    pub memory: Memory,
    pub words: Vec<(Kind, Vec<u8>)>,
    pub tag: Option<Vec<u8>>,
    pub pieces: Vec<InspectionWord>,
}

impl Default for Scene {
    fn default() -> Self {
        Self {
            trusted: trusting(&[]),
            now: at(60),
            latest: None,
            memory: Memory::Whole,
            words: Vec::new(),
            tag: Some(planned(&tag())),
            pieces: Vec::new(),
        }
    }
}

impl Scene {
    pub fn holding(seals: Vec<Vec<u8>>) -> Self {
        Self { words: seals.into_iter().map(|bytes| (Kind::Seal, bytes)).collect(), ..Self::default() }
    }

    fn with<T>(&self, ask: impl FnOnce(&Evidence<'_>, Option<&LoadWord>) -> T) -> T {
        let open = |(kind, bytes): &(Kind, Vec<u8>)| LoadWord::open(*kind, bytes, &self.trusted).ok();
        let words: Vec<LoadWord> = self.words.iter().filter_map(open).collect();
        let words: Vec<&LoadWord> = words.iter().collect();
        let tag = self.tag.as_ref().map(|bytes| LoadWord::open_tag(bytes, &self.trusted).unwrap());
        let evidence = Evidence {
            trusted: &self.trusted,
            now: self.now,
            latest_trusted: self.latest.as_ref(),
            memory: self.memory,
            words: &words,
            pieces: &self.pieces,
        };
        ask(&evidence, tag.as_ref())
    }

    pub fn judgement(&self, seal: &[u8]) -> Judgement {
        let shown = LoadWord::open(Kind::Seal, seal, &self.trusted);
        self.with(|evidence, tag| judge_seal(shown.as_ref(), tag, evidence))
    }

    pub fn judge(&self, seal: &[u8]) -> (Verdict, Vec<&'static str>) {
        told(&self.judgement(seal))
    }

    pub fn judge_tag(&self) -> (Verdict, Vec<&'static str>) {
        told(&self.with(|evidence, tag| judge_tag(tag.unwrap(), evidence)))
    }

    pub fn judge_all(&self, seals: &[Vec<u8>]) -> (Verdict, Vec<&'static str>) {
        let shown: Vec<_> =
            seals.iter().map(|seal| LoadWord::open(Kind::Seal, seal, &self.trusted)).collect();
        let shown: Vec<Shown<'_>> = shown.iter().map(Result::as_ref).collect();
        self.with(|evidence, tag| told(gravest(&judge_seals(&shown, tag, evidence)).unwrap()))
    }

    pub fn standing(&self) -> LoadJudgement {
        self.with(|evidence, _| standing_of_load(&load(), evidence))
    }
}

fn told(judgement: &Judgement) -> (Verdict, Vec<&'static str>) {
    for language in [slingseal_words::Language::English, slingseal_words::Language::Spanish] {
        assert!(judgement.reasons.iter().all(|reason| reason.say(language).len() > 10));
    }
    (judgement.verdict, judgement.reasons.iter().map(Reason::code).collect())
}
