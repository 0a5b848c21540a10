//! The words that histories are made of, signed once.

use std::sync::OnceLock;

use super::*;
use crate::cast::*;
use slingseal_message::movement::{MovementEvent, RefusalCause};
use slingseal_message::seal::Seal;
use slingseal_message::trust::{Approval, Role};
use slingseal_words::Digest;

/// Another inspector, who is revoked in some of the trusts.
pub const ROOK: u8 = 20;
/// An inspector whose credential ran out before any of it.
pub const LAPSED: u8 = 21;

pub fn rook() -> Vec<u8> {
    credential("Rook 8", &[Role::Inspector], ROOK, 1_000_000, SELA)
}

pub fn lapsed() -> Vec<u8> {
    credential("Lapwing 4", &[Role::Inspector], LAPSED, -1, SELA)
}

fn foreign() -> Vec<u8> {
    credential("Herald 2", &[Role::Inspector], HERALD, 1_000_000, ALDER)
}

/// When the histories are asked of.
pub const NOW: i64 = 700;

const FIT: Outcome = Outcome::Fit;
const NOT: Outcome = Outcome::NotFit;

fn record_of(seconds: i64, outcome: Outcome) -> Digest {
    seal_at(seconds, outcome).record
}

fn claiming(seconds: i64, outcome: Outcome, record: Digest) -> Seal {
    Seal { record, ..seal_at(seconds, outcome) }
}

/// The word that this device wrote itself.
pub const HERE: &str = "lifted at 130, written here";

fn unsigned(event: MovementEvent, seconds: i64) -> Vec<u8> {
    movement(event, seconds, None, None).unsigned().unwrap()
}

/// A word of the alphabet, opened.
pub fn open((what, kind, bytes): &(&'static str, Kind, Vec<u8>), trusted: &Trusted) -> LoadWord {
    let word = LoadWord::open(*kind, bytes, trusted).unwrap_or_else(|why| panic!("{what}: {why}"));
    if *what == HERE { word.written_here() } else { word }
}

/// Every word of the alphabet, with what it is.
pub fn words() -> Vec<(&'static str, Kind, Vec<u8>)> {
    let by = |seal: &Seal, credential: &[u8], seed: u8| finish(&seal.prepare(credential), seed);
    let unplanned = slingseal_message::tag::Tag { planned: at(-7_100), ..tag() };
    let other_tag = planned(&unplanned);
    let seal = |what, bytes| (what, Kind::Seal, bytes);
    let refused = record_of(60, NOT);
    vec![
        seal("Anvil FIT at 0", by_anvil(&seal_at(0, FIT))),
        seal("Anvil NOT at 0", by_anvil(&seal_at(0, NOT))),
        seal("Anvil FIT at 60", by_anvil(&seal_at(60, FIT))),
        seal("Anvil NOT at 60", by_anvil(&seal_at(60, NOT))),
        seal("Anvil FIT at 180", by_anvil(&seal_at(180, FIT))),
        seal("Anvil FIT at 400", by_anvil(&seal_at(400, FIT))),
        seal("Herald NOT at 60", by_herald(&seal_at(60, NOT))),
        seal("Herald FIT at 60", by_herald(&seal_at(60, FIT))),
        seal("Herald FIT at 120", by_herald(&seal_at(120, FIT))),
        seal("Herald NOT at 181", by_herald(&seal_at(181, NOT))),
        seal("Herald FIT at 181", by_herald(&seal_at(181, FIT))),
        seal("Herald NOT at 520", by_herald(&seal_at(520, NOT))),
        seal("Rook FIT at 300", by(&seal_at(300, FIT), &rook(), ROOK)),
        seal("Rook NOT at 300", by(&seal_at(300, NOT), &rook(), ROOK)),
        seal("Rook FIT at 521", by(&seal_at(521, FIT), &rook(), ROOK)),
        seal("a lapsed NOT at 500", by(&seal_at(500, NOT), &lapsed(), LAPSED)),
        seal("a lapsed FIT at 600", by(&seal_at(600, FIT), &lapsed(), LAPSED)),
        seal(
            "a hookup's FIT at 600, of the refused record",
            by(&claiming(600, FIT, refused), &hookup(), THISTLE),
        ),
        seal("a stranger's FIT at 600", by(&seal_at(600, FIT), &foreign(), HERALD)),
        seal("Anvil FIT at 100, of the refused record", by_anvil(&claiming(100, FIT, refused))),
        seal("Anvil FIT at 610 with one open", by_anvil(&Seal { found: 1, ..seal_at(610, FIT) })),
        seal(
            "Anvil FIT at 620 for two days",
            by_anvil(&Seal { valid_until: at(172_800), ..seal_at(620, FIT) }),
        ),
        seal("Herald FIT ahead", by_herald(&seal_at(NOW + 121, FIT))),
        seal("Anvil FIT at 630 of another tag", {
            by_anvil(&Seal {
                record: Digest::of(b"other tag"),
                ..Seal { issued: at(630), ..seal_of(&other_tag) }
            })
        }),
        ("a void of Anvil's at 400", Kind::Void, void(record_of(400, FIT), 405, &hookup(), THISTLE)),
        ("a void of the refused record", Kind::Void, void(refused, 405, &rook(), ROOK)),
        ("a lapsed void of Anvil's at 0", Kind::Void, void(record_of(0, FIT), 405, &lapsed(), LAPSED)),
        ("the tag", Kind::Tag, planned(&tag())),
        (
            "set down at 450",
            Kind::Movement,
            signed_movement(MovementEvent::SetDown, 450, None, &hookup(), THISTLE),
        ),
        (
            "refused at the hook long before, of Anvil's FIT at 180",
            Kind::Movement,
            signed_movement(
                MovementEvent::Refused(RefusalCause::Rigging),
                -9_000,
                Some(Digest::of(&by_anvil(&seal_at(180, FIT)))),
                &rook(),
                ROOK,
            ),
        ),
        (HERE, Kind::Movement, unsigned(MovementEvent::Lifted, 130)),
        ("a stranger's word that it was lost at 690", Kind::Movement, unsigned(MovementEvent::Lost, 690)),
    ]
}

/// The trusts under which every history is asked, each saying less for a load than the one before: nobody revoked and the
/// list approved; some of everybody revoked; the list withdrawn in the middle of it; never approved but by another authority.
pub fn trusts() -> Vec<Trusted> {
    let (rook, hookup, herald) = (rook(), hookup(), herald());
    let revoked: [&[u8]; 3] = [&rook, &hookup, &herald];
    let withdrawn = Approval { from: at(-90_000), withdrawn: Some(at(180)) };
    let mut never = approving(&revoked, None);
    never.add(authority(ALDER, "Alder Aid", &[]));
    vec![trusting(&[]), trusting(&revoked), approving(&revoked, Some(withdrawn)), never]
}

/// Trusting an authority that says just this of the list which every seal here was walked by.
pub fn approving(revoked: &[&[u8]], approval: Option<Approval>) -> Trusted {
    let mut sela = authority(SELA, "Sela Relief", revoked);
    if let Some(roster) = &mut sela.roster {
        roster.approved = approval.map(|approval| (edition(), approval)).into_iter().collect();
    }
    let mut trusted = Trusted::default();
    trusted.add(sela);
    trusted
}

/// The tag that is scanned in every history; opened once, since who signed it does not hang on what is revoked.
pub fn scanned() -> &'static LoadWord {
    static TAG: OnceLock<LoadWord> = OnceLock::new();
    TAG.get_or_init(|| LoadWord::open(Kind::Tag, &planned(&tag()), &trusting(&[])).unwrap())
}
