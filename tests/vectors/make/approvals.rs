//! Which lists count: what was walked by an edition that the inspector's authority approves, has withdrawn, or never saw.

use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::seal::Outcome;
use slingseal_message::trust::{Approval, Edition, Roster};
use slingseal_words::ProcedureId;

use super::parts::*;
use crate::vector::Vector;

/// A roster of the authority that speaks of these editions.
fn speaking(seed: u8, sequence: u32, approved: Vec<(Edition, Approval)>) -> String {
    let roster = Roster {
        approved: approved.into_iter().collect(),
        ..Roster::new(sequence, after(-3_600), after(7 * 86_400))
    };
    wrap(Kind::RosterOfKeys, &roster.sign(&key(seed)))
}

fn since(from: i64, withdrawn: Option<i64>) -> Approval {
    Approval { from: after(from), withdrawn: withdrawn.map(after) }
}

/// The good seal on a device that received these rosters of its inspector's authority.
fn with(what: &str, rosters: Vec<String>) -> Vector {
    let mut vector = about(what, &good());
    vector.authority[0].rosters = rosters;
    vector
}

fn one(what: &str, edition: Edition, approval: Approval) -> Vector {
    with(what, vec![speaking(SELA, 2, vec![(edition, approval)])])
}

pub fn all() -> Vec<(String, Vector)> {
    let other = |change: fn(&mut Edition)| {
        let mut other = edition();
        change(&mut other);
        other
    };
    let month = 30 * 86_400;
    let mut all = vec![
        (
            "edition_never_approved",
            with("The authority's roster approves nothing.", vec![speaking(SELA, 2, Vec::new())])
                .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_under_a_roster_of_the_first_form",
            with(
                "The newest roster is of the first form, which approves nothing, after one that approves.",
                vec![
                    roster(SELA, 1, -3_600, 7 * 86_400, &[]),
                    first_roster(SELA, 2, -3_000, 7 * 86_400, &[]),
                ],
            )
            .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_approved_in_that_second",
            one("Approved in the second of the inspection.", edition(), since(0, None)).expect("GO", &[]),
        ),
        (
            "edition_approved_later",
            one("Approved a second after the inspection.", edition(), since(1, None))
                .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_withdrawn_in_that_second",
            one("Withdrawn in the second of the inspection.", edition(), since(-month, Some(0)))
                .expect("WAIT", &["procedure_withdrawn"]),
        ),
        (
            "edition_withdrawn_later",
            one("Withdrawn a second after the inspection, which stands.", edition(), since(-month, Some(1)))
                .expect("GO", &[]),
        ),
        (
            "edition_of_another_version",
            one("Another version is approved.", other(|one| one.version = 2), since(-month, None))
                .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_of_another_name",
            one(
                "The same text under another name is approved.",
                other(|one| one.procedure = ProcedureId::new("bag-2").expect("an id")),
                since(-month, None),
            )
            .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_of_another_text",
            one(
                "The one-card forgery: name and version are approved, the text is another.",
                other(|one| one.thumbprint[3] = 4),
                since(-month, None),
            )
            .expect("WAIT", &["procedure_not_approved"]),
        ),
        (
            "edition_beside_one_withdrawn",
            with(
                "Two texts of one name and version: that of the seal is withdrawn, the other is approved.",
                vec![speaking(
                    SELA,
                    2,
                    vec![
                        (edition(), since(-month, Some(-60))),
                        (other(|one| one.thumbprint = [4; 16]), since(-month, None)),
                    ],
                )],
            )
            .expect("WAIT", &["procedure_withdrawn"]),
        ),
        (
            "edition_withdrawn_by_an_older_roster",
            with(
                "An older roster withdrew it; the newest approves it.",
                vec![
                    roster(SELA, 3, -3_600, 7 * 86_400, &[]),
                    speaking(SELA, 2, vec![(edition(), since(-month, Some(-60)))]),
                ],
            )
            .expect("GO", &[]),
        ),
    ];
    let mut foreign =
        with("Another authority, trusted here as well, approves it.", vec![speaking(SELA, 2, Vec::new())]);
    foreign.authority.push(alder());
    all.push(("edition_approved_by_another_authority", foreign.expect("WAIT", &["procedure_not_approved"])));
    let mut refused = about("A refusal needs no approved list.", &{
        let mut said = seal();
        said.outcome = Outcome::NotFit;
        sign_seal(&said, &anvil(), ANVIL)
    });
    refused.authority[0].rosters = vec![speaking(SELA, 2, Vec::new())];
    all.push(("refusal_by_an_edition_never_approved", refused.expect("NO-GO", &["not_fit"])));
    // What the tag orders.
    let ordering = |what: &str, ordered: Edition, scanned: bool| {
        let bytes = tag_ordering(ordered);
        let mut vector = about(what, &sign_seal(&seal_on(&bytes), &anvil(), ANVIL));
        vector.tag = Some(wrap(Kind::TagWithBasis, &bytes));
        if !scanned {
            vector.holds.extend(vector.tag.take());
        }
        vector
    };
    let later = other(|one| one.version = 2);
    let text = other(|one| one.thumbprint = [4; 16]);
    all.extend([
        (
            "edition_as_ordered",
            ordering("The edition that the tag orders was walked.", edition(), true).expect("GO", &[]),
        ),
        (
            "edition_of_another_version_than_ordered",
            ordering("The tag orders version 2, and version 1 was walked.", later.clone(), true)
                .expect("NO-GO", &["procedure_not_ordered"]),
        ),
        (
            "edition_of_another_text_than_ordered",
            ordering(
                "The tag orders another text of the same version: one of them is a forgery.",
                text,
                true,
            )
            .expect("NO-GO", &["procedure_not_ordered"]),
        ),
        (
            "edition_of_another_version_than_the_held_tag_orders",
            ordering("As before, the tag held and not scanned.", later, false)
                .expect("NO-GO", &["procedure_not_ordered", "tag_not_seen"]),
        ),
    ]);
    let mut net = about("The tag orders the list for a bag, and that for a net was walked.", &{
        let mut said = seal();
        said.procedure = ProcedureId::new("net").expect("an id");
        sign_seal(&said, &anvil(), ANVIL)
    });
    net.authority[0].rosters = vec![speaking(
        SELA,
        2,
        vec![(other(|one| one.procedure = ProcedureId::new("net").expect("an id")), since(-month, None))],
    )];
    all.push(("procedure_of_another_name_than_ordered", net.expect("NO-GO", &["procedure_not_ordered"])));
    all.into_iter().map(|(name, vector)| (format!("approved/{name}"), vector)).collect()
}
