//! What the judgement of a load came to say after the first release: equipment, the rigger, planners who left, refusals that
//! outlive their inspector, clocks behind any word, a mass that is none.

use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::seal::{Outcome, Seal};
use slingseal_message::trust::Role;
use slingseal_words::{Digest, LoadNumber, Quantity};

use super::parts::*;
use crate::vector::Vector;

/// A seal of a tag made of a changed plan, beside that tag.
fn of_tag(what: &str, bytes: &[u8]) -> Vector {
    let mut vector = about(what, &sign_seal(&seal_on(bytes), &anvil(), ANVIL));
    vector.tag = Some(wrap(Kind::Tag, bytes));
    vector
}

fn with_mass(what: &str, mass: &str) -> Vector {
    let mass = Quantity::parse(mass).expect("a quantity");
    let mut vector = about(what, &sign_seal(&Seal { mass, ..seal() }, &anvil(), ANVIL));
    vector.tag = None;
    vector.expect("NO-GO", &["unreadable"])
}

fn later(issued: i64, outcome: Outcome, record: Digest) -> Seal {
    Seal { issued: after(issued), valid_until: after(issued + 86_400), record, outcome, ..seal() }
}

pub fn all() -> Vec<(String, Vector)> {
    let planner = planner();
    let signer = Some((planner.as_slice(), LANTERN));
    let mut all: Vec<(&str, Vector)> = Vec::new();

    // The tag that is not scanned, and who rigged.
    let mut alone = about("The seal is scanned and the tag is not; nothing is held of it.", &good());
    alone.tag = None;
    let mut held = alone.clone();
    all.push(("valid/tag_not_scanned", alone.expect("GO", &["tag_not_seen", "rigger_not_known"])));
    held.about = "The seal is scanned, the tag is not, and it is held here.".into();
    held.holds = vec![wrap(Kind::Tag, &tag())];
    all.push(("valid/tag_held_and_not_scanned", held.expect("GO", &["tag_not_seen"])));
    let unsigned = tag_of("", "", None);
    let mut bare = of_tag("Nobody who plans has signed the tag, which is not scanned.", &unsigned);
    let said = Seal { tag_signed: false, ..seal_on(&unsigned) };
    bare.seal = Some(wrap(Kind::Seal, &sign_seal(&said, &anvil(), ANVIL)));
    bare.tag = None;
    let reasons = ["tag_unsigned", "tag_not_seen", "rigger_not_known"];
    all.push(("valid/tag_unsigned_and_not_scanned", bare.expect("HOLD", &reasons)));
    let no_rigger = tag_of("rigger = \"Mason 5\"", "", signer);
    all.push((
        "valid/tag_without_a_rigger",
        of_tag("The tag does not say who rigged the load.", &no_rigger).expect("GO", &["rigger_not_known"]),
    ));
    let mut own = of_tag("The tag is held and not scanned; its rigger sealed the load.", &{
        tag_of("Mason 5", "Anvil 3", signer)
    });
    own.holds = own.tag.take().into_iter().collect();
    all.push(("valid/own_work_on_a_held_tag", own.expect("NO-GO", &["own_work", "tag_not_seen"])));

    // Equipment. The load weighs 1800 lb; it is looked at on 9 July.
    let piece = |rating: &str, due: &str| {
        let rating = if rating.is_empty() {
            String::new()
        } else {
            format!("rating = \"{rating}\"\nsource = \"data plate\"\n")
        };
        let text = format!("[[equipment]]\nkind = \"sling\"\nserial = \"SL-1\"\n{rating}{due}\n[aircraft]");
        tag_of("[aircraft]", &text, signer)
    };
    all.extend([
        (
            "valid/equipment_rated_below_the_load",
            of_tag("A sling rated 100 lb under 1800 lb.", &piece("100 lb", ""))
                .expect("NO-GO", &["equipment_rated_below"]),
        ),
        (
            "valid/equipment_rated_as_a_force",
            of_tag("A sling rated 8 kN; 1800 lb weigh 8.007 kN.", &piece("8 kN", ""))
                .expect("NO-GO", &["equipment_rated_below"]),
        ),
        (
            "valid/equipment_rated_for_the_load",
            of_tag("A sling rated exactly what the load weighs.", &piece("1800 lb", "")).expect("GO", &[]),
        ),
        (
            "valid/equipment_on_its_last_day",
            of_tag("A sling whose inspection is due today.", &piece("", "next_inspection = \"2026-07-09\""))
                .expect("GO", &[]),
        ),
        (
            "valid/equipment_overdue",
            of_tag("A sling whose inspection was due yesterday.", &{
                piece("", "next_inspection = \"2026-07-08\"")
            })
            .expect("HOLD", &["equipment_overdue"]),
        ),
    ]);

    // A planner whose credential ran out after planning. It lets a seal hold a day.
    let ran_out = |what: &str, expires: i64| {
        let mut credential = credential_of(SELA, "Lantern 1", &[Role::Planner], LANTERN);
        credential.expires = after(expires);
        let bytes = tag_of("", "", Some((&credential.issue(&key(SELA)), LANTERN)));
        of_tag(what, &bytes)
    };
    all.extend([
        (
            "valid/planner_ran_out_before_planning",
            ran_out("The planner's credential had run out when the tag was planned.", SEEN - 86_400)
                .expect("HOLD", &["tag_planner_unknown"]),
        ),
        (
            "valid/planner_ran_out_since",
            ran_out("The planner's credential ran out an hour ago.", SEEN - 3_600).expect("GO", &[]),
        ),
    ]);
    let mut long_gone = ran_out("The planner's credential ran out a day and a second ago.", -3_600);
    long_gone.at = after(86_400 - 3_600 + 1).rfc3339();
    all.push(("valid/planner_ran_out_long_ago", long_gone.expect("HOLD", &["planner_credential_expired"])));

    // Who was revoked since.
    let herald_refuses = sign_seal(&later(300, Outcome::NotFit, Digest::of(b"refused")), &herald(), HERALD);
    let herald_passes = sign_seal(&later(300, Outcome::Fit, Digest::of(b"passed")), &herald(), HERALD);
    for (name, what, bytes) in [
        (
            "valid/refused_by_one_revoked_since",
            "A later refusal's inspector is revoked since.",
            herald_refuses,
        ),
        ("valid/passed_by_one_revoked_since", "A later fit one's inspector is revoked since.", herald_passes),
    ] {
        let mut vector = about(what, &good());
        let mut other = alder();
        other.rosters.push(roster(ALDER, 2, 400, 7 * 86_400, &[&herald()]));
        vector.authority.push(other);
        vector.holds = vec![wrap(Kind::Seal, &bytes)];
        all.push((name, vector.expect("NO-GO", &["superseded"])));
    }

    // A refusal, and before it others that claim its record: the digest that a seal claims is no identity.
    let claimed = Digest::of(b"refused");
    let refusal = sign_seal(&later(300, Outcome::NotFit, claimed), &herald(), HERALD);
    for (name, what, claim) in [
        (
            "valid/refusal_beside_a_hookups_claim",
            "A hookup's fit seal claims the record of a later refusal, and was scanned before it.",
            sign_seal(&later(200, Outcome::Fit, claimed), &hookup(), THISTLE),
        ),
        (
            "valid/refusal_beside_an_inspectors_claim",
            "The inspector's own later fit seal claims the record of a still later refusal.",
            sign_seal(&later(120, Outcome::Fit, claimed), &anvil(), ANVIL),
        ),
    ] {
        let mut vector = about(what, &good());
        vector.authority.push(alder());
        vector.holds = vec![wrap(Kind::Seal, &claim), wrap(Kind::Seal, &refusal)];
        all.push((name, vector.expect("NO-GO", &["superseded"])));
    }

    // A clock that is behind a word which is no roster.
    let mut behind =
        about("A seal of another load was signed three minutes after what this clock shows.", &good());
    let elsewhere = LoadNumber::new("KM-099").expect("a load number");
    let said = Seal { load: elsewhere, ..later(SEEN + 180, Outcome::Fit, Digest::of(b"elsewhere")) };
    behind.holds = vec![wrap(Kind::Seal, &sign_seal(&said, &anvil(), ANVIL))];
    all.push(("valid/clock_behind_a_seal_of_another_load", behind.expect("HOLD", &["clock_behind"])));
    let mut behind =
        about("A void of another record was signed three minutes after what this clock shows.", &good());
    behind.holds = vec![wrap(Kind::Void, &sign_void(Digest::of(b"other"), SEEN + 180, &hookup(), THISTLE))];
    all.push(("valid/clock_behind_a_void", behind.expect("HOLD", &["clock_behind"])));

    all.extend([
        ("invalid/mass_negative", with_mass("A seal of less than nothing, without a tag.", "-1800 lb")),
        ("invalid/mass_zero", with_mass("A seal of nothing, without a tag.", "0 lb")),
        ("invalid/mass_is_a_length", with_mass("A seal of twelve feet, without a tag.", "12 ft")),
        ("invalid/mass_is_a_force", with_mass("A seal of a force, without a tag.", "8 kN")),
    ]);
    all.into_iter().map(|(name, vector)| (name.to_owned(), vector)).collect()
}
