//! The people and the words of the histories.

use proptest::prelude::*;
use slingseal_message::envelope::{Kind, Unsigned};
use slingseal_message::movement::{JournalEnd, Movement, MovementEvent, RefusalCause};
use slingseal_message::seal::{Outcome, Seal, TagPrint, Void, VoidCause};
use slingseal_message::tag::{ReceivedTag, read_plan};
use slingseal_message::trust::{
    Approval, Credential, CredentialId, DEFAULT_VALIDITY, Edition, Role, Roles, Roster, SecretKey,
};
use slingseal_words::{CallSign, Digest, ProcedureId, Time};

pub const SELA: u8 = 1;
const STRANGER: u8 = 66;
/// Stands behind withdrawals of gear, and behind no word of a load.
#[allow(dead_code, reason = "the laws of loads have no gear")]
pub const LEADER: u8 = 9;
/// The load's tag names its legs' pieces, and so is of the second form.
pub const TAG: Kind = Kind::TagWithBasis;

pub fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

pub fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

/// Two inspectors, one more who may be revoked, one who ran out, a hookup, the first inspector's second credential, a stranger; a leader
/// who is nothing else, and says something of gear alone.
pub fn paper(by: u8) -> (Vec<u8>, u8) {
    let (holder, roles, seed, expires, authority): (_, &[Role], _, _, _) = match by {
        0 => ("Anvil 3", &[Role::Inspector], 2, 1_000_000, SELA),
        1 => ("Herald 2", &[Role::Inspector], 4, 1_000_000, SELA),
        2 => ("Rook 8", &[Role::Inspector], 20, 1_000_000, SELA),
        3 => ("Lapwing 4", &[Role::Inspector], 21, -1, SELA),
        4 => ("Thistle 7", &[Role::Hookup], 6, 1_000_000, SELA),
        5 => ("Anvil 3", &[Role::Inspector, Role::Leader], 2, 2_000_000, SELA),
        LEADER => ("Beacon 2", &[Role::Leader], 7, 1_000_000, SELA),
        _ => ("Anvil 3", &[Role::Inspector], STRANGER, 1_000_000, STRANGER),
    };
    let credential = Credential {
        holder: CallSign::new(holder).expect("a call sign"),
        roles: Roles::of(roles),
        expires: at(expires),
        longest_validity: DEFAULT_VALIDITY,
        key: key(seed).public(),
    };
    (credential.issue(&key(authority)), seed)
}

/// Who is revoked: a bit each for the second inspector, the third and the hookup.
pub fn revoked(bits: u8) -> Vec<Vec<u8>> {
    [(0, 1), (1, 2), (2, 4)]
        .iter()
        .filter(|(bit, _)| bits >> bit & 1 == 1)
        .map(|(_, by)| paper(*by).0)
        .collect()
}

/// The authority's roster of a number: each says something else of the one list that every seal here was walked by.
pub fn roster(sequence: u32, bits: u8) -> Roster {
    let since = |from, withdrawn: Option<i64>| Approval { from: at(from), withdrawn: withdrawn.map(at) };
    let approval = match sequence {
        1 | 3 => Some(since(-90_000, None)),
        2 => Some(since(-90_000, Some(240))),
        4 => None,
        _ => Some(since(121, Some(600))),
    };
    let edition =
        Edition { procedure: ProcedureId::new("bag").expect("an id"), version: 1, thumbprint: [3; 16] };
    Roster {
        revoked: revoked(bits).iter().map(|paper| CredentialId::of(paper)).collect(),
        approved: approval.map(|approval| (edition, approval)).into_iter().collect(),
        ..Roster::new(sequence, at(-100), at(500_000))
    }
}

/// The number of the newest roster that a device has which took these words, and the first.
pub fn newest(words: &[Signed]) -> u32 {
    words.iter().filter_map(|word| word.roster).max().unwrap_or(1)
}

pub fn finish(unsigned: &Unsigned, seed: u8) -> Vec<u8> {
    unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
}

/// The tag of the load, or another one of the same load.
pub fn tag(other: bool) -> Vec<u8> {
    const PLAN: &str = "load = \"KM-014\"\ndescription = \"Rations\"\nprocedure = \"bag\"\ngross = \"1800 lb\"\n\
        rigger = \"Mason 5\"\n[aircraft]\ntype = \"Heron M2\"\nallowable = \"7000 lb\"\n[pickup]\nname = \"Kestrel Meadow\"\n\
        [destination]\nname = \"Alder Bridge\"\n\
        [[equipment]]\nkind = \"sling leg\"\nserial = \"SL-1\"\n[[equipment]]\nkind = \"net\"\nserial = \"NT-2\"\n\
        [[leg]]\nname = \"3\"\nserial = \"SL-3\"\n";
    let planned = at(if other { -7_100 } else { -7_200 });
    let tag = read_plan(PLAN, planned, &|_| Err("no file".into())).expect("a plan").tag;
    let planner = Credential {
        holder: CallSign::new("Lantern 1").expect("a call sign"),
        roles: Roles::of(&[Role::Planner]),
        expires: at(1_000_000),
        longest_validity: DEFAULT_VALIDITY,
        key: key(5).public(),
    };
    let content = tag.content();
    finish(&Unsigned::prepare(TAG, &planner.issue(&key(SELA)), &tag.claims(&content)), 5)
}

/// A word before it is signed.
#[derive(Clone, Debug)]
pub enum Draft {
    Seal {
        by: u8,
        at: i64,
        fit: bool,
        record: u8,
        other_tag: bool,
    },
    Void {
        by: u8,
        at: i64,
        record: u8,
    },
    Tag {
        other: bool,
    },
    /// By one of the seven, by nobody (7), by the device that judges (8), where that can be.
    Movement {
        by: u8,
        event: u8,
        at: i64,
    },
    /// The authority's roster of this number; who is revoked is the same on all.
    Roster {
        sequence: u32,
        revoked: u8,
    },
}

/// A word, and what of it decides whether it may lift a refusal.
pub struct Signed {
    pub kind: Kind,
    pub bytes: Vec<u8>,
    by: u8,
    at: i64,
    fit: Option<bool>,
    moved: bool,
    /// Whether the device that judges wrote it.
    #[allow(dead_code, reason = "a home counts what it wrote itself; the other program is told")]
    pub own: bool,
    roster: Option<u32>,
}

impl Draft {
    /// The same word of a history in which these are revoked.
    pub fn under(self, bits: u8) -> Self {
        match self {
            Self::Roster { sequence, .. } => Self::Roster { sequence, revoked: bits },
            other => other,
        }
    }

    pub fn sign(&self) -> Signed {
        let record = |number: u8| Digest::of(&[number]);
        match *self {
            Self::Seal { by, at: issued, fit, record: number, other_tag } => {
                let received = tag(other_tag);
                let received = ReceivedTag::open(&received).expect("a tag");
                let (credential, seed) = paper(by);
                let seal = Seal {
                    load: received.tag.load,
                    issued: at(issued),
                    valid_until: at(issued + 86_400),
                    tag: TagPrint::of(&received.digest),
                    tag_signed: true,
                    procedure: received.tag.procedure,
                    version: 1,
                    procedure_print: [3; 4],
                    outcome: if fit { Outcome::Fit } else { Outcome::NotFit },
                    found: 0,
                    corrected: 0,
                    mass: received.tag.gross,
                    record: record(number),
                };
                let bytes = finish(&seal.prepare(&credential), seed);
                Signed {
                    kind: Kind::Seal,
                    bytes,
                    by,
                    at: issued,
                    fit: Some(fit),
                    moved: false,
                    own: false,
                    roster: None,
                }
            }
            Self::Void { by, at: issued, record: number } => {
                let (credential, seed) = paper(by);
                let received = tag(false);
                let load = ReceivedTag::open(&received).expect("a tag").tag.load;
                let cause = VoidCause::LoadMoved;
                let void = Void { load, issued: at(issued), record: record(number), cause, note: None };
                let bytes = finish(&void.prepare(&credential), seed);
                Signed {
                    kind: Kind::Void,
                    bytes,
                    by,
                    at: issued,
                    fit: None,
                    moved: false,
                    own: false,
                    roster: None,
                }
            }
            Self::Tag { other } => Signed {
                kind: TAG,
                bytes: tag(other),
                by: 0,
                at: 0,
                fit: None,
                moved: false,
                own: false,
                roster: None,
            },
            Self::Movement { by, event, at: issued } => {
                let received = tag(false);
                let load = ReceivedTag::open(&received).expect("a tag").tag.load;
                let events = [
                    MovementEvent::Lifted,
                    MovementEvent::Refused(RefusalCause::Rigging),
                    MovementEvent::Lost,
                    MovementEvent::SetDown,
                    MovementEvent::Derigged,
                    MovementEvent::Returned,
                ];
                let event = events[usize::from(event) % events.len()];
                let movement = Movement {
                    load,
                    event,
                    issued: at(issued + 30),
                    happened: Some(at(issued)),
                    device: [by; 16],
                    journal: JournalEnd { seq: 7, digest: record(7) },
                    before: None,
                    seal: None,
                    shown: None,
                    aircraft: None,
                    place: None,
                    photos: Vec::new(),
                    pieces: Vec::new(),
                    note: None,
                };
                let bytes = if by < 7 {
                    let (credential, seed) = paper(by);
                    finish(&movement.prepare(&credential), seed)
                } else {
                    movement.unsigned().expect("it fits a code")
                };
                let moved = event != MovementEvent::Lifted;
                Signed {
                    kind: Kind::Movement,
                    bytes,
                    by,
                    at: issued,
                    fit: None,
                    moved,
                    own: by == 8,
                    roster: None,
                }
            }
            Self::Roster { sequence, revoked } => Signed {
                kind: Kind::RosterOfKeys,
                bytes: roster(sequence, revoked).sign(&key(SELA)),
                by: 0,
                at: 0,
                fit: None,
                moved: false,
                own: false,
                roster: Some(sequence),
            },
        }
    }
}

impl Signed {
    fn inspects(&self) -> bool {
        // The credential of the fourth ran out at -1: up to then its holder could inspect.
        self.fit.is_some() && (matches!(self.by, 0 | 1 | 2 | 5) || (self.by == 3 && self.at <= -1))
    }

    /// Whether it tells, so that it counts, that the load was moved. `own` is for whoever judges it as its own.
    fn moves(&self) -> bool {
        // Written half a minute later than it happened; the credential of the fourth ran out at -1.
        self.moved && (matches!(self.by, 0 | 1 | 2 | 4 | 5) || (self.by == 3 && self.at + 30 <= -1))
    }

    /// The first inspector's two credentials are of one key.
    fn clock(&self) -> u8 {
        if self.by == 5 { 0 } else { self.by }
    }

    /// Whether it is a FIT inspection by somebody who is not revoked, later than every refusal: by more than two minutes where
    /// another clock told the refusal's time.
    pub fn may_lift(&self, before: &[Self], revoked: u8) -> bool {
        let taken_away = match self.by {
            1 => revoked & 1 != 0,
            2 => revoked & 2 != 0,
            _ => false,
        };
        let refusals = before.iter().filter(|other| other.inspects() && other.fit == Some(false));
        self.inspects()
            && self.fit == Some(true)
            && !taken_away
            && refusals.chain(before.iter().filter(|other| other.moves())).all(|refusal| {
                let later = self.at - refusal.at;
                if refusal.clock() == self.clock() { later > 0 } else { later > 120 }
            })
    }
}

/// When something was said: mostly about the slack of two clocks apart.
pub fn time() -> impl Strategy<Value = i64> {
    prop_oneof![3 => (0i64..6, -1i64..=1).prop_map(|(slack, edge)| slack * 120 + edge), 1 => 0i64..650]
}

pub fn draft() -> impl Strategy<Value = Draft> {
    prop_oneof![
        10 => (0u8..7, time(), any::<bool>(), 0u8..4, prop::bool::weighted(0.1))
            .prop_map(|(by, at, fit, record, other_tag)| Draft::Seal { by, at, fit, record, other_tag }),
        1 => (0u8..7, time(), 0u8..6).prop_map(|(by, at, record)| Draft::Void { by, at, record }),
        1 => any::<bool>().prop_map(|other| Draft::Tag { other }),
        2 => (0u8..9, 0u8..6, time()).prop_map(|(by, event, at)| Draft::Movement { by, event, at }),
        1 => (2u32..6).prop_map(|sequence| Draft::Roster { sequence, revoked: 0 }),
    ]
}
