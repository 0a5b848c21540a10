//! Which lists count, and how they get there.

use super::*;

/// A unit's own list of one card, under whatever name.
fn one_card(id: &str, version: u32) -> String {
    format!(
        r#"id = "{id}"
version = {version}
title = "Bag, at a glance"
source = "user's own"
[[station]]
id = "all"
title = "All of it"
[[station.card]]
id = "look"
title = "Look"
motion = "Look at the bag."
[[station.card.point]]
id = "good"
prompt = "Looks good"
rerig = ["looks bad"]
"#
    )
}

struct Unit {
    zone: Zone,
    authority: App,
    inspector: App,
    hookup: App,
    tag: String,
}

/// A unit whose authority approves these of the program's lists.
fn unit(approve: &[String]) -> Unit {
    let zone = Zone::new();
    let authority = zone.home("authority");
    authority.authority_init("Sela Relief", WORDS, approve).unwrap();
    let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
    let hookup = zone.home("hookup");
    meet(&hookup, &authority);
    let tag = inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    Unit { zone, authority, inspector, hookup, tag }
}

impl Unit {
    /// A new tag, which orders the edition that is in use at the planner's.
    fn plan(&mut self) {
        self.tag = self.inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap().code.text;
    }

    fn sealed(&self) -> SealView {
        let view = walk_all(&self.inspector, self.inspector.begin_walk(&self.tag).unwrap());
        let view =
            self.inspector.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None }).unwrap();
        assert_eq!(view.refused, None);
        self.inspector.seal(&view.walk, PIN, None).unwrap()
    }

    fn hook(&self, seal: &SealView) -> (String, Vec<String>) {
        let view = self.hookup.check(Some(&seal.code.text), Some(&self.tag)).unwrap();
        (view.word, view.reasons.into_iter().map(|reason| reason.code).collect())
    }

    fn bring_roster(&self, roster: &AuthorityView) {
        for app in [&self.inspector, &self.hookup] {
            app.receive(&roster.roster.text).unwrap();
        }
    }
}

fn state_of(app: &App, id: &str, version: u32) -> Vec<(EditionState, bool)> {
    let all = app.procedure_editions().unwrap();
    all.iter()
        .filter(|one| (one.id.as_str(), one.version) == (id, version))
        .map(|one| (one.state, one.in_use))
        .collect()
}

/// The accident: an inspector whose home holds a one-card list called `bag` seals by it, and every stranger is told GO.
#[test]
fn a_list_of_one_card_takes_no_approved_list_s_place() {
    let unit = unit(&built_in_procedures());
    unit.inspector.add_procedure(&one_card("bag", 3)).unwrap();
    assert_eq!(state_of(&unit.inspector, "bag", 3), [(EditionState::NotApproved, false)]);
    assert_eq!(state_of(&unit.inspector, "bag", 2), [(EditionState::Approved, true)]);
    let view = unit.inspector.begin_walk(&unit.tag).unwrap();
    assert!(view.progress.cards > 30, "the approved list is walked");
    // Where nothing is approved, the unit's own is walked, and says WAIT everywhere.
    let mut none = self::unit(&[]);
    none.inspector.add_procedure(&one_card("bag", 3)).unwrap();
    none.plan();
    let seal = none.sealed();
    assert_eq!(none.hook(&seal), ("WAIT".into(), vec!["procedure_not_approved".into()]));
    // The roster that approves makes of it what it was sealed as, at the hook and on the board, whenever it comes.
    none.zone.pass(60);
    let roster = none.authority.approve(&[Approve::Text(one_card("bag", 3))], None, WORDS).unwrap();
    none.bring_roster(&roster);
    assert_eq!(none.hook(&seal).0, "WAIT", "approved only after the inspection");
    none.zone.pass(60);
    let seal = none.sealed();
    assert_eq!(none.hook(&seal), ("GO".into(), vec![]));
    assert_eq!(none.inspector.load("KM-014").unwrap().state.word(), "fit");
}

#[test]
fn what_is_withdrawn_waits_from_then_on() {
    let unit = unit(&["bag".into()]);
    let before = unit.sealed();
    assert_eq!(unit.hook(&before), ("GO".into(), vec![]));
    unit.zone.pass(600);
    let roster = unit.authority.withdraw(&["bag".into()], None, WORDS).unwrap();
    assert!(roster.changed.iter().all(|one| one.withdrawn.is_some()) && roster.changed.len() == 1);
    let after = unit.sealed();
    assert_eq!(unit.hook(&after).0, "GO", "before the roster is there");
    unit.bring_roster(&roster);
    assert_eq!(unit.hook(&after), ("WAIT".into(), vec!["procedure_withdrawn".into()]));
    assert_eq!(state_of(&unit.inspector, "bag", 2), [(EditionState::Withdrawn, true)]);
    assert!(unit.inspector.audit().unwrap().faults.is_empty());
    // Approved anew, from then on.
    unit.zone.pass(600);
    let roster = unit.authority.approve(&[Approve::Id("bag".into())], None, WORDS).unwrap();
    unit.bring_roster(&roster);
    assert_eq!(unit.hook(&unit.sealed()), ("GO".into(), vec![]));
    assert_eq!(roster.sequence, 3);
    assert!(unit.authority.issued().unwrap().approved.iter().all(|one| one.built_in));
}

#[test]
fn approving_what_cannot_be_is_one_line() {
    let unit = unit(&["bag".into()]);
    let refused = |which: Approve| {
        let message = unit.authority.approve(&[which], None, WORDS).unwrap_err().to_string();
        assert_eq!(message.lines().count(), 1, "{message}");
        message
    };
    assert!(refused(Approve::Id("nowhere".into())).contains("no procedure \"nowhere\" here"));
    assert!(refused(Approve::Text(one_card("bag", 2))).contains("give this one a higher version"));
    assert!(refused(Approve::Text(one_card("crate", 0))).contains("version"));
    let withdrawn = unit.authority.withdraw(&["net".into()], None, WORDS).unwrap_err().to_string();
    assert!(withdrawn.contains("no procedure \"net\" is approved here"), "{withdrawn}");
    let wrong = unit.authority.approve(&[Approve::Id("net".into())], None, "a wrong passphrase").unwrap_err();
    assert!(wrong.to_string().contains("wrong"), "{wrong}");
    assert_eq!(unit.authority.authority().unwrap().sequence, 1, "nothing was signed");
    let other = unit.zone.home("other");
    let unknown = other.authority_init("Alder Aid", WORDS, &["nowhere".into()]).unwrap_err().to_string();
    assert!(unknown.contains("no procedure \"nowhere\""), "{unknown}");
    assert!(other.authority().is_err(), "nothing was begun");
}

/// A unit's set crosses in one moving code, with the roster that approves it.
#[test]
fn procedures_cross_in_one_moving_code() {
    let unit = unit(&["bag".into(), "net".into()]);
    let own = one_card("crate", 1);
    let roster = unit.authority.approve(&[Approve::Text(own.clone())], None, WORDS).unwrap();
    assert_eq!(roster.changed.len(), 1);
    let other = unit.zone.home("other");
    let first = unit.authority.authority().unwrap();
    other.trust(&first.card.text, &first.fingerprint).unwrap();
    let code = unit.authority.procedures_code(&[]).unwrap();
    assert_eq!((code.made().procedures, code.made().papers), (3, 1));
    let mut reader = MovingReader::new();
    let bundle = (0..)
        .find_map(|number| match reader.take(&code.frame(number).unwrap().text).unwrap() {
            FrameTaken::Whole(bundle) => Some(bundle),
            FrameTaken::More { .. } => None,
        })
        .unwrap();
    let report = other.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
    assert_eq!(report.set_aside, []);
    let came: Vec<(&str, EditionState, bool)> =
        report.procedures.iter().map(|one| (one.id.as_str(), one.state, one.in_use)).collect();
    assert_eq!(came, [("crate", EditionState::Approved, true)], "those of the program were here");
    assert_eq!(state_of(&other, "bag", 2), [(EditionState::Approved, true)]);
    // Twice is once.
    let again = other.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
    assert_eq!(again.procedures, []);
}

/// Kept apart until an approval comes; the approval alone asks for the text.
#[test]
fn text_and_approval_come_in_either_order() {
    let mut unit = unit(&["bag".into()]);
    let own = one_card("bag", 5);
    let without = unit.zone.home("without");
    meet(&without, &unit.authority);
    without.add_procedure(&own).unwrap();
    let mut pack = Vec::new();
    without.pack_write(&[], &mut pack).unwrap();
    let report = unit.inspector.bundle_read(&mut pack.as_slice(), &mut |_| {}).unwrap();
    assert_eq!(report.procedures.len(), 1);
    assert_eq!(state_of(&unit.inspector, "bag", 5), [(EditionState::NotApproved, false)]);
    let roster = unit.authority.approve(&[Approve::Text(own.clone())], None, WORDS).unwrap();
    unit.bring_roster(&roster);
    assert_eq!(state_of(&unit.inspector, "bag", 5), [(EditionState::Approved, true)]);
    // The older one is approved still, and the higher version is walked.
    assert_eq!(state_of(&unit.inspector, "bag", 2), [(EditionState::Approved, false)]);
    assert_eq!(unit.inspector.begin_walk(&unit.tag).unwrap().progress.cards, 38, "what its tag orders");
    unit.plan();
    assert_eq!(unit.inspector.begin_walk(&unit.tag).unwrap().progress.cards, 1);
    // The hookup has the roster and no text: it is told, and the seal is judged all the same.
    assert_eq!(state_of(&unit.hookup, "bag", 5), [(EditionState::Missing, false)]);
    let seal = unit.sealed();
    assert_eq!(unit.hook(&seal), ("GO".into(), vec![]));
    let seal_of_missing =
        |ids: Vec<String>| unit.hookup.procedures_code(&ids).map(|_| ()).unwrap_err().to_string();
    assert!(seal_of_missing(vec!["nowhere".into()]).contains("no procedure"));
    // An older roster that comes late changes nothing.
    unit.authority.withdraw(&["bag@5".into()], None, WORDS).unwrap();
    let newest = unit.authority.authority().unwrap();
    unit.bring_roster(&newest);
    let Received::Roster { new: false, .. } = unit.inspector.receive(&roster.roster.text).unwrap() else {
        panic!()
    };
    assert_eq!(state_of(&unit.inspector, "bag", 5), [(EditionState::Withdrawn, false)]);
    assert_eq!(state_of(&unit.inspector, "bag", 2), [(EditionState::Approved, true)]);
}

#[test]
fn a_missing_text_is_asked_for_and_no_other_is_walked() {
    let unit = unit(&[]);
    let roster = unit.authority.approve(&[Approve::Text(one_card("bag", 9))], None, WORDS).unwrap();
    unit.bring_roster(&roster);
    let message = unit.inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap_err().to_string();
    assert_eq!(
        message,
        "Sela Relief approves procedure bag version 9, and its text is not here; receive it from a device that has it"
    );
    // A tag made where the text is: nobody walks anything else by it.
    let tag = unit.authority.write_tag(PLAN, &no_file, None).unwrap().code.text;
    let message = unit.inspector.begin_walk(&tag).unwrap_err().to_string();
    assert!(
        message.starts_with("the tag orders procedure bag version 9 (")
            && message.ends_with("and its text is not here; receive it from the planner's desk"),
        "{message}"
    );
    // What nobody approves is told where it is planned.
    let plain = self::unit(&[]);
    let made = plain.inspector.write_tag(PLAN, &no_file, Some(PIN)).unwrap();
    assert_eq!(
        made.tag.warnings,
        ["No authority trusted here approves procedure bag version 2: the hook will say WAIT."]
    );
}

/// One broken procedure among ten costs one; two texts of one version are told.
#[test]
fn a_pack_with_a_broken_one_is_taken_but_for_that() {
    use slingseal_account::sync::{BundleWriter, ItemKind, Pack};
    let unit = unit(&[]);
    let mut texts: Vec<String> = (1..10).map(|number| one_card(&format!("crate-{number}"), 1)).collect();
    texts.insert(4, one_card("broken", 1).replace("rerig", "rerigg"));
    texts.push(one_card("crate-1", 1).replace("at a glance", "at two glances"));
    let pack = Pack { texts }.to_bytes().unwrap();
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    writer.add(ItemKind::Pack, &pack).unwrap().unwrap();
    writer.add(ItemKind::Pack, &pack[..pack.len() / 2]).unwrap().unwrap();
    let bundle = writer.finish().unwrap();
    let report = unit.hookup.bundle_read(&mut bundle.as_slice(), &mut |_| {}).unwrap();
    assert_eq!(report.procedures.len(), 10);
    let aside: Vec<(&str, bool)> = report
        .set_aside
        .iter()
        .map(|one| (one.place.as_str(), one.reason.starts_with("procedure \"broken\": ")))
        .collect();
    assert_eq!(aside, [("item 1, procedure 5 of 11", true), ("item 2", false)]);
    assert!(report.set_aside.iter().all(|one| one.reason.lines().count() == 1), "{:?}", report.set_aside);
    assert!(
        report
            .warnings
            .iter()
            .any(|line| line.starts_with("two texts call themselves procedure crate-1 version 1"))
    );
}

#[test]
fn a_procedure_of_too_many_cards_is_one_line() {
    let card = |number: u32| {
        format!(
            "[[station.card]]\nid = \"c-{number}\"\ntitle = \"Look\"\nmotion = \"Look.\"\n[[station.card.point]]\nid = \"good\"\nprompt = \"Looks good\"\nrerig = [\"looks bad\"]\n"
        )
    };
    let many = |cards: u32| one_card("many", 1) + &(1..cards).map(card).collect::<String>();
    let app = Zone::new().home("device");
    assert_eq!(app.add_procedure(&many(300)).unwrap().cards, 300);
    let message = app.add_procedure(&many(301)).unwrap_err().to_string();
    assert!(message.lines().count() == 1 && message.contains("300"), "{message}");
}

/// Frames that are shown until the reader has it, where every third is lost.
fn frames_with_a_third_lost(code: &MovingCode) -> u32 {
    let mut reader = MovingReader::new();
    for number in 0.. {
        if number % 3 == 1 {
            continue;
        }
        if let FrameTaken::Whole(_) = reader.take(&code.frame(number).unwrap().text).unwrap() {
            return number + 1;
        }
    }
    unreachable!("it is shown without end")
}

/// Forty seconds at ten frames a second, counted in frames: nobody holds two phones still for longer.
#[test]
fn thirty_kilobytes_cross_in_forty_seconds_with_a_third_lost() {
    let app = Zone::new().home("device");
    let longest = slingseal_walk::procedure::BUILT_IN.iter().max_by_key(|plain| plain.text.len()).unwrap();
    // A unit's own: the longest here, with remarks that no compressor shortens to nothing.
    let mut text = longest.text.to_owned();
    while text.len() < 30_000 {
        text.push_str(&format!("# {}\n", Digest::of(text.as_bytes())));
    }
    let text = text.replacen(&format!("id = \"{}\"", longest.id), "id = \"long\"", 1);
    app.add_procedure(&text).unwrap();
    let code = app.procedures_code(&["long".into()]).unwrap();
    let frames = frames_with_a_third_lost(&code);
    // Every list of the program at once.
    let all = app.procedures_code(&built_in_procedures()).unwrap();
    let (set, bytes) = (frames_with_a_third_lost(&all), all.made().procedures);
    println!(
        "{} bytes: {frames} frames of {}; {bytes} lists of the program: {set} frames",
        text.len(),
        code.enough()
    );
    assert!(text.len() >= 30_000 && frames < 400, "{frames} frames for {} bytes", text.len());
    assert!(set < 400, "{set} frames for a whole set");
}
