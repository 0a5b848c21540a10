//! Inspections of pieces of gear, and what they make of a tag that names the piece.

use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::seal::{InspectedSubject, Outcome, SignedInspection};
use slingseal_message::trust::{Approval, Edition, Role, Roster};
use slingseal_words::{Digest, Note, ProcedureId, Serial};

use super::parts::*;
use crate::vector::Vector;

/// A sling with a leg of its own serial, on the load of these vectors.
fn slung() -> Vec<u8> {
    let text = "[[equipment]]\nkind = \"sling\"\nserial = \"SL-1\"\n[[leg]]\nname = \"1\"\nserial = \"LG-7\"\n[aircraft]";
    tag_of("[aircraft]", text, Some((&planner(), LANTERN)))
}

/// An inspection of a piece, signed so many seconds after the seal.
fn said(name: &str, seconds: i64, outcome: Outcome, fit_for: Option<i64>) -> SignedInspection {
    let fit = outcome == Outcome::Fit;
    SignedInspection {
        subject: InspectedSubject::Piece,
        name: Serial::new(name).expect("a serial number"),
        issued: after(seconds),
        fit_until: fit_for.map(|time| after(seconds + time)),
        outcome,
        edition: Edition::of(ProcedureId::new("gear-chain").expect("an id"), 1, Digest::of(b"list")),
        found: u16::from(!fit),
        corrected: 0,
        why: (!fit).then(|| Note::new("link is cracked").expect("a note")),
        record: Digest::of(format!("record {name} {seconds}").as_bytes()),
    }
}

fn sign(said: &SignedInspection, credential: &[u8], seed: u8) -> String {
    let unsigned = said.prepare(credential);
    wrap(Kind::Inspection, &unsigned.finish(&key(seed).sign(&unsigned.to_be_signed())))
}

fn by_anvil(said: &SignedInspection) -> String {
    sign(said, &anvil(), ANVIL)
}

/// The seal of the slung load beside its tag, on a device that holds these.
fn holding(what: &str, holds: Vec<String>) -> Vector {
    let tag = slung();
    let mut vector = about(what, &sign_seal(&seal_on(&tag), &anvil(), ANVIL));
    vector.tag = Some(wrap(Kind::TagWithBasis, &tag));
    vector.holds = holds;
    vector
}

pub fn all() -> Vec<(String, Vector)> {
    let bad = |name: &str, seconds| said(name, seconds, Outcome::NotFit, None);
    let good = |name: &str, seconds, fit_for| said(name, seconds, Outcome::Fit, fit_for);
    let withdrawn = by_anvil(&bad("SL-1", -600));
    let mut all = vec![
        (
            "piece_withdrawn",
            holding("The sling was withdrawn.", vec![withdrawn.clone()])
                .expect("NO-GO", &["equipment_withdrawn"]),
        ),
        (
            "piece_of_a_leg_withdrawn",
            holding(
                "The leg's own serial was withdrawn, told in small letters.",
                vec![by_anvil(&bad("lg-7", -600))],
            )
            .expect("NO-GO", &["equipment_withdrawn"]),
        ),
        (
            "piece_of_another_load_withdrawn",
            holding("Another sling was withdrawn.", vec![by_anvil(&bad("SL-2", -600))]).expect("GO", &[]),
        ),
        (
            "piece_found_fit_again_by_an_unapproved_list",
            holding(
                "Withdrawn, and found fit an hour later by a list that nobody approves.",
                vec![by_anvil(&good("SL-1", -600, None)), by_anvil(&bad("SL-1", -4_200))],
            )
            .expect("WAIT", &["equipment_list_not_approved"]),
        ),
        (
            "piece_withdrawn_again",
            holding(
                "Found fit, and withdrawn an hour later.",
                vec![withdrawn.clone(), by_anvil(&good("SL-1", -4_200, None))],
            )
            .expect("NO-GO", &["equipment_withdrawn"]),
        ),
        (
            "piece_withdrawn_within_the_slack",
            holding(
                "Two inspectors a minute apart: the refusal counts.",
                vec![
                    by_anvil(&bad("SL-1", -600)),
                    sign(
                        &good("SL-1", -540, None),
                        &credential(SELA, "Herald 2", &[Role::Inspector], HERALD),
                        HERALD,
                    ),
                ],
            )
            .expect("NO-GO", &["equipment_withdrawn"]),
        ),
        (
            "piece_fit_until_later_by_an_unapproved_list",
            holding(
                "Found fit for a day by a list that nobody approves.",
                vec![by_anvil(&good("SL-1", -600, Some(86_400)))],
            )
            .expect("WAIT", &["equipment_list_not_approved"]),
        ),
        (
            "piece_fit_until_before_by_an_unapproved_list",
            holding(
                "Found fit for an hour, two hours ago, by a list that nobody approves.",
                vec![by_anvil(&good("SL-1", -7_200, Some(3_600)))],
            )
            .expect("WAIT", &["equipment_list_not_approved", "equipment_overdue"]),
        ),
    ];
    let mut hooks = bad("SL-1", -600);
    hooks.subject = InspectedSubject::Aircraft;
    all.push((
        "hooks_of_the_same_name_not_fit",
        holding("An aircraft's hooks of the same name were not fit.", vec![by_anvil(&hooks)])
            .expect("GO", &[]),
    ));
    let mut hookup = holding("Somebody who is no inspector withdraws a piece.", Vec::new());
    hookup.refuses =
        vec![sign(&bad("SL-1", -600), &credential(SELA, "Thistle 7", &[Role::Hookup], THISTLE), THISTLE)];
    all.push(("piece_withdrawn_by_a_hookup", hookup.expect("GO", &[])));
    let leader = credential(SELA, "Rook 8", &[Role::Leader], HERALD);
    let mut no_fit = holding(
        "A leader withdrew the sling, and another leader's fit is none.",
        vec![sign(&bad("SL-1", -3_600), &leader, HERALD)],
    );
    no_fit.refuses = vec![sign(&good("SL-1", -600, None), &leader, HERALD)];
    all.push(("piece_withdrawn_by_a_leader", no_fit.expect("NO-GO", &["equipment_withdrawn"])));
    let mut bare = SignedInspection::withdrawal(
        Serial::new("SL-1").expect("a serial number"),
        after(-600),
        Note::new("dropped from a lorry").expect("a note"),
    )
    .expect("a withdrawal");
    all.push((
        "piece_withdrawn_without_a_walk",
        holding("A leader withdrew the sling without a walk.", vec![sign(&bare, &leader, HERALD)])
            .expect("NO-GO", &["equipment_withdrawn"]),
    ));
    bare.subject = InspectedSubject::Zone;
    let mut of_a_zone = holding("A leader finds a zone not fit, as an inspector may.", Vec::new());
    of_a_zone.refuses = vec![sign(&bare, &leader, HERALD)];
    all.push(("zone_not_fit_by_a_leader", of_a_zone.expect("GO", &[])));
    // Revoked since: the refusal keeps its force, the fit one does not.
    let herald = credential(SELA, "Herald 2", &[Role::Inspector], HERALD);
    let revoking = Roster {
        revoked: [slingseal_message::trust::CredentialId::of(&herald)].into(),
        approved: approving(),
        ..Roster::new(2, after(60), after(7 * 86_400))
    };
    let revoked = wrap(Kind::RosterOfKeys, &revoking.sign(&key(SELA)));
    let by_herald = |said: &SignedInspection| sign(said, &herald, HERALD);
    for (name, what, holds, expect) in [
        (
            "piece_withdrawn_by_one_revoked_since",
            "Whoever withdrew the sling was revoked later.",
            vec![by_herald(&bad("SL-1", -600))],
            ("NO-GO", vec!["equipment_withdrawn"]),
        ),
        (
            "piece_found_fit_by_one_revoked_since",
            "Whoever found the withdrawn sling fit was revoked later.",
            vec![by_anvil(&bad("SL-1", -4_200)), by_herald(&good("SL-1", -600, None))],
            ("NO-GO", vec!["equipment_withdrawn"]),
        ),
    ] {
        let mut vector = holding(what, holds);
        vector.authority[0].rosters.push(revoked.clone());
        all.push((name, vector.expect(expect.0, &expect.1)));
    }
    // The list of the gear is approved beside the load's, or was: at the second of the inspection is asked.
    let list = said("SL-1", 0, Outcome::Fit, None).edition;
    let listed = |from: i64, withdrawn: Option<i64>| {
        let mut approved = approving();
        let approval = Approval { from: after(from), withdrawn: withdrawn.map(after) };
        approved.insert(list.clone(), approval);
        let roster = Roster { approved, ..Roster::new(2, after(60), after(7 * 86_400)) };
        wrap(Kind::RosterOfKeys, &roster.sign(&key(SELA)))
    };
    for (name, what, holds, roster, expect) in [
        (
            "piece_withdrawn_by_a_leader_and_found_fit",
            "A leader withdrew the sling, and an inspector found it fit later by a list that is approved.",
            vec![sign(&bad("SL-1", -4_200), &leader, HERALD), by_anvil(&good("SL-1", -600, None))],
            listed(-86_400, None),
            ("GO", vec![]),
        ),
        (
            "piece_found_fit_again_by_an_approved_list",
            "Withdrawn, and found fit an hour later by a list that is approved.",
            vec![by_anvil(&good("SL-1", -600, None)), by_anvil(&bad("SL-1", -4_200))],
            listed(-86_400, None),
            ("GO", vec![]),
        ),
        (
            "piece_fit_until_later_by_an_approved_list",
            "Found fit for a day by a list that is approved.",
            vec![by_anvil(&good("SL-1", -600, Some(86_400)))],
            listed(-600, None),
            ("GO", vec![]),
        ),
        (
            "piece_fit_until_before_by_an_approved_list",
            "Found fit for an hour, two hours ago, by a list that is approved.",
            vec![by_anvil(&good("SL-1", -7_200, Some(3_600)))],
            listed(-86_400, None),
            ("WAIT", vec!["equipment_overdue"]),
        ),
        (
            "piece_found_fit_by_a_list_approved_later",
            "Found fit a second before the list was approved.",
            vec![by_anvil(&good("SL-1", -600, None))],
            listed(-599, None),
            ("WAIT", vec!["equipment_list_not_approved"]),
        ),
        (
            "piece_found_fit_by_a_list_withdrawn_before",
            "Found fit in the second in which the list was withdrawn.",
            vec![by_anvil(&good("SL-1", -600, None))],
            listed(-86_400, Some(-600)),
            ("WAIT", vec!["equipment_list_not_approved"]),
        ),
        (
            "piece_found_fit_by_a_list_withdrawn_later",
            "Found fit a second before the list was withdrawn.",
            vec![by_anvil(&good("SL-1", -600, None))],
            listed(-86_400, Some(-599)),
            ("GO", vec![]),
        ),
        (
            "piece_withdrawn_by_an_unapproved_list_under_an_approved_one",
            "Found fit by the approved list, then withdrawn: what a list finds wrong is wrong whoever approved it.",
            vec![by_anvil(&good("SL-1", -4_200, None)), by_anvil(&bad("SL-1", -600))],
            listed(-86_400, Some(-3_600)),
            ("NO-GO", vec!["equipment_withdrawn"]),
        ),
    ] {
        let mut vector = holding(what, holds);
        vector.authority[0].rosters.push(roster);
        all.push((name, vector.expect(expect.0, &expect.1)));
    }
    all.into_iter().map(|(name, vector)| (format!("valid/{name}"), vector)).collect()
}
