//! What became of a load, and what that makes of its seal.

use slingseal_message::envelope::{Kind, OURS, wrap};
use slingseal_message::movement::{
    JournalEnd, Movement, MovementEvent, PieceState, RefusalCause, ShownReason, ShownVerdict, VerdictShown,
};
use slingseal_message::trust::Role;
use slingseal_words::{Digest, GridRef, LoadNumber, Name, Note, Serial};

use super::parts::*;
use crate::vector::Vector;

/// A report, written so many seconds after the inspection.
fn moved(event: MovementEvent, seconds: i64) -> Movement {
    Movement {
        load: LoadNumber::new("KM-014").expect("a load number"),
        event,
        issued: after(seconds),
        happened: None,
        device: [9; 16],
        journal: JournalEnd { seq: 3, digest: Digest::of(b"entry 3") },
        before: None,
        seal: None,
        shown: None,
        aircraft: None,
        place: None,
        photos: Vec::new(),
        pieces: Vec::new(),
        note: None,
    }
}

fn sign(report: &Movement, credential: &[u8], seed: u8) -> String {
    let unsigned = report.prepare(credential);
    wrap(Kind::Movement, &unsigned.finish(&key(seed).sign(&unsigned.to_be_signed())))
}

fn by_hookup(report: &Movement) -> String {
    sign(report, &hookup(), THISTLE)
}

fn unsigned(report: &Movement) -> String {
    wrap(Kind::Movement, &report.unsigned().expect("it fits a code"))
}

fn holding(what: &str, holds: Vec<String>) -> Vector {
    let mut vector = about(what, &good());
    vector.holds = holds;
    vector
}

/// Everything that a report may say, said.
fn full(seconds: i64) -> Movement {
    Movement {
        happened: Some(after(seconds - 100)),
        before: Some(Digest::of(b"the report before")),
        seal: Some(Digest::of(&good())),
        shown: Some(VerdictShown {
            verdict: ShownVerdict::NoGo,
            reason: ShownReason::new("mass_over_allowable"),
        }),
        aircraft: Some(Name::new("Heron 22").expect("a name")),
        place: Some(GridRef::new("33TWN8042").expect("a grid reference")),
        photos: vec![Digest::of(b"photo 1"), Digest::of(b"photo 2")],
        pieces: vec![
            PieceState { serial: Serial::new("SL-1").expect("a serial"), back: true, damaged: false },
            PieceState { serial: Serial::new("SL-2").expect("a serial"), back: true, damaged: true },
        ],
        note: Some(Note::new("left leg twisted").expect("a note")),
        ..moved(MovementEvent::Refused(RefusalCause::TooHeavy), seconds)
    }
}

/// A bare report whose claims and content are written as they are given.
fn bare(event: i64, more: Pairs) -> String {
    let origin = [head(4, 4), bytes(&[9; 16]), int(3), bytes(Digest::of(b"entry 3").as_bytes()), vec![0xf6]];
    let mut content = vec![(int(1), int(event)), (int(2), origin.concat())];
    content.extend(more);
    let claims = vec![(int(2), text("KM-014")), (int(6), int(after(300).unix())), (int(OURS), map(&content))];
    wrap(Kind::Movement, &map(&claims))
}

pub fn all() -> Vec<(String, Vector)> {
    use MovementEvent::{Derigged, Lifted, Lost, Refused, Returned, SetDown};
    let one = |event| vec![by_hookup(&moved(event, 300))];
    let mut all = vec![
        (
            "moved_lifted",
            holding("Lifted, and nothing else is known.", one(Lifted)).expect("WAIT", &["lifted_before"]),
        ),
        (
            "moved_refused_at_the_hook",
            holding("The hookup team did not lift it.", one(Refused(RefusalCause::Rigging)))
                .expect("NO-GO", &["refused_at_hook"]),
        ),
        ("moved_lost", holding("It was jettisoned.", one(Lost)).expect("NO-GO", &["lost"])),
        ("moved_set_down", holding("It was set down.", one(SetDown)).expect("NO-GO", &["set_down"])),
        (
            "moved_derigged",
            holding("Its slings were taken off.", one(Derigged)).expect("NO-GO", &["derigged"]),
        ),
        (
            "moved_returned",
            holding("Its equipment is back.", one(Returned)).expect("NO-GO", &["equipment_returned"]),
        ),
        (
            "moved_all_the_way",
            holding(
                "The whole way, heard of backwards, and refused before.",
                [
                    (Returned, 500),
                    (Derigged, 450),
                    (SetDown, 400),
                    (Lifted, 300),
                    (Refused(RefusalCause::Zone), 200),
                ]
                .map(|(event, seconds)| by_hookup(&moved(event, seconds)))
                .to_vec(),
            )
            .expect(
                "NO-GO",
                &["refused_at_hook", "set_down", "derigged", "equipment_returned", "lifted_before"],
            ),
        ),
        (
            "moved_twice_the_same",
            holding(
                "Two teams say that it was set down.",
                vec![by_hookup(&moved(SetDown, 300)), sign(&moved(SetDown, 310), &anvil(), ANVIL)],
            )
            .expect("NO-GO", &["set_down"]),
        ),
        (
            "moved_with_all_that_a_report_may_say",
            holding("Every part of a report is there.", vec![by_hookup(&full(400))])
                .expect("NO-GO", &["refused_at_hook"]),
        ),
        (
            "moved_unsigned",
            holding("Nobody signed that it was set down.", vec![unsigned(&moved(SetDown, 300))])
                .expect("GO", &["movement_unsigned"]),
        ),
        (
            "moved_unsigned_beside_a_signed_one",
            holding(
                "Set down says a key, lifted says nobody.",
                vec![unsigned(&full(500)), by_hookup(&moved(SetDown, 300))],
            )
            .expect("NO-GO", &["set_down", "movement_unsigned"]),
        ),
        (
            "moved_by_a_stranger",
            holding(
                "Somebody whom nobody here knows says that it was lost.",
                vec![sign(
                    &moved(Lost, 300),
                    &credential(STRANGER, "Thistle 7", &[Role::Hookup], STRANGER),
                    STRANGER,
                )],
            )
            .expect("GO", &["movement_unsigned"]),
        ),
        (
            "moved_of_another_load",
            holding(
                "Another load was set down.",
                vec![by_hookup(&Movement {
                    load: LoadNumber::new("KM-015").expect("a load number"),
                    ..moved(SetDown, 300)
                })],
            )
            .expect("GO", &[]),
        ),
        (
            "moved_before_it_was_inspected",
            holding(
                "Set down, and inspected anew ten minutes later.",
                vec![by_hookup(&moved(SetDown, -600))],
            )
            .expect("GO", &[]),
        ),
        (
            "moved_in_the_last_second_of_the_slack",
            holding("Two clocks do not say which came first.", vec![by_hookup(&moved(SetDown, -120))])
                .expect("NO-GO", &["set_down"]),
        ),
        (
            "moved_a_second_before_the_slack",
            holding("Two clocks do say which came first.", vec![by_hookup(&moved(SetDown, -121))])
                .expect("GO", &[]),
        ),
        (
            "moved_by_the_inspectors_own_key_before",
            holding("One clock says which came first.", vec![sign(&moved(SetDown, -1), &anvil(), ANVIL)])
                .expect("GO", &[]),
        ),
        (
            "moved_in_the_second_of_the_inspection",
            holding("In one second, by one clock.", vec![sign(&moved(SetDown, 0), &anvil(), ANVIL)])
                .expect("NO-GO", &["set_down"]),
        ),
        (
            "moved_names_the_seal_and_an_earlier_time",
            holding(
                "A clock far behind; but the seal that was shown is named.",
                vec![by_hookup(&Movement { seal: Some(Digest::of(&good())), ..moved(SetDown, -3_000) })],
            )
            .expect("NO-GO", &["set_down"]),
        ),
        (
            "moved_and_reported_later",
            holding(
                "Lifted before the inspection, and reported after it.",
                vec![by_hookup(&Movement { happened: Some(after(-600)), ..moved(Lifted, 300) })],
            )
            .expect("GO", &[]),
        ),
    ];
    let lapsed = {
        let mut paper = credential_of(SELA, "Thistle 7", &[Role::Hookup], THISTLE);
        paper.expires = after(200);
        paper.issue(&key(SELA))
    };
    all.push((
        "moved_by_one_whose_credential_had_run_out",
        holding("The credential ran out before.", vec![sign(&moved(SetDown, 300), &lapsed, THISTLE)])
            .expect("GO", &["movement_unsigned"]),
    ));
    let mut revoked = holding("Whoever reported it was revoked later.", one(SetDown));
    revoked.authority[0].rosters.push(roster(SELA, 2, 400, 7 * 86_400, &[&hookup()]));
    all.push(("moved_by_one_revoked_since", revoked.expect("NO-GO", &["set_down"])));
    let mut all: Vec<(String, Vector)> =
        all.into_iter().map(|(name, vector)| (format!("valid/{name}"), vector)).collect();
    // Reports that no device may take.
    let serial = |state: i64| [head(4, 2), text("SL-1"), int(state)].concat();
    let list = |items: &[Vec<u8>]| [head(4, items.len()), items.concat()].concat();
    let verdict = |reason: &str| [head(4, 2), int(2), text(reason)].concat();
    let refused = [
        (
            "forged",
            "Another key than the credential's signed it.",
            sign(&moved(SetDown, 300), &hookup(), STRANGER),
        ),
        ("under_other_letters", "A void's letters before a report.", {
            let text = by_hookup(&moved(SetDown, 300));
            text.replacen("MV1:", "VO1:", 1)
        }),
        ("with_an_unknown_event", "There is no event 7.", bare(7, Vec::new())),
        ("refused_without_a_cause", "A refusal says why.", bare(2, Vec::new())),
        ("lifted_with_a_cause", "Only a refusal has a cause.", bare(1, vec![(int(4), int(2))])),
        ("with_an_unknown_cause", "There is no cause 9.", bare(2, vec![(int(4), int(9))])),
        (
            "that_happened_when_it_was_written",
            "Two times that are one: a second spelling.",
            bare(4, vec![(int(3), int(after(300).unix()))]),
        ),
        (
            "that_happened_later",
            "It happened after it was written.",
            bare(4, vec![(int(3), int(after(301).unix()))]),
        ),
        ("with_a_piece_twice", "One piece, twice.", bare(6, vec![(int(10), list(&[serial(1), serial(2)]))])),
        (
            "with_a_piece_of_no_state",
            "A piece of which nothing is said.",
            bare(6, vec![(int(10), list(&[serial(0)]))]),
        ),
        ("with_no_pieces", "A list of nothing: a second spelling.", bare(6, vec![(int(10), list(&[]))])),
        ("with_capitals_in_a_reason", "No code of a reason.", bare(1, vec![(int(6), verdict("NOT_FIT"))])),
        ("with_an_unknown_key", "There is no key 12.", bare(1, vec![(int(12), int(1))])),
    ];
    for (name, what, text) in refused {
        let mut vector = about(what, &good());
        vector.refuses = vec![text];
        all.push((format!("approved/report_{name}"), vector.expect("GO", &[])));
    }
    all
}
