//! One day on Kestrel Meadow: two organisations, no network, and everything that can happen to trust in between.

use slingseal_app::{FrameTaken, MovingReader, Received, VoidCause};
use slingseal_tests::scripted::PIN;

use crate::zone::{Device, Ends, WORDS, Zone};

#[track_caller]
fn says(told: (String, Vec<String>), word: &str, reasons: &[&str]) {
    let (told_word, told_reasons) = told;
    assert_eq!((told_word.as_str(), told_reasons), (word, reasons.iter().map(ToString::to_string).collect()));
}

#[test]
fn two_authorities_a_void_a_supersession_and_a_revocation_offline() {
    let zone = Zone::new();

    // Before the day: cards, credentials and rosters go from hand to hand. The second organisation is not expected yet.
    let (relief, aid) = (zone.device("relief", 0), zone.device("aid", 0));
    let first_roster = relief
        .app
        .authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures())
        .unwrap()
        .roster
        .text;
    aid.app.authority_init("Alder Aid", WORDS, &slingseal_app::built_in_procedures()).unwrap();
    let planner = zone.device("planner", 20).credentialed(&relief, "Lantern 1", "planner");
    let anvil = zone.device("anvil", 0).credentialed(&relief, "Anvil 3", "inspector");
    let drover = zone.device("drover", 90).credentialed(&aid, "Drover 7", "inspector");
    let hookup = zone.device("hookup", 40).credentialed(&relief, "Thistle 7", "hookup");
    drover.meet(&relief);
    zone.pass(3_600);

    // 1. A load with a deficiency that was put right. The hook sees the tag, then the seal.
    let tag_14 = planner.plan("KM-014");
    says(hookup.told(None, Some(&tag_14)), "NO-GO", &["no_inspection_known"]);
    let seal_14 = zone.inspect(&anvil, &tag_14, Ends::FitOnceCorrected);
    assert_eq!((seal_14.facts.found, seal_14.facts.corrected), (1, 1));
    says(hookup.told(Some(&seal_14), Some(&tag_14)), "GO", &["corrected"]);

    // 2. A load that the other organisation's inspector sealed, by a clock that is 50 seconds ahead of the hook's.
    let tag_15 = planner.plan("KM-015");
    let seal_15 = zone.inspect(&drover, &tag_15, Ends::Fit);
    says(hookup.told(Some(&seal_15), Some(&tag_15)), "NO-GO", &["unknown_authority"]);
    let card = aid.app.authority().unwrap();
    let misheard = relief.app.authority().unwrap().fingerprint;
    assert_eq!(hookup.app.trust(&card.card.text, &misheard).unwrap_err().code(), "refused");
    says(hookup.told(Some(&seal_15), Some(&tag_15)), "NO-GO", &["unknown_authority"]);
    hookup.app.trust(&card.card.text, &card.fingerprint).unwrap();
    says(hookup.told(Some(&seal_15), Some(&tag_15)), "WAIT", &["no_roster"]);
    hookup.app.receive(&card.roster.text).unwrap();
    says(hookup.told(Some(&seal_15), Some(&tag_15)), "GO", &[]);
    says(hookup.told(Some(&seal_15), Some(&tag_14)), "NO-GO", &["other_load"]);

    // 3. The hookup of the first load is aborted and it is set down hard: its seal is taken back at the hook. The inspector,
    //    out of earshot, does not know it until the code is shown.
    zone.pass(600);
    let void = hookup.app.void(&seal_14.record, VoidCause::HookupAborted, None, PIN).unwrap().text;
    let hookup = zone.restart(hookup, "hookup again");
    says(hookup.told(Some(&seal_14), Some(&tag_14)), "NO-GO", &["voided", "corrected"]);
    assert_eq!(anvil.app.show_seal(&seal_14.record).unwrap().verdict.word, "GO");
    anvil.app.receive(&void).unwrap();
    assert_eq!(anvil.app.show_seal(&seal_14.record).unwrap().verdict.word, "NO-GO");

    // 4. Inspected again by the other inspector: the new seal takes over, and the old one is good for nothing.
    let again_14 = zone.inspect(&drover, &tag_14, Ends::Fit);
    says(hookup.told(Some(&again_14), Some(&tag_14)), "GO", &[]);
    says(hookup.told(Some(&seal_14), Some(&tag_14)), "NO-GO", &["voided", "superseded", "corrected"]);
    says(hookup.told(None, Some(&tag_14)), "GO", &[]);

    // 5. A fit load is found not fit later: the seal of this morning is still on somebody's screen.
    let tag_16 = planner.plan("KM-016");
    let seal_16 = zone.inspect(&anvil, &tag_16, Ends::Fit);
    says(hookup.told(Some(&seal_16), Some(&tag_16)), "GO", &[]);
    let refused_16 = zone.inspect(&drover, &tag_16, Ends::NotFit);
    says(hookup.told(Some(&seal_16), Some(&tag_16)), "GO", &[]);
    says(hookup.told(Some(&refused_16), Some(&tag_16)), "NO-GO", &["not_fit"]);
    says(hookup.told(Some(&seal_16), Some(&tag_16)), "NO-GO", &["superseded"]);

    // 6. Noon: the first authority takes Anvil 3's credential back. The hook has the new roster; Anvil 3 goes on working.
    let tag_17 = planner.plan("KM-017");
    let seal_17 = zone.inspect(&anvil, &tag_17, Ends::Fit);
    says(hookup.told(Some(&seal_17), Some(&tag_17)), "GO", &[]);
    let roster = relief.app.revoke(&["Anvil 3".into()], None, WORDS).unwrap().roster.text;
    let Received::Roster { new: true, sequence: 2, revoked: 1, .. } = hookup.app.receive(&roster).unwrap()
    else {
        panic!("the roster is newer");
    };
    says(hookup.told(Some(&seal_17), Some(&tag_17)), "NO-GO", &["revoked"]);
    says(hookup.told(Some(&seal_15), Some(&tag_15)), "GO", &[]);
    let Received::Roster { new: false, .. } = hookup.app.receive(&first_roster).unwrap() else {
        panic!("the morning's roster is older");
    };
    let hookup = zone.restart(hookup, "hookup at noon");
    says(hookup.told(Some(&seal_17), Some(&tag_17)), "NO-GO", &["revoked"]);
    let tag_18 = planner.plan("KM-018");
    let seal_18 = zone.inspect(&anvil, &tag_18, Ends::Fit);
    assert_eq!(seal_18.verdict.word, "GO", "Anvil 3's own device knows of nothing");
    says(hookup.told(Some(&seal_18), Some(&tag_18)), "NO-GO", &["revoked"]);
    // Taken in there, the roster ends it: nothing is sealed or taken back under the credential any more.
    anvil.app.receive(&roster).unwrap();
    assert_eq!(anvil.app.show_seal(&seal_18.record).unwrap().verdict.word, "NO-GO");
    let error = anvil.app.void(&seal_18.record, VoidCause::LoadMoved, None, PIN).unwrap_err();
    assert_eq!(error.code(), "refused", "{error}");
    // The other authority's inspector looks at the load again, and it flies.
    let again_17 = zone.inspect(&drover, &tag_17, Ends::Fit);
    says(hookup.told(Some(&again_17), Some(&tag_17)), "GO", &[]);

    // 7. Evening: everything comes to the desk, by file and by moving code, twice and in another order at a second desk.
    let (desk, second) = (zone.device("desk", 0), zone.device("second desk", 10));
    for device in [&desk, &second] {
        device.meet(&relief);
        device.meet(&aid);
    }
    for from in [&planner, &anvil, &drover, &hookup] {
        let report = desk.take(&from.bundle(Some(desk.app.have_code().unwrap().text)));
        assert_eq!((report.set_aside, report.warnings), (vec![], vec![]));
    }
    for from in [&hookup, &drover, &anvil, &hookup, &planner] {
        second.take(&by_moving_code(from));
    }
    let account = |desk: &Device| -> Vec<_> {
        desk.account()
            .into_iter()
            .map(|line| (line.load, line.inspector, line.standing.word().to_owned(), line.fit))
            .collect()
    };
    let want = [
        ("KM-014", "Anvil 3", "voided", true),
        ("KM-015", "Drover 7", "current", true),
        ("KM-014", "Drover 7", "current", true),
        ("KM-016", "Anvil 3", "superseded", true),
        ("KM-016", "Drover 7", "current", false),
        ("KM-017", "Anvil 3", "superseded", true),
        ("KM-018", "Anvil 3", "refused", true),
        ("KM-017", "Drover 7", "current", true),
    ];
    let want =
        want.map(|(load, who, standing, fit)| (load.to_owned(), who.to_owned(), standing.to_owned(), fit));
    assert_eq!(account(&desk), want);
    assert_eq!(account(&second), want);
    assert!(desk.account().iter().all(|line| line.whole));
    // The desk, which met nobody but through bundles, says what the hook says.
    for (seal, tag) in [
        (&seal_14, &tag_14),
        (&seal_15, &tag_15),
        (&again_14, &tag_14),
        (&seal_16, &tag_16),
        (&refused_16, &tag_16),
        (&seal_17, &tag_17),
        (&seal_18, &tag_18),
        (&again_17, &tag_17),
    ] {
        assert_eq!(
            desk.told(Some(seal), Some(tag)),
            hookup.told(Some(seal), Some(tag)),
            "{}",
            seal.facts.load
        );
    }
    for device in [&relief, &aid, &planner, &anvil, &drover, &hookup, &desk, &second] {
        device.sound();
    }

    // 8. A week without a network: what was GO has run out, and the hook knows that it no longer knows who was revoked.
    zone.pass(6 * 3_600);
    says(hookup.told(Some(&again_17), Some(&tag_17)), "GO", &["expires_soon"]);
    zone.pass(120);
    says(hookup.told(Some(&again_17), Some(&tag_17)), "NO-GO", &["expired"]);
    zone.pass(6 * 86_400);
    let tag_19 = planner.plan("KM-019");
    let seal_19 = zone.inspect(&drover, &tag_19, Ends::Fit);
    says(hookup.told(Some(&seal_19), Some(&tag_19)), "GO", &[]);
    zone.pass(86_400);
    let seal_19 = zone.inspect(&drover, &tag_19, Ends::Fit);
    // Of the planner's authority and of the inspector's: each has to be heard from.
    says(hookup.told(Some(&seal_19), Some(&tag_19)), "WAIT", &["roster_too_old", "roster_too_old"]);
    let renewed = |authority: &Device| authority.app.revoke(&[], None, WORDS).unwrap().roster.text;
    hookup.app.receive(&renewed(&aid)).unwrap();
    says(hookup.told(Some(&seal_19), Some(&tag_19)), "WAIT", &["roster_too_old"]);
    hookup.app.receive(&renewed(&relief)).unwrap();
    says(hookup.told(Some(&seal_19), Some(&tag_19)), "GO", &[]);
    says(hookup.told(Some(&seal_17), Some(&tag_17)), "NO-GO", &["revoked", "superseded", "expired"]);
}

/// A bundle shown as a moving code of which every third frame is missed.
pub(crate) fn by_moving_code(from: &Device) -> Vec<u8> {
    let moving = from.app.moving_code(None).unwrap();
    let mut reader = MovingReader::new();
    (0..4 * moving.enough() + 20)
        .filter(|number| !number.is_multiple_of(3))
        .find_map(|number| match reader.take(&moving.frame(number).unwrap().text).unwrap() {
            FrameTaken::Whole(bytes) => Some(bytes),
            FrameTaken::More { .. } => None,
        })
        .unwrap()
}
