//! One judgement, whoever asks: what one device was shown in any way, the hook, the board, the story, the lists, the export and the
//! audit say of it alike; and nothing that anyone adds turns a refusal into GO.

use super::audit::{Forger, seal_one};
use super::*;
use slingseal_account::sync::{BundleWriter, ItemKind, RecordItem};
use slingseal_message::envelope::{unwrap, wrap};
use slingseal_message::seal::{Outcome, ReceivedSeal, Seal};
use slingseal_message::trust::{KeyRequest, SecretKey};
use slingseal_words::{CallSign, Seconds};

/// Somebody with a key of their own, who signs what they like.
struct Person {
    key: SecretKey,
    credential: Vec<u8>,
}

fn person(zone: &Zone, authority: &App, number: u8, holder: &str, roles: &str, expires: &str) -> Person {
    let key = SecretKey::from_seed(&[number; 32]);
    let request = KeyRequest::sign(&CallSign::new(holder).unwrap(), zone.clock.now(), &key);
    let issue = Issue {
        request: wrap(slingseal_message::envelope::Kind::KeyRequest, &request),
        roles: crate::roles_of(roles).unwrap(),
        expires: expires.into(),
        holder: None,
        validity_hours: None,
    };
    let credential = unwrap(&authority.issue(&issue, WORDS).unwrap().text).unwrap().1;
    Person { key, credential }
}

impl Person {
    /// A seal like another one, changed and signed by this person.
    fn seal(&self, like: &str, change: impl FnOnce(&mut Seal)) -> String {
        let (kind, bytes) = unwrap(like).unwrap();
        let mut seal = ReceivedSeal::open(&bytes).unwrap().seal;
        change(&mut seal);
        let unsigned = seal.prepare(&self.credential);
        wrap(kind, &unsigned.finish(&self.key.sign(&unsigned.to_be_signed())))
    }
}

fn bundle_of(seals: &[&str]) -> Vec<u8> {
    let mut writer = BundleWriter::begin(Vec::new()).unwrap();
    for seal in seals {
        let item = RecordItem { seal: unwrap(seal).unwrap().1, record: None };
        writer.add(ItemKind::Record, &item.to_bytes()).unwrap().unwrap();
    }
    writer.finish().unwrap()
}

fn take(app: &App, bytes: &[u8]) -> BundleReport {
    app.bundle_read(&mut &bytes[..], &mut |_| {}).unwrap()
}

struct Scene {
    zone: Zone,
    authority: App,
    inspector: App,
    /// A FIT seal of an honest inspector, and its tag.
    fit: String,
    tag: String,
}

impl Scene {
    fn new() -> Self {
        let zone = Zone::new();
        let authority = zone.home("authority");
        authority.authority_init("Sela Relief", WORDS, &built_in_procedures()).unwrap();
        let inspector = zone.device(&authority, "inspector", "Anvil 3", "inspector,planner");
        let view = seal_one(&zone, &inspector, "KM-014", true);
        let tag = inspector.record(&view.record).unwrap().tag.unwrap().text;
        Self { zone, authority, inspector, fit: view.code.text, tag }
    }

    fn hook(&self, name: &'static str) -> App {
        let hook = self.zone.home(name);
        meet(&hook, &self.authority);
        hook
    }

    /// A refusal five minutes after the FIT, by another inspector.
    fn refusal(&self, by: &Person) -> String {
        by.seal(&self.fit, |seal| {
            seal.outcome = Outcome::NotFit;
            seal.issued = seal.issued.plus(Seconds(300));
            seal.valid_until = seal.valid_until.plus(Seconds(300));
            seal.record = Digest::of(b"the record of the refusal");
        })
    }
}

/// What every reader of the account says of load KM-014, in the words of the board.
fn said(app: &App, tag: &str) -> String {
    let hook = app.check(None, Some(tag)).unwrap();
    let story = app.load("KM-014").unwrap();
    let board = app.board(3_650, 50).unwrap();
    let on_board: Vec<&str> = board
        .columns
        .iter()
        .filter(|column| column.loads.iter().any(|load| load.load == "KM-014"))
        .map(|column| column.state.word())
        .collect();
    assert_eq!(on_board, [story.state.word()], "board and story");
    let want = match story.state.word() {
        "fit" => "GO",
        "wait" => "WAIT",
        _ => "NO-GO",
    };
    assert_eq!(hook.word, want, "hook and story: {:?}", hook.reasons);
    let lines = app.records(None, 50).unwrap();
    for (line, record) in lines.iter().zip(lines.iter().map(|line| app.record(&line.seal).unwrap())) {
        assert_eq!(line.state, record.line.state, "list and page");
        assert_eq!(record.banner, line.state.banner().to_string());
    }
    let fit = lines.iter().filter(|line| line.state == RecordState::Fit).count();
    assert_eq!(fit, usize::from(want == "GO"), "{lines:#?}");
    let mut csv = Vec::new();
    app.export_csv(ExportTable::Records, &mut csv).unwrap();
    let csv = String::from_utf8(csv).unwrap();
    assert_eq!(csv.lines().count(), lines.len() + 1, "export and list");
    assert_eq!(app.audit().unwrap().faults, [""; 0]);
    story.state.word().to_owned()
}

#[test]
fn a_refusal_is_not_kept_out_by_a_claim() {
    let scene = Scene::new();
    let refuser = person(&scene.zone, &scene.authority, 2, "Anvil 4", "inspector", "2027-06-01");
    let hookup = person(&scene.zone, &scene.authority, 3, "Thistle 7", "hookup", "2027-06-01");
    let refusal = scene.refusal(&refuser);
    scene.zone.pass(600);
    // The same record as the refusal's, by somebody who may not inspect.
    let claim = hookup.seal(&refusal, |seal| seal.outcome = Outcome::Fit);
    type Way<'w> = &'w dyn Fn(&App);
    let ways: [(&str, Way<'_>); 4] = [
        ("scan", &|hook| {
            hook.check(Some(&claim), None).unwrap();
            hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
            hook.check(Some(&refusal), None).unwrap();
        }),
        ("bundle", &|hook| {
            assert_eq!(take(hook, &bundle_of(&[&claim, &scene.fit, &refusal])).set_aside, []);
            hook.receive(&scene.tag).unwrap();
        }),
        ("receive", &|hook| {
            for text in [&claim, &refusal, &scene.fit, &scene.tag] {
                hook.receive(text).unwrap();
            }
        }),
        ("at once", &|hook| {
            let all = [&claim, &scene.fit, &refusal, &scene.tag].map(Clone::clone);
            let view = hook.check_all(&all).unwrap();
            assert_eq!((view.word.as_str(), view.shown.len()), ("NO-GO", 3));
        }),
    ];
    for (name, way) in ways {
        let hook = scene.hook(match name {
            "scan" => "h0",
            "bundle" => "h1",
            "receive" => "h2",
            _ => "h3",
        });
        way(&hook);
        let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
        assert_eq!(
            (verdict.word.as_str(), verdict.reasons[0].code.as_str()),
            ("NO-GO", "superseded"),
            "{name}"
        );
        assert_eq!(said(&hook, &scene.tag), "not_fit", "{name}");
        // The evidence is kept, and it is no inspection.
        assert_eq!(hook.records(None, 9).unwrap().len(), 2, "{name}");
        let own = Digest::of(&unwrap(&claim).unwrap().1).to_string();
        assert_eq!(hook.record(&own).unwrap().banner, "NO INSPECTION", "{name}");
    }
}

#[test]
fn a_refusal_outlives_its_inspector() {
    let scene = Scene::new();
    let refuser = person(&scene.zone, &scene.authority, 2, "Anvil 4", "inspector", "2027-06-01");
    let refusal = scene.refusal(&refuser);
    scene.zone.pass(600);
    let hook = scene.hook("hook");
    for text in [&scene.tag, &scene.fit, &refusal] {
        hook.receive(text).unwrap();
    }
    assert_eq!(said(&hook, &scene.tag), "not_fit");
    let roster = scene.authority.revoke(&["Anvil 4".into()], None, WORDS).unwrap();
    hook.receive(&roster.roster.text).unwrap();
    assert_eq!(said(&hook, &scene.tag), "not_fit");
    // A FIT does not: and whoever is revoked is judged anew everywhere at once.
    let other = scene.hook("other");
    for text in [&scene.tag, &scene.fit] {
        other.receive(text).unwrap();
    }
    assert_eq!(said(&other, &scene.tag), "fit");
    let roster = scene.authority.revoke(&["Anvil 3".into()], None, WORDS).unwrap();
    other.receive(&roster.roster.text).unwrap();
    assert_eq!(said(&other, &scene.tag), "refused");
}

#[test]
fn nobody_else_makes_a_load_fit() {
    let scene = Scene::new();
    let people = [
        ("hookup", person(&scene.zone, &scene.authority, 3, "Thistle 7", "hookup", "2027-06-01")),
        ("ran out", person(&scene.zone, &scene.authority, 4, "Anvil 8", "inspector", "2026-11-25T10:00:00Z")),
        ("good", person(&scene.zone, &scene.authority, 5, "Anvil 9", "inspector", "2027-06-01")),
    ];
    scene.zone.pass(7_200);
    type Change = fn(&mut Seal);
    let later = |seal: &mut Seal, seconds: i64| {
        seal.issued = seal.issued.plus(Seconds(seconds));
        seal.valid_until = seal.issued.plus(Seconds::hours(6));
        seal.record = Digest::of(&seconds.to_be_bytes());
    };
    let cases: [(&str, usize, Change, &str); 5] = [
        ("hookup", 0, |_| {}, "not_fit"),
        ("ran out", 1, |_| {}, "not_fit"),
        ("valid too long", 2, |seal| seal.valid_until = seal.issued.plus(Seconds::days(30)), "refused"),
        ("open deficiency", 2, |seal| (seal.found, seal.corrected) = (2, 1), "refused"),
        ("from months ahead", 2, |seal| seal.issued = seal.valid_until, "wait"),
    ];
    for (number, (name, who, change, want)) in cases.into_iter().enumerate() {
        let hook = scene.hook(["a", "b", "c", "d", "e"][number]);
        let refusal = people[2].1.seal(&scene.fit, |seal| {
            later(seal, 300);
            seal.outcome = Outcome::NotFit;
        });
        let word = people[who].1.seal(&scene.fit, |seal| {
            later(seal, 4_000);
            change(seal);
        });
        for text in [&scene.tag, &scene.fit, &refusal, &word] {
            hook.receive(text).unwrap();
        }
        assert_eq!(said(&hook, &scene.tag), want, "{name}");
    }
}

/// A minute after another device's refusal nobody knows which came first: the refusal holds, on the board as at the hook.
#[test]
fn two_clocks_within_their_slack() {
    let scene = Scene::new();
    let refuser = person(&scene.zone, &scene.authority, 2, "Anvil 4", "inspector", "2027-06-01");
    let refusal = refuser.seal(&scene.fit, |seal| {
        seal.outcome = Outcome::NotFit;
        seal.issued = seal.issued.plus(Seconds(-60));
        seal.record = Digest::of(b"before");
    });
    let hook = scene.hook("hook");
    for text in [&scene.tag, &refusal, &scene.fit] {
        hook.receive(text).unwrap();
    }
    assert_eq!(said(&hook, &scene.tag), "not_fit");
}

#[test]
fn a_clock_set_back_is_told_across_a_restart() {
    let scene = Scene::new();
    let hook = scene.hook("hook");
    hook.receive(&scene.tag).unwrap();
    assert_eq!(hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap().word, "GO");
    scene.zone.pass(30 * 3_600);
    // Nothing is kept by it but its time.
    assert_eq!(hook.check(None, Some(&scene.tag)).unwrap().reasons[0].code, "expired");
    drop(hook);
    scene.zone.pass(-29 * 3_600);
    let hook = scene.zone.open(&scene.zone.folder.path().join("hook"), "hook").unwrap();
    let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
    assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("WAIT", "clock_behind"));
    assert_eq!(said(&hook, &scene.tag), "wait");
}

/// Another load's word proves the time as well, on a device that has done nothing yet.
#[test]
fn any_word_of_anyone_trusted_proves_the_time() {
    let scene = Scene::new();
    scene.zone.pass(30 * 3_600);
    let later = seal_one(&scene.zone, &scene.inspector, "KM-099", true);
    scene.zone.pass(-29 * 3_600);
    let hook = scene.hook("hook");
    hook.receive(&scene.tag).unwrap();
    assert_eq!(hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap().word, "GO");
    take(&hook, &bundle_of(&[&later.code.text]));
    let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
    assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("WAIT", "clock_behind"));
    assert!(verdict.reasons[0].text.contains("Anvil 3"), "{:?}", verdict.reasons[0]);
}

#[test]
fn an_older_home_put_back_waits_for_everyone_trusted() {
    let scene = Scene::new();
    let home = scene.zone.folder.path().join("hook");
    let hook = scene.hook("hook");
    hook.receive(&scene.tag).unwrap();
    assert_eq!(hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap().word, "GO");
    drop(hook);
    let file = home.join("slingseal.db");
    let older = std::fs::read(&file).unwrap();
    let open = || scene.zone.open(&home, "hook").unwrap();
    let hook = open();
    let roster = scene.authority.revoke(&["Anvil 3".into()], None, WORDS).unwrap();
    hook.receive(&roster.roster.text).unwrap();
    assert_eq!(said(&hook, &scene.tag), "refused");
    drop(hook);
    std::fs::write(&file, &older).unwrap();
    for _ in 0..2 {
        let hook = open();
        let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
        assert_eq!((verdict.word.as_str(), verdict.reasons[0].code.as_str()), ("WAIT", "memory_put_back"));
        assert!(!hook.start().unwrap().notices.is_empty());
        assert_eq!(said(&hook, &scene.tag), "wait");
    }
    // A roster from before is not enough: who was revoked since may be missing from it.
    let hook = open();
    hook.receive(&roster.roster.text).unwrap();
    assert_eq!(said(&hook, &scene.tag), "refused");
    scene.zone.pass(60);
    let newer = scene.authority.revoke(&[], None, WORDS).unwrap();
    hook.receive(&newer.roster.text).unwrap();
    let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
    assert!(verdict.reasons.iter().all(|reason| reason.code != "memory_put_back"), "{:?}", verdict.reasons);
}

#[test]
fn drawing_again_keeps_and_judges_nothing() {
    let scene = Scene::new();
    let hook = scene.hook("hook");
    assert_eq!(hook.last_verdict().unwrap(), None);
    let verdict = hook.check(Some(&scene.fit), Some(&scene.tag)).unwrap();
    let before = hook.lock().store.read().memory().unwrap();
    scene.zone.pass(30 * 3_600);
    assert_eq!(hook.last_verdict().unwrap(), Some(verdict.clone()));
    hook.speak(Language::Spanish);
    let again = hook.last_verdict().unwrap().unwrap();
    assert_eq!(again.verdict, verdict.verdict);
    assert_ne!(again.spoken, verdict.spoken);
    assert_eq!(hook.lock().store.read().memory().unwrap(), before);
}

#[test]
fn a_damaged_code_is_no_go() {
    let scene = Scene::new();
    let hook = scene.hook("hook");
    let mut torn = scene.fit.clone();
    torn.pop();
    let mut flipped: Vec<char> = scene.fit.chars().collect();
    flipped[200] = if flipped[200] == 'A' { 'B' } else { 'A' };
    let flipped: String = flipped.into_iter().collect();
    for text in [torn.as_str(), &flipped, "SL1:", "LT1:QQ"] {
        let verdict = hook.check_all(&[text.to_owned()]).unwrap();
        assert_eq!(verdict.word, "NO-GO", "{text}");
        let Received::Seal(verdict) = hook.receive(text).unwrap() else { panic!("{text}") };
        assert_eq!(verdict.word, "NO-GO", "{text}");
    }
    assert!(hook.check_all(&["https://example.invalid".into()]).is_err());
    assert!(hook.check_all(&["SL9:0123".into()]).is_err(), "a later form wants a newer program");
    assert!(hook.check_all(&[]).is_err());
}

#[test]
fn equipment_is_asked_about_at_planning_and_at_the_hook() {
    let scene = Scene::new();
    let piece = |rating: &str, due: &str| {
        format!(
            "{PLAN}[[equipment]]\nkind = \"sling set\"\nserial = \"SS-0417\"\nrating = \"{rating}\"\nsource = \"data plate\"\nnext_inspection = \"{due}\"\n"
        )
    };
    let error = scene.inspector.write_tag(&piece("100 lb", "2027-03-31"), &no_file, Some(PIN)).unwrap_err();
    assert!(error.to_string().contains("sling set SS-0417 is rated 100 lb"), "{error}");
    let made = scene.inspector.write_tag(&piece("9000 lb", "2026-11-24"), &no_file, Some(PIN)).unwrap();
    assert!(made.tag.warnings.iter().any(|warning| warning.contains("SS-0417")), "{:?}", made.tag.warnings);
    // The day on which it is due is still good, everywhere.
    let today = scene.inspector.write_tag(&piece("9000 lb", "2026-11-25"), &no_file, Some(PIN)).unwrap();
    assert_eq!(today.tag.warnings, [""; 0]);
}

/// A home that came up the steps of the schema knows no author and no standing: both are made at the opening.
#[test]
fn what_older_rules_judged_is_judged_anew() {
    let scene = Scene::new();
    let refuser = person(&scene.zone, &scene.authority, 2, "Anvil 4", "inspector", "2027-06-01");
    let refusal = scene.refusal(&refuser);
    scene.zone.pass(600);
    let hook = scene.hook("hook");
    for text in [&scene.tag, &scene.fit, &refusal] {
        hook.receive(text).unwrap();
    }
    drop(hook);
    let home = scene.zone.folder.path().join("hook");
    let forger = Forger::open(&home.join("slingseal.db"));
    forger.run(
        "UPDATE records SET standing = outcome, reason = '', successor = NULL, judged = 0, authority = NULL, signer = NULL,
         credential = NULL, in_time = 0",
        [],
    );
    forger.run(
        "UPDATE tags SET said = NULL, authority = NULL, signer = NULL, credential = NULL, in_time = 0",
        [],
    );
    forger.run("DELETE FROM loads", []);
    forger.reseal("records");
    forger.reseal("tags");
    drop(forger);
    let hook = scene.zone.open(&home, "hook").unwrap();
    assert_eq!(said(&hook, &scene.tag), "not_fit");
    assert_eq!(hook.lock().store.read().loads_not_judged_by(slingseal_judgement::RULES).unwrap(), [""; 0]);
}
