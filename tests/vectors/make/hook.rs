//! Seals that are what they say: what the device knows and what hangs on the load decide.

use slingseal_message::envelope::{Kind, wrap};
use slingseal_message::seal::{Outcome, Seal};
use slingseal_message::trust::Role;
use slingseal_words::Digest;

use super::parts::*;
use crate::vector::Vector;

fn changed(what: &str, change: impl FnOnce(&mut Seal)) -> Vector {
    let mut said = seal();
    change(&mut said);
    about(what, &sign_seal(&said, &anvil(), ANVIL))
}

/// The good seal, beside a tag that was made of a changed plan.
fn on_tag(what: &str, bytes: &[u8]) -> Vector {
    let mut vector = about(what, &good());
    vector.tag = Some(wrap(Kind::Tag, bytes));
    vector
}

pub fn all() -> Vec<(String, Vector)> {
    let signer = planner();
    let signer = Some((signer.as_slice(), LANTERN));
    let mut all: Vec<(&str, Vector)> = vec![
        ("fit", about("Inspected, fit, tag and seal scanned.", &good()).expect("GO", &[])),
        (
            "fit_after_correction",
            changed("Two deficiencies found and put right.", |seal| (seal.found, seal.corrected) = (2, 2))
                .expect("GO", &["corrected"]),
        ),
        (
            "not_fit",
            changed("The inspector refused the load.", |seal| seal.outcome = Outcome::NotFit)
                .expect("NO-GO", &["not_fit"]),
        ),
        (
            "open_deficiency",
            changed("Says fit and counts a deficiency that nobody looked at again.", |seal| {
                (seal.found, seal.corrected) = (2, 1);
            })
            .expect("NO-GO", &["open_deficiency", "corrected"]),
        ),
        (
            "valid_longer_than_allowed",
            changed("The inspector gives himself a week.", |seal| seal.valid_until = after(7 * 86_400))
                .expect("NO-GO", &["valid_too_long"]),
        ),
    ];
    // Time, both ways.
    let at = |what: &str, seconds: i64| {
        let mut vector = about(what, &good());
        vector.at = after(seconds).rfc3339();
        vector
    };
    all.extend([
        ("last_second", at("In the last second of its validity.", 86_400).expect("GO", &["expires_soon"])),
        ("expired", at("A second past its validity.", 86_401).expect("NO-GO", &["expired"])),
        (
            "clock_within_slack",
            at("This clock is two minutes behind the inspector's.", -120).expect("GO", &[]),
        ),
        (
            "from_the_future",
            at("This clock is more than two minutes behind the inspector's.", -121)
                .expect("HOLD", &["from_the_future"]),
        ),
    ]);
    let mut behind = about("A roster was signed three minutes after what this clock shows.", &good());
    behind.authority[0].rosters = vec![roster(SELA, 1, SEEN + 180, 7 * 86_400, &[])];
    all.push(("clock_behind_the_roster", behind.expect("HOLD", &["clock_behind"])));
    // Rosters.
    let mut none = about("No roster of the authority was ever received.", &good());
    none.authority[0].rosters.clear();
    all.push(("no_roster", none.expect("HOLD", &["no_roster"])));
    let mut old = about("A phone that was offline for a week.", &good());
    old.authority[0].rosters = vec![roster(SELA, 1, -7 * 86_400, SEEN - 1, &[])];
    all.push(("roster_too_old", old.expect("HOLD", &["roster_too_old"])));
    let revoking = roster(SELA, 2, 60, 7 * 86_400, &[&anvil()]);
    let mut revoked = about("The inspector is revoked after the seal was signed.", &good());
    revoked.authority[0].rosters = vec![revoking.clone()];
    all.push(("revoked", revoked.expect("NO-GO", &["revoked"])));
    let mut rolled =
        about("After the roster that revokes, the older one that does not is shown again.", &good());
    rolled.authority[0].rosters = vec![revoking.clone(), roster(SELA, 1, -3_600, 7 * 86_400, &[])];
    all.push(("roster_rolled_back", rolled.expect("NO-GO", &["revoked"])));
    let mut foreign = about("Another authority's roster lists the inspector's credential.", &good());
    let mut other = alder();
    other.rosters = vec![roster(ALDER, 5, 60, 7 * 86_400, &[&anvil()])];
    foreign.authority.push(other);
    all.push(("revoked_by_another_authority", foreign.expect("GO", &[])));
    let mut renewed = about("The inspector was revoked and holds a new credential.", &{
        let mut credential = credential_of(SELA, "Anvil 3", &[Role::Inspector], ANVIL);
        credential.expires = after(30 * 86_400);
        sign_seal(&seal(), &credential.issue(&key(SELA)), ANVIL)
    });
    renewed.authority[0].rosters = vec![revoking];
    all.push(("credentialed_anew_after_revocation", renewed.expect("GO", &[])));
    let mut second = about("The inspector is of a second authority that this device trusts.", &{
        sign_seal(&seal(), &herald(), HERALD)
    });
    second.authority.push(alder());
    all.push(("second_authority", second.expect("GO", &[])));

    // The tag.
    let unsigned = tag_of("", "", None);
    let mut bare = about("Nobody who plans has signed the tag.", &{
        let mut seal = seal_on(&unsigned);
        seal.tag_signed = false;
        sign_seal(&seal, &anvil(), ANVIL)
    });
    bare.tag = Some(wrap(Kind::Tag, &unsigned));
    all.push(("tag_unsigned", bare.expect("HOLD", &["tag_unsigned"])));
    let by = |what: &str, bytes: Vec<u8>| {
        let mut vector = about(what, &sign_seal(&seal_on(&bytes), &anvil(), ANVIL));
        vector.tag = Some(wrap(Kind::Tag, &bytes));
        vector
    };
    let no_planner = credential(SELA, "Thistle 7", &[Role::Hookup], THISTLE);
    all.extend([
        (
            "tag_signed_by_no_planner",
            by("The tag is signed by a hookup.", tag_of("", "", Some((&no_planner, THISTLE))))
                .expect("HOLD", &["tag_planner_unknown"]),
        ),
        (
            "tag_planner_of_unknown_authority",
            by("The tag's planner is of an authority that is not trusted here.", {
                let credential = credential(ALDER, "Lantern 1", &[Role::Planner], LANTERN);
                tag_of("", "", Some((&credential, LANTERN)))
            })
            .expect("HOLD", &["tag_planner_unknown"]),
        ),
        (
            "tag_forged",
            by(
                "The tag's signature is of another key than its credential's.",
                tag_of("", "", Some((&planner(), STRANGER))),
            )
            .expect("NO-GO", &["tag_forged"]),
        ),
        (
            "mass_over_allowable",
            by(
                "The tag's own mass is over what its aircraft is allowed.",
                tag_of("allowable = \"7000 lb\"", "allowable = \"1700 lb\"", signer),
            )
            .expect("NO-GO", &["mass_over_allowable"]),
        ),
    ]);
    let mut planner_revoked = about("The tag's planner is revoked.", &good());
    planner_revoked.authority[0].rosters.push(roster(SELA, 2, 60, 7 * 86_400, &[&planner()]));
    all.push(("tag_planner_revoked", planner_revoked.expect("HOLD", &["tag_planner_unknown"])));
    all.extend([
        (
            "swapped_to_another_load",
            on_tag("The seal of load KM-014 on the tag of KM-015.", &tag_of("KM-014", "KM-015", signer))
                .expect("NO-GO", &["other_load"]),
        ),
        (
            "tag_mass_altered_after_sealing",
            on_tag(
                "The same load number; the gross mass was raised after the inspection.",
                &tag_of("1800 lb", "6800 lb", signer),
            )
            .expect("NO-GO", &["tag_changed"]),
        ),
        (
            "tag_destination_altered_after_sealing",
            on_tag(
                "The same load number and mass; another destination.",
                &tag_of("Alder Bridge", "Sela Ford", signer),
            )
            .expect("NO-GO", &["tag_changed"]),
        ),
        (
            "tag_signature_taken_off_after_sealing",
            on_tag("The sealed tag's words without the planner's signature.", &tag_of("", "", None))
                .expect("NO-GO", &["tag_changed", "tag_unsigned"]),
        ),
    ]);
    for (name, rigger) in [("own_work", "Anvil 3"), ("own_work_spelt_otherwise", "ANVIL-3")] {
        let bytes = tag_of("Mason 5", rigger, signer);
        let vector = by("The rigger on the tag seals the load.", bytes);
        all.push((name, vector.expect("NO-GO", &["own_work"])));
    }
    let mut none_known = about("A tag alone, and no inspection known.", &good());
    none_known.seal = None;
    all.push(("no_inspection_known", none_known.clone().expect("NO-GO", &["no_inspection_known"])));
    none_known.holds = vec![wrap(Kind::Seal, &good())];
    none_known.about = "A tag alone, and the seal was scanned before.".into();
    all.push(("known_from_before", none_known.expect("GO", &[])));

    // Who may sign.
    let by_role = |what: &str, roles: &[Role]| {
        about(what, &sign_seal(&seal(), &credential(SELA, "Anvil 3", roles, ANVIL), ANVIL))
    };
    all.extend([
        (
            "signer_is_a_hookup",
            by_role("A hookup seals.", &[Role::Hookup]).expect("NO-GO", &["not_an_inspector"]),
        ),
        (
            "signer_is_an_instructor",
            by_role("An instructor seals.", &[Role::Instructor]).expect("NO-GO", &["not_an_inspector"]),
        ),
        (
            "signer_has_no_role",
            by_role("A credential without any role.", &[]).expect("NO-GO", &["not_an_inspector"]),
        ),
        (
            "signer_has_two_roles",
            by_role("An inspector who is a leader too.", &[Role::Leader, Role::Inspector]).expect("GO", &[]),
        ),
    ]);
    let mut short = credential_of(SELA, "Anvil 3", &[Role::Inspector], ANVIL);
    short.expires = after(-1);
    all.push((
        "credential_expired_at_signing",
        about(
            "The credential ran out a second before the seal was signed.",
            &sign_seal(&seal(), &short.issue(&key(SELA)), ANVIL),
        )
        .expect("NO-GO", &["credential_expired"]),
    ));
    short.expires = after(0);
    all.push((
        "credential_expires_at_signing",
        about(
            "The credential runs out in the second of signing, and has run out when it is seen.",
            &sign_seal(&seal(), &short.issue(&key(SELA)), ANVIL),
        )
        .expect("GO", &[]),
    ));

    // Later words.
    let later = |issued: i64, outcome: Outcome, credential: &[u8], seed: u8| {
        let said = Seal {
            issued: after(issued),
            valid_until: after(issued + 86_400),
            record: Digest::of(b"the later record"),
            outcome,
            ..seal()
        };
        wrap(Kind::Seal, &sign_seal(&said, credential, seed))
    };
    let holding = |what: &str, holds: Vec<String>| {
        let mut vector = about(what, &good());
        vector.authority.push(alder());
        vector.holds = holds;
        vector
    };
    let record = seal().record;
    let void =
        |issued, credential: &[u8], seed| wrap(Kind::Void, &sign_void(record, issued, credential, seed));
    let mut voider_revoked = holding("The voider is revoked since.", vec![void(60, &hookup(), THISTLE)]);
    voider_revoked.authority[0].rosters.push(roster(SELA, 2, 120, 7 * 86_400, &[&hookup()]));
    all.extend([
        (
            "superseded_by_a_fit_one",
            holding(
                "A later inspection of the load is known.",
                vec![later(300, Outcome::Fit, &anvil(), ANVIL)],
            )
            .expect("NO-GO", &["superseded"]),
        ),
        (
            "superseded_by_a_refusal",
            holding(
                "A later inspection refused the load.",
                vec![later(300, Outcome::NotFit, &herald(), HERALD)],
            )
            .expect("NO-GO", &["superseded"]),
        ),
        (
            "refused_within_the_slack",
            holding(
                "Another inspector refused the load a minute before, by a clock that may be slow.",
                vec![later(-60, Outcome::NotFit, &herald(), HERALD)],
            )
            .expect("NO-GO", &["superseded"]),
        ),
        (
            "refused_before_and_walked_again",
            holding(
                "The same inspector refused it a minute before.",
                vec![later(-60, Outcome::NotFit, &anvil(), ANVIL)],
            )
            .expect("GO", &[]),
        ),
        (
            "voided",
            holding("A hookup took the seal back.", vec![void(60, &hookup(), THISTLE)])
                .expect("NO-GO", &["voided"]),
        ),
        (
            "voided_by_the_other_authority",
            holding(
                "An inspector of the other authority took the seal back.",
                vec![void(60, &herald(), HERALD)],
            )
            .expect("NO-GO", &["voided"]),
        ),
        ("voided_by_one_revoked_since", voider_revoked.expect("NO-GO", &["voided"])),
        (
            "void_of_another_record",
            holding(
                "A void of another inspection of the load.",
                vec![wrap(Kind::Void, &sign_void(Digest::of(b"another"), 60, &hookup(), THISTLE))],
            )
            .expect("GO", &[]),
        ),
    ]);
    let mut refusing = holding(
        "Voids that nobody trusted signed: by another key, by a stranger, altered, dated past the credential.",
        vec![],
    );
    let stranger = credential(STRANGER, "Thistle 7", &[Role::Hookup], THISTLE);
    let mut altered = sign_void(record, 60, &hookup(), THISTLE);
    *altered.last_mut().expect("a void has bytes") ^= 1;
    refusing.refuses = vec![
        void(60, &hookup(), STRANGER),
        void(60, &stranger, THISTLE),
        wrap(Kind::Void, &altered),
        void(366 * 86_400, &hookup(), THISTLE),
    ];
    all.push(("forged_voids", refusing.expect("GO", &[])));
    all.into_iter().map(|(name, vector)| (format!("valid/{name}"), vector)).collect()
}
