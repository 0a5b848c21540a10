//! Keys, PINs, rosters and what a device may believe, through the facade alone.

use super::*;

/// Walks a load to its end and seals it.
fn sealed(app: &App, tag: &str, fit: bool) -> SealView {
    let view = walk_all(app, app.begin_walk(tag).unwrap());
    let reason = (!fit).then(|| "a look of the leader's is wanted".to_owned());
    let view = app.do_walk(&view.walk, &WalkRequest::Decide { fit, reason }).unwrap();
    assert_eq!(view.refused, None);
    app.seal(&view.walk, PIN, None).unwrap()
}

fn issue(authority: &App, request: &str, roles: &str, expires: &str) -> String {
    let issue = Issue {
        request: request.into(),
        roles: crate::roles_of(roles).unwrap(),
        expires: expires.into(),
        holder: None,
        validity_hours: None,
    };
    authority.issue(&issue, WORDS).unwrap().text
}

fn roster_of(app: &App) -> (Option<u32>, u32) {
    let set_up = app.set_up().unwrap();
    (set_up.authorities[0].roster, set_up.authorities[0].revoked)
}

#[test]
fn an_older_roster_never_replaces_a_newer_one() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    let first = authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap().roster.text;
    let device = zone.device(&authority, "device", "Anvil 3", "inspector");
    let second = authority.revoke(&["Anvil 3".into()], None, WORDS).unwrap().roster.text;
    device.receive(&second).unwrap();
    assert_eq!(roster_of(&device), (Some(2), 1));
    let Received::Roster { new: false, .. } = device.receive(&first).unwrap() else { panic!() };
    // Nor by way of trusting the authority again, nor after a restart.
    meet(&device, &authority);
    device.receive(&first).unwrap();
    drop(device);
    let device = zone.home("device");
    assert_eq!(roster_of(&device), (Some(2), 1));
    assert!(device.set_up().unwrap().credential.is_none(), "its credential is revoked");
}

#[test]
fn two_rosters_of_one_number_are_told() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let device = zone.device(&authority, "device", "Anvil 3", "inspector");
    drop(authority);
    // The authority's home is copied, and both sign a roster number 2.
    let (home, copy) = (zone.folder.path().join("authority"), zone.folder.path().join("copy"));
    std::fs::create_dir_all(&copy).unwrap();
    std::fs::copy(home.join("slingseal.db"), copy.join("slingseal.db")).unwrap();
    let authority = zone.home("authority");
    device.receive(&authority.revoke(&["Anvil 3".into()], None, WORDS).unwrap().roster.text).unwrap();
    zone.pass(60);
    let copied = zone.open(&copy, "authority").unwrap();
    let other = copied.revoke(&[], None, WORDS).unwrap().roster.text;
    let error = device.receive(&other).unwrap_err();
    assert!(error.code() == "refused" && error.to_string().contains("another roster number 2"), "{error}");
    assert_eq!(roster_of(&device), (Some(2), 1));
}

#[test]
fn an_authority_revokes_its_own_alone() {
    let zone = Zone::new();
    let (first, second) = (zone.home("first"), zone.home("second"));
    first.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    second.authority_init("Alder Aid", WORDS, &built_in_procedures()).unwrap();
    meet(&second, &first);
    let device = zone.device(&first, "device", "Anvil 3", "inspector");
    let request = device.set_up().unwrap().request.unwrap();
    let foreign = issue(&first, &request, "inspector,leader", "2027-06-01");
    second.receive(&foreign).unwrap();
    let error = second.revoke(&["Anvil 3".into()], None, WORDS).unwrap_err();
    assert_eq!(error.code(), "not_found", "{error}");
    // Both credentials of the name, the one that was received and the one that was not: one key.
    let revoked = first.revoke(&["ANVIL 3".into()], None, WORDS).unwrap();
    assert_eq!(revoked.taken.len(), 2);
    device.receive(&revoked.roster.text).unwrap();
    assert_eq!(roster_of(&device).1, 1);
}

fn issue_as(authority: &App, request: &str, holder: &str, roles: &str) -> Result<String, AppError> {
    let issue = Issue {
        request: request.into(),
        roles: crate::roles_of(roles).unwrap(),
        expires: "2027-06-01".into(),
        holder: Some(holder.into()),
        validity_hours: None,
    };
    authority.issue(&issue, WORDS).map(|code| code.text)
}

#[test]
fn a_revoked_key_takes_every_credential_of_it_and_gets_none_again() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let device = zone.device(&authority, "device", "Anvil 3", "inspector,planner");
    let request = device.set_up().unwrap().request.unwrap();
    let renamed = issue_as(&authority, &request, "Hammer 9", "leader").unwrap();
    device.receive(&renamed).unwrap();
    let tag = device.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let seal = sealed(&device, &tag, true).code.text;
    let hookup = zone.home("hookup");
    meet(&hookup, &authority);
    assert_eq!(hookup.check(Some(&seal), Some(&tag)).unwrap().word, "GO");

    // By a name spelled otherwise; what was taken is named, another name of the same key with it.
    let revoked = authority.revoke(&["ANVIL-З".into()], None, WORDS).unwrap();
    let taken: Vec<(&str, &[Role])> =
        revoked.taken.iter().map(|one| (one.holder.as_str(), one.roles.as_slice())).collect();
    assert_eq!(
        taken,
        [("Anvil 3", [Role::Inspector, Role::Planner].as_slice()), ("Hammer 9", &[Role::Leader])]
    );
    assert!(revoked.roster.text.starts_with("RO2:"));
    assert!(authority.issued().unwrap().issued.iter().all(|one| one.state == CredentialState::Revoked));

    hookup.receive(&revoked.roster.text).unwrap();
    assert_eq!(hookup.check(Some(&seal), Some(&tag)).unwrap().reasons[0].code, "revoked");
    device.receive(&revoked.roster.text).unwrap();
    // The device is told before it walks anything.
    let set_up = device.set_up().unwrap();
    assert!(set_up.credential.is_none() && set_up.next.contains("revoked"), "{}", set_up.next);
    let error = device.begin_walk(&tag).unwrap_err();
    assert!(error.code() == "refused" && error.to_string().contains("revoked"), "{error}");

    // Neither the same terms nor others make the key good again.
    for (holder, roles) in [("Anvil 3", "inspector,planner"), ("Somebody", "hookup")] {
        let error = issue_as(&authority, &request, holder, roles).unwrap_err();
        assert!(error.code() == "refused" && error.to_string().contains("new key"), "{error}");
    }
    // Whoever receives one says that it is revoked.
    let Received::Credential { credential, .. } = device.receive(&renamed).unwrap() else { panic!() };
    assert!(credential.revoked);
    // A new key is the way.
    let request = device.make_key("Anvil 3", PIN).unwrap().text;
    let again = issue_as(&authority, &request, "Anvil 3", "inspector,planner").unwrap();
    let Received::Credential { own: true, credential, .. } = device.receive(&again).unwrap() else {
        panic!()
    };
    assert!(!credential.revoked);
    device.begin_walk(&tag).unwrap();
}

#[test]
fn a_name_that_several_may_have_is_asked_for() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let one = zone.device(&authority, "one", "Anvil 3", "inspector");
    zone.device(&authority, "two", "\u{410}nvil-3", "inspector");
    let error = authority.revoke(&["anvil 3".into()], None, WORDS).unwrap_err();
    assert!(error.code() == "refused" && error.to_string().contains("several people"), "{error}");
    let ids: Vec<String> = authority.issued().unwrap().issued.iter().map(|one| one.id.clone()).collect();
    assert!(ids.iter().all(|id| error.to_string().contains(id)), "{error}");
    let key = one.set_up().unwrap().fingerprint.unwrap();
    let by_key = authority.revoke(&[key.to_lowercase().replace(' ', "-")], None, WORDS).unwrap();
    assert_eq!(by_key.taken.len(), 1);
    let by_id = authority.revoke(&ids, None, WORDS).unwrap();
    assert_eq!((by_id.taken.len(), by_id.sequence), (2, 3));
}

#[test]
fn trust_is_taken_away_and_two_of_one_name_are_told_apart() {
    let zone = Zone::new();
    let (real, false_one) = (zone.home("real"), zone.home("false"));
    real.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    false_one.authority_init("SELA-RELIEF", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&real, "inspector", "Anvil 3", "inspector,planner");
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let seal = sealed(&inspector, &tag, true).code.text;
    let hookup = zone.home("hookup");
    meet(&hookup, &real);
    assert_eq!(hookup.check(Some(&seal), Some(&tag)).unwrap().word, "GO");

    // Another of the name is said, and taken only where somebody insists.
    let card = false_one.authority().unwrap();
    let like = hookup.like_named(&card.card.text).unwrap();
    assert_eq!(like[0].fingerprint, real.authority().unwrap().fingerprint);
    let error = hookup.trust(&card.card.text, &card.fingerprint).unwrap_err();
    assert!(error.code() == "refused" && error.to_string().contains("another authority"), "{error}");
    let set_up = hookup.trust_beside(&card.card.text, &card.fingerprint).unwrap();
    let names: Vec<&str> = set_up.authorities.iter().map(|authority| authority.name.as_str()).collect();
    assert_ne!(names[0], names[1]);
    assert!(
        set_up.authorities.iter().all(|one| one.name.ends_with(one.fingerprint.split(" ").next().unwrap())),
        "{names:?}"
    );
    // A wrong fingerprint is refused without telling the right one.
    let error = hookup.trust(&card.card.text, "K000 K000 K000 K000 K000").unwrap_err().to_string();
    assert!(!error.contains(card.fingerprint.split(" ").next().unwrap()), "{error}");

    // The name alone means both; the fingerprint means one.
    assert!(hookup.distrust("sela relief").unwrap_err().to_string().contains("several"));
    let set_up = hookup.distrust(&real.authority().unwrap().fingerprint).unwrap();
    assert_eq!(set_up.authorities.len(), 1);
    let verdict = hookup.check(Some(&seal), Some(&tag)).unwrap();
    assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("NO-GO", "unknown_authority"));
    assert_eq!(hookup.records(None, 10).unwrap().len(), 0, "a stranger's seal is no inspection");
    drop(hookup);
    let hookup = zone.home("hookup");
    assert_eq!(hookup.check(Some(&seal), Some(&tag)).unwrap().word, "NO-GO", "after a restart as well");
    assert!(hookup.distrust("Sela Relief").is_ok() && hookup.distrust("Sela Relief").is_err());
    // Trusted again, its word counts again, with the newest roster that was ever seen.
    meet(&hookup, &real);
    assert_eq!(hookup.records(None, 10).unwrap().len(), 1, "what was received stayed");
    assert_eq!(hookup.check(Some(&seal), Some(&tag)).unwrap().word, "GO");
    assert!(real.distrust("Sela Relief").unwrap_err().to_string().contains("itself"));
}

/// Rosters of both kinds count in one series.
#[test]
fn a_roster_of_the_first_kind_is_still_read() {
    let zone = Zone::new();
    let key = slingseal_message::trust::SecretKey::from_seed(&[7; 32]);
    let now = zone.clock.now();
    let card = slingseal_message::trust::Authority::sign(
        &slingseal_words::Name::new("Sela Relief").unwrap(),
        now,
        &key,
    );
    let device = zone.home("device");
    let card = slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::Authority, &card);
    device.trust(&card, &key.public().fingerprint()).unwrap();
    let roster = |sequence| slingseal_message::trust::Roster {
        revoked: [slingseal_message::trust::CredentialId([1; 8])].into(),
        ..slingseal_message::trust::Roster::new(sequence, now, now.plus(Seconds::days(7)))
    };
    let first = |sequence| {
        let bytes = roster(sequence).sign_first_kind(&key).unwrap();
        slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::Roster, &bytes)
    };
    let second = |sequence| {
        slingseal_message::envelope::wrap(
            slingseal_message::envelope::Kind::RosterOfKeys,
            &roster(sequence).sign(&key),
        )
    };
    for (text, newest) in [(first(4), 4), (second(3), 4), (second(5), 5), (first(5), 5), (first(6), 6)] {
        let taken = device.receive(&text);
        assert_eq!(taken.is_err(), text == first(5), "one number, two texts");
        assert_eq!(roster_of(&device), (Some(newest), 1));
    }
    // The front says one kind and the bytes another.
    let crossed = second(9).replace("RO2:", "RO1:");
    assert!(device.receive(&crossed).unwrap_err().to_string().contains("damaged"));
}

#[test]
fn a_roster_drops_what_says_nothing_any_more() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    for (name, holder, roles) in [("one", "Anvil 3", "inspector"), ("two", "Lantern 1", "planner")] {
        let device = zone.home(name);
        meet(&device, &authority);
        let request = device.make_key(holder, PIN).unwrap().text;
        issue(&authority, &request, roles, "2026-11-26");
    }
    authority.revoke(&["Anvil 3".into(), "Lantern 1".into()], None, WORDS).unwrap();
    assert_eq!(roster_of(&authority), (Some(2), 2));
    // Expired at 26 November 0000Z: a seal under it could be dated to that second and hold for a day.
    zone.pass(Time::parse("2026-11-27T00:02:00Z").unwrap().since(Time::parse(START).unwrap()).0);
    authority.revoke(&[], None, WORDS).unwrap();
    assert_eq!(roster_of(&authority), (Some(3), 2));
    zone.pass(1);
    authority.revoke(&[], None, WORDS).unwrap();
    assert_eq!(roster_of(&authority), (Some(4), 1), "the planner's stays: a tag has no end");
}

#[test]
fn a_seal_scanned_before_its_tag_is_found_by_the_tag() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let seal = sealed(&inspector, &tag, true).code.text;
    for (name, receive) in [("scanned", false), ("received", true)] {
        let hookup = zone.home(name);
        meet(&hookup, &authority);
        let alone = if receive {
            let Received::Seal(verdict) = hookup.receive(&seal).unwrap() else { panic!() };
            *verdict
        } else {
            hookup.check(Some(&seal), None).unwrap()
        };
        assert_eq!((alone.word.as_str(), alone.reasons[0].code.as_str()), ("GO", "tag_not_seen"));
        assert_eq!(hookup.check(None, Some(&tag)).unwrap().word, "GO", "{name}");
        let other = inspector.write_tag(&PLAN.replace("1800 lb", "1900 lb"), &no_file, Some(PIN)).unwrap();
        let verdict = hookup.check(None, Some(&other.code.text)).unwrap();
        assert_eq!(
            verdict.reasons[0].code, "tag_changed",
            "the load's latest inspection is of the other tag"
        );
        let verdict = hookup.check(Some(&seal), Some(&other.code.text)).unwrap();
        assert_eq!(verdict.reasons[0].code, "tag_changed");
    }
}

#[test]
fn what_a_hookup_seals_is_no_inspection() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let seal = sealed(&inspector, &tag, true);
    // A program that does not mind the roles, with a hookup's key: made here from the parts.
    let hookup = slingseal_message::trust::SecretKey::from_seed(&[7; 32]);
    let request = slingseal_message::trust::KeyRequest::sign(
        &slingseal_words::CallSign::new("Thistle 7").unwrap(),
        zone.clock.now(),
        &hookup,
    );
    let request = slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::KeyRequest, &request);
    let credential = issue(&authority, &request, "hookup", "2027-06-01");
    let (_, credential) = slingseal_message::envelope::unwrap(&credential).unwrap();
    let (_, bytes) = slingseal_message::envelope::unwrap(&seal.code.text).unwrap();
    let mut said = slingseal_message::seal::ReceivedSeal::open(&bytes).unwrap().seal;
    (said.issued, said.record) = (said.issued.plus(Seconds(1)), Digest::of(b"no record"));
    let unsigned = said.prepare(&credential);
    let own = unsigned.finish(&hookup.sign(&unsigned.to_be_signed()));
    let own = slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::Seal, &own);
    let device = zone.home("device");
    meet(&device, &authority);
    assert_eq!(device.check(Some(&seal.code.text), Some(&tag)).unwrap().word, "GO");
    assert_eq!(device.check(Some(&own), Some(&tag)).unwrap().reasons[0].code, "not_an_inspector");
    assert_eq!(device.check(None, Some(&tag)).unwrap().word, "GO", "the inspector's seal still counts");
    assert_eq!(device.records(None, 10).unwrap().len(), 1);
}

#[test]
fn a_copied_home_opens_nothing_without_the_device() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(&inspector, inspector.begin_walk(&tag).unwrap());
    inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    drop((inspector, authority));
    // Whoever copied the file knows the PIN and has everything but what the platform's keystore holds.
    for home in ["inspector", "authority"] {
        let copy = zone.folder.path().join(format!("copied {home}"));
        std::fs::create_dir_all(&copy).unwrap();
        std::fs::copy(zone.folder.path().join(home).join("slingseal.db"), copy.join("slingseal.db")).unwrap();
        let thief = zone.open(&copy, "another device").unwrap();
        let error = match home {
            "inspector" => thief.seal(&view.walk, PIN, None).unwrap_err(),
            _ => thief.revoke(&[], None, WORDS).unwrap_err(),
        };
        assert!(error.code() == "refused" && error.to_string().contains("PIN is wrong"), "{home}: {error}");
    }
    // The same copy with the device secret opens: what refused was the secret's absence, and nothing else.
    zone.pass(3_600);
    let copy = zone.folder.path().join("copied inspector");
    zone.open(&copy, "inspector").unwrap().seal(&view.walk, PIN, None).unwrap();
}

#[test]
fn the_wait_after_wrong_pins_grows_and_survives_restarts_and_a_set_clock() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let mut device = zone.device(&authority, "device", "Lantern 1", "planner");
    let sign = |app: &App, pin: &str| app.write_tag(PLAN, &no_file, Some(pin)).map(|_| ());
    let mut waits = Vec::new();
    for _ in 0..9 {
        assert!(sign(&device, "111222").unwrap_err().to_string().contains("wrong"));
        let mut waited = 0;
        // The right PIN is refused for as long, and being refused costs no try; each time after a restart.
        loop {
            drop(device);
            device = zone.home("device");
            let until = device.set_up().unwrap().pin_locked_until;
            let Some(until) = until else { break };
            let error = sign(&device, PIN).unwrap_err().to_string();
            assert!(error.contains("wait"), "{error}");
            let step = until.unix - zone.clock.now().unix();
            waited += step;
            zone.pass(step);
        }
        waits.push(waited);
    }
    assert_eq!(waits, [0, 0, 30, 60, 300, 900, 3_600, 3_600, 3_600]);
    // A wrong PIN while the clock is 100 days ahead: once it is set right, the wait is an hour and not 100 days.
    zone.pass(100 * 86_400);
    sign(&device, "111222").unwrap_err();
    zone.pass(-100 * 86_400);
    assert!(sign(&device, PIN).unwrap_err().to_string().contains("wait 1 h"));
    zone.pass(3_599);
    assert!(sign(&device, PIN).unwrap_err().to_string().contains("wait 1 s"));
    zone.pass(1);
    sign(&device, PIN).unwrap();
    // Right once, and the count begins anew.
    sign(&device, "111222").unwrap_err();
    sign(&device, PIN).unwrap();
}

#[test]
fn a_key_that_was_opened_is_not_open_for_the_next_call() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let device = zone.device(&authority, "device", "Anvil 3", "inspector,planner,hookup");
    let tag = device.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let seal = sealed(&device, &tag, true);
    let view = walk_all(&device, device.begin_walk(&tag).unwrap());
    device.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    let request = device.set_up().unwrap().request.unwrap();
    let issued = Issue {
        request,
        roles: vec![crate::Role::Inspector],
        expires: "2027-06-01".into(),
        holder: None,
        validity_hours: None,
    };
    // Each call that signs, a wrong word straight after a right one.
    type Act<'a> = Box<dyn Fn(&str) -> Result<(), AppError> + 'a>;
    let acts: [(&str, &str, Act<'_>); 5] = [
        ("write_tag", PIN, Box::new(|pin| device.write_tag(PLAN, &no_file, Some(pin)).map(drop))),
        (
            "void",
            PIN,
            Box::new(|pin| device.void(&seal.record, crate::VoidCause::LoadMoved, None, pin).map(drop)),
        ),
        ("issue", WORDS, Box::new(|words| authority.issue(&issued, words).map(drop))),
        ("revoke", WORDS, Box::new(|words| authority.revoke(&[], None, words).map(drop))),
        ("seal", PIN, Box::new(|pin| device.seal(&view.walk, pin, None).map(drop))),
    ];
    for (name, right, act) in &acts {
        let again = format!("{right}0");
        // Sealing can be done once: its wrong try comes after the others' right ones.
        if *name != "seal" {
            act(right).unwrap();
        }
        let error = act(&again).unwrap_err();
        assert!(error.to_string().contains("PIN is wrong"), "{name}: {error}");
    }
    acts[4].2(PIN).unwrap();
}

/// Long is not hard: what is tried first is refused with a hint, whatever its length.
#[test]
fn a_passphrase_that_is_soon_guessed_is_refused() {
    let home = Zone::new().home("authority");
    for easy in ["123456789012", "passwordpassword", "qwertyuiop12", "Sela Relief 2026", "aaaaaaaaaaaaaaaa"] {
        let error = home.authority_init("Sela Relief", easy, &built_in_procedures()).unwrap_err();
        assert!(error.to_string().contains("passphrase"), "{easy}: {error}");
    }
    home.authority_init("Sela Relief", "a meadow by the river", &built_in_procedures()).unwrap();
}

/// The phone of the authority is lost: two parts and the passphrase make another phone the authority, under the same card.
#[test]
fn an_authority_goes_on_from_its_copy_in_two_parts() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let device = zone.device(&authority, "device", "Anvil 3", "inspector");
    authority.revoke(&[], None, WORDS).unwrap();
    assert!(authority.copy_authority("a hill by the river").is_err());
    let copy = authority.copy_authority(WORDS).unwrap();
    let again = authority.copy_authority(WORDS).unwrap();
    let roster = authority.authority().unwrap().roster.text;
    let card = authority.authority().unwrap();
    drop(authority);
    let (first, second) = (&copy.first.code.text, &copy.second.code.text);

    let heir = zone.home("heir");
    let refused = |one: &str, other: &str, words: &str| {
        heir.restore_authority(one, other, words).unwrap_err().to_string()
    };
    assert!(refused(first, second, WORDS).contains("not trusted here"));
    heir.trust(&card.card.text, &card.fingerprint).unwrap();
    assert!(refused(first, second, WORDS).contains("gather from every phone"));
    heir.receive(&roster).unwrap();
    assert!(refused(first, first, WORDS).contains("the same part twice"));
    assert!(refused(first, &again.second.code.text, WORDS).contains("two copies"));
    assert!(refused(first, &roster, WORDS).contains("no part"));
    assert!(refused(first, second, "a meadow by the rivet").contains("passphrase is wrong"));
    assert!(heir.authority().is_err(), "nothing was taken over");

    // One part was written down, and its rows are typed.
    let rows = copy.second.rows.join("\n");
    let typed = heir.authority_part(&rows).unwrap();
    assert_eq!((typed.number, &typed.code.text), (2, second));
    let slip = heir.authority_part(&rows.replacen(&copy.second.rows[2], "AAAA", 1)).unwrap_err();
    assert!(slip.to_string().contains("row 3"), "{slip}");
    assert!(heir.authority_part("KM-071").unwrap_err().to_string().contains("no part"));
    let restored = heir.restore_authority(&typed.code.text, first, WORDS).unwrap();
    assert_eq!((restored.fingerprint, restored.sequence), (card.fingerprint, 2));
    // The team goes on: a new roster, a new credential, and the devices know the difference in nothing.
    let next = heir.revoke(&[], None, WORDS).unwrap();
    assert_eq!(next.sequence, 3);
    device.receive(&next.roster.text).unwrap();
    assert_eq!(roster_of(&device), (Some(3), 0));
    let hook = zone.device(&heir, "hook", "Thistle 7", "hookup");
    assert!(hook.set_up().unwrap().ready);
    assert!(heir.restore_authority(first, second, WORDS).is_err(), "it is one already");
}

/// A seal puts down by itself that the PIN was right; what is refused behind the PIN does so too.
#[test]
fn a_seal_takes_back_the_try_that_it_cost() {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
    let app = zone.device(&authority, "one", "Anvil 3", "inspector,planner");
    let tag = app.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    let view = walk_all(&app, app.begin_walk(&tag).unwrap());
    app.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
    let wrong = |app: &App| app.lock().store.read().vault("device").unwrap().unwrap().wrong;
    for tries in 1..=2 {
        app.seal(&view.walk, "000000", None).unwrap_err();
        assert_eq!(wrong(&app), tries);
    }
    app.seal(&view.walk, PIN, None).unwrap();
    assert_eq!(wrong(&app), 0);
    // Counted before it is tried, and until what is signed is kept.
    app.try_key("device", PIN).unwrap();
    assert_eq!(wrong(&app), 1);
    app.lock().pin_was_right("device").unwrap();
    assert_eq!(wrong(&app), 0);
}
