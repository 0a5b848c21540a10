use super::cast::*;
use super::*;
use slingseal_message::envelope::Kind;
use slingseal_message::seal::{Outcome, Seal, VoidCause};
use slingseal_message::trust::{Approval, CredentialId, Edition, Role, Roster, Trusted};
use slingseal_words::{CallSign, Digest, LoadNumber, ProcedureId, Quantity, Seconds};

const GO: (Verdict, Vec<&'static str>) = (Verdict::Go, vec![]);

fn no_go(code: &'static str) -> (Verdict, Vec<&'static str>) {
    (Verdict::NoGo, vec![code])
}

#[test]
fn go_names_what_was_corrected() {
    assert_eq!(Scene::default().judge(&by_anvil(&seal())), GO);
    let mended = Seal { found: 1, corrected: 1, ..seal() };
    assert_eq!(Scene::default().judge(&by_anvil(&mended)), (Verdict::Go, vec!["corrected"]));
}

#[test]
fn no_flip_and_no_cut_passes() {
    let scene = Scene::default();
    let bytes = by_anvil(&seal());
    for bit in 0..bytes.len() * 8 {
        let mut other = bytes.clone();
        other[bit / 8] ^= 1 << (bit % 8);
        assert_eq!(scene.judge(&other).0, Verdict::NoGo, "bit {bit}");
    }
    for end in 0..bytes.len() {
        assert_eq!(scene.judge(&bytes[..end]).0, Verdict::NoGo, "cut at {end}");
    }
}

#[test]
fn each_reason_alone() {
    type Change = fn(&mut Scene, &mut Seal);
    let on = |scene: &mut Scene, seal: &mut Seal, bytes: Vec<u8>| {
        let of = seal_of(&bytes);
        (seal.tag, seal.mass, seal.tag_signed) = (of.tag, of.mass, of.tag_signed);
        scene.tag = Some(bytes);
    };
    let cases: [(&str, Verdict, Change); 12] = [
        ("expired", Verdict::NoGo, |scene, _| scene.now = at(86_401)),
        ("expires_soon", Verdict::Go, |scene, _| scene.now = at(86_400)),
        ("from_the_future", Verdict::Wait, |_, seal| {
            (seal.issued, seal.valid_until) = (at(181), at(300));
        }),
        ("clock_behind", Verdict::Wait, |scene, _| {
            scene.latest = Some(LatestTrusted { time: at(200), by: Speaker::ThisDevice });
        }),
        ("memory_put_back", Verdict::Wait, |scene, _| scene.memory = Memory::PutBack { since: at(-500) }),
        ("roster_too_old", Verdict::Wait, |scene, seal| {
            scene.now = at(500_001);
            (seal.issued, seal.valid_until) = (at(499_000), at(509_000));
        }),
        ("credential_expired", Verdict::NoGo, |_, seal| {
            (seal.issued, seal.valid_until) = (at(1_000_001), at(1_000_002));
        }),
        ("valid_too_long", Verdict::NoGo, |_, seal| seal.valid_until = at(86_401)),
        ("not_fit", Verdict::NoGo, |_, seal| seal.outcome = Outcome::NotFit),
        ("open_deficiency", Verdict::NoGo, |_, seal| (seal.found, seal.corrected) = (2, 1)),
        ("tag_changed", Verdict::NoGo, |_, seal| {
            seal.tag = slingseal_message::seal::TagPrint::of(&Digest::of(b"other"))
        }),
        ("tag_not_seen", Verdict::Go, |scene, _| scene.tag = None),
    ];
    for (code, verdict, change) in cases {
        let (mut scene, mut seal) = (Scene::default(), seal());
        change(&mut scene, &mut seal);
        let (found, reasons) = scene.judge(&by_anvil(&seal));
        assert_eq!(found, verdict, "{code}: {reasons:?}");
        assert!(reasons.contains(&code), "{code}: {reasons:?}");
    }
    let other = LoadNumber::new("KM-015").unwrap();
    let renamed =
        |rigger| slingseal_message::tag::Tag { rigger: Some(CallSign::new(rigger).unwrap()), ..tag() };
    let hookup = hookup();
    let tags: [(&str, Verdict, Vec<u8>); 6] = [
        ("tag_unsigned", Verdict::Wait, tag_bytes(&tag(), None)),
        ("tag_forged", Verdict::NoGo, tag_bytes(&tag(), Some((&planner(), STRANGER)))),
        ("tag_planner_unknown", Verdict::Wait, tag_bytes(&tag(), Some((&hookup, THISTLE)))),
        ("other_load", Verdict::NoGo, planned(&slingseal_message::tag::Tag { load: other, ..tag() })),
        ("own_work", Verdict::NoGo, planned(&renamed("ANVIL-3"))),
        (
            "mass_over_allowable",
            Verdict::NoGo,
            planned(&slingseal_message::tag::Tag { allowable: mass("4199 lb"), ..tag() }),
        ),
    ];
    for (code, verdict, bytes) in tags {
        let (mut scene, mut seal) = (Scene::default(), seal());
        on(&mut scene, &mut seal, bytes);
        assert_eq!(scene.judge(&by_anvil(&seal)), (verdict, vec![code]));
    }
    let even = slingseal_message::tag::Tag { allowable: tag().gross, ..tag() };
    let (mut scene, mut seal) = (Scene::default(), seal());
    on(&mut scene, &mut seal, planned(&even));
    assert_eq!(scene.judge(&by_anvil(&seal)), GO, "as heavy as the aircraft allows");
}

/// The accident: a sling rated 100 lb, due in 1970, under 4,200 lb, and GO without a word.
#[test]
fn equipment_that_cannot_carry_it() {
    let overdue = at(-86_400 * 2);
    let on = |pieces: Vec<slingseal_message::tag::Equipment>, scanned: bool| {
        let bytes = planned(&slingseal_message::tag::Tag { equipment: pieces, ..tag() });
        let seal = by_anvil(&seal_of(&bytes));
        let mut scene = Scene { tag: scanned.then_some(bytes.clone()), ..Scene::default() };
        scene.words.push((Kind::Tag, bytes));
        scene.judge(&seal)
    };
    assert_eq!(on(vec![sling(Some("100 lb"), None)], true), no_go("equipment_rated_below"));
    assert_eq!(
        on(vec![sling(Some("18 kN"), None)], true),
        no_go("equipment_rated_below"),
        "4200 lb weigh 18.7 kN"
    );
    assert_eq!(on(vec![sling(Some("4200 lb"), None), sling(None, None)], true), GO);
    assert_eq!(on(vec![sling(None, Some(overdue))], true), (Verdict::Wait, vec!["equipment_overdue"]));
    assert_eq!(
        on(vec![sling(Some("100 lb"), Some(overdue))], false),
        (Verdict::NoGo, vec!["equipment_rated_below", "equipment_overdue", "tag_not_seen"]),
        "the tag was not scanned, and is held"
    );
    // The day of the due date is good; it ends at midnight, UTC.
    let day = slingseal_words::Time::parse(&at(60).date()).unwrap();
    assert_eq!(on(vec![sling(None, Some(day))], true), GO);
    let yesterday = day.plus(Seconds::days(-1));
    assert_eq!(on(vec![sling(None, Some(yesterday))], true).0, Verdict::Wait);
}

/// The accident: no rigger on the tag, or no tag at all, and nobody hears that the own-work rule was not held.
#[test]
fn the_own_work_rule_is_never_silent() {
    let bare = planned(&slingseal_message::tag::Tag { rigger: None, ..tag() });
    let seal = by_anvil(&seal_of(&bare));
    let scene = Scene { tag: Some(bare.clone()), ..Scene::default() };
    assert_eq!(scene.judge(&seal), (Verdict::Go, vec!["rigger_not_known"]));
    let scene = Scene { tag: None, ..Scene::default() };
    assert_eq!(scene.judge(&seal), (Verdict::Go, vec!["tag_not_seen", "rigger_not_known"]));
    // Not scanned, and held: the rule holds.
    let own =
        planned(&slingseal_message::tag::Tag { rigger: Some(CallSign::new("anvil 3").unwrap()), ..tag() });
    let seal = by_anvil(&seal_of(&own));
    let mut scene = Scene { tag: None, ..Scene::default() };
    assert_eq!(scene.judge(&seal).0, Verdict::Go);
    scene.words.push((Kind::Tag, own));
    assert_eq!(scene.judge(&seal), (Verdict::NoGo, vec!["own_work", "tag_not_seen"]));
}

/// The accident: a planner who left signs tags that are dated back, for ever.
#[test]
fn a_planner_who_ran_out() {
    let short = credential("Lantern 1", &[Role::Planner], LANTERN, -3_600, SELA);
    let bytes = tag_bytes(&tag(), Some((&short, LANTERN)));
    let said = Seal { valid_until: at(82_900), ..seal_of(&bytes) };
    let mut scene = Scene { tag: Some(bytes.clone()), ..Scene::default() };
    scene.now = at(82_800);
    assert_eq!(scene.judge(&by_anvil(&said)).0, Verdict::Go, "a day after it ran out");
    scene.now = at(82_801);
    let (verdict, reasons) = scene.judge(&by_anvil(&said));
    assert_eq!((verdict, reasons[0]), (Verdict::Wait, "planner_credential_expired"));
    let late =
        tag_bytes(&slingseal_message::tag::Tag { planned: at(-3_599), ..tag() }, Some((&short, LANTERN)));
    let said = seal_of(&late);
    let scene = Scene { tag: Some(late), ..Scene::default() };
    assert_eq!(scene.judge(&by_anvil(&said)), (Verdict::Wait, vec!["tag_planner_unknown"]), "planned after");
}

/// The accident: two codes in one picture, the fit one read first.
#[test]
fn of_several_seals_the_gravest_is_shown() {
    let (fit, refused) = (by_anvil(&seal()), by_herald(&seal_at(30, Outcome::NotFit)));
    let scene = Scene::default();
    for seals in [vec![fit.clone(), refused.clone()], vec![refused.clone(), fit.clone()]] {
        assert_eq!(scene.judge_all(&seals), no_go("not_fit"));
    }
    // Each is judged beside the other: the refused one supersedes the fit one, which alone would be GO.
    assert_eq!(scene.judge(&fit), GO);
    let mut beside = Scene::default();
    beside.words.push((Kind::Seal, refused));
    assert_eq!(beside.judge(&fit), no_go("superseded"));
    let cut = fit[..fit.len() - 1].to_vec();
    assert_eq!(scene.judge_all(&[cut, fit]).1, ["unreadable"]);
}

#[test]
fn roles_and_revocation() {
    let hookup =
        finish(&seal().prepare(&credential("Anvil 3", &[Role::Hookup], ANVIL, 1_000_000, SELA)), ANVIL);
    assert_eq!(Scene::default().judge(&hookup), no_go("not_an_inspector"));
    let scene = Scene { trusted: trusting(&[&anvil()]), ..Scene::default() };
    assert_eq!(scene.judge(&by_anvil(&seal())), no_go("revoked"));
    let scene = Scene { trusted: Trusted::default(), ..Scene::default() };
    assert_eq!(scene.judge(&by_anvil(&seal())).1, ["unknown_authority", "tag_planner_unknown"]);
}

#[test]
fn a_void_and_a_later_inspection_take_a_seal_back() {
    let good = void(seal().record, 30, &hookup(), THISTLE);
    let forged = void(seal().record, 30, &hookup(), STRANGER);
    let mut scene = Scene::default();
    scene.words.push((Kind::Void, forged));
    assert_eq!(scene.judge(&by_anvil(&seal())), GO, "a forged void is no void");
    scene.words.push((Kind::Void, good));
    assert_eq!(scene.judge(&by_anvil(&seal())), no_go("voided"));
    for outcome in [Outcome::Fit, Outcome::NotFit] {
        let later = by_anvil(&seal_at(30, outcome));
        let scene = Scene::holding(vec![later.clone(), by_anvil(&seal())]);
        assert_eq!(scene.judge(&by_anvil(&seal())), no_go("superseded"));
        let (by, fit) = (Digest::of(&later), outcome == Outcome::Fit);
        let reason = Reason::Superseded { by, at: at(30), fit };
        assert_eq!(scene.judgement(&by_anvil(&seal())).reasons, [reason]);
        assert!(!scene.judge(&later).1.contains(&"superseded"), "an earlier seal takes no later one over");
    }
}

/// A voided inspection still takes earlier ones over: nothing comes back when something is taken back.
#[test]
fn a_void_brings_nothing_back() {
    let (first, second) = (by_anvil(&seal()), seal_at(300, Outcome::Fit));
    let mut scene = Scene::holding(vec![first.clone(), by_anvil(&second)]);
    scene.now = at(400);
    scene.words.push((Kind::Void, void(second.record, 310, &hookup(), THISTLE)));
    assert_eq!(scene.judge(&first), no_go("superseded"));
    assert_eq!(scene.judge_tag(), no_go("voided"));
    assert_eq!(scene.standing().state(), Some(LoadState::Voided));
}

/// The accident: a seal by somebody who may not inspect claims the refusal's record, and the refusal is gone.
#[test]
fn a_claimed_record_is_no_identity() {
    let refusal = by_herald(&seal_at(300, Outcome::NotFit));
    let claimed = seal_at(300, Outcome::NotFit).record;
    let shadow = |seed, credential: &[u8]| {
        finish(&Seal { record: claimed, ..seal_at(200, Outcome::Fit) }.prepare(credential), seed)
    };
    for by in [shadow(THISTLE, &hookup()), shadow(ANVIL, &anvil())] {
        for words in [vec![by.clone(), refusal.clone()], vec![refusal.clone(), by.clone()]] {
            let scene = Scene { now: at(600), ..Scene::holding(words) };
            assert_eq!(scene.judge(&by_anvil(&seal())).0, Verdict::NoGo);
            assert_eq!(scene.judge_tag().1, ["not_fit"]);
            assert_eq!(
                scene.judge(&by).0,
                Verdict::NoGo,
                "the same claimed record makes it no twin of the refusal"
            );
        }
    }
}

/// The accident: an inspector refuses a load, leaves, is revoked; and the load flies on the seal from before.
#[test]
fn a_refusal_outlives_its_inspector() {
    let fit = by_anvil(&seal());
    let words = vec![fit.clone(), by_herald(&seal_at(300, Outcome::NotFit))];
    let mut scene = Scene { now: at(600), ..Scene::holding(words) };
    assert_eq!(scene.judge(&fit), no_go("superseded"));
    scene.trusted = trusting(&[&herald()]);
    assert_eq!(scene.judge(&fit), no_go("superseded"));
    assert_eq!(scene.judge_tag().1, ["revoked", "not_fit"]);
    assert_eq!(scene.standing().state(), Some(LoadState::NotFit));
    // What a revoked inspector found fit stands for nothing; what came before is past all the same.
    scene.words = vec![(Kind::Seal, fit.clone()), (Kind::Seal, by_herald(&seal_at(300, Outcome::Fit)))];
    assert_eq!(scene.judge(&fit), no_go("superseded"));
    assert_eq!(scene.judge_tag(), no_go("revoked"));
    assert_eq!(scene.standing().state(), Some(LoadState::Refused));
}

#[test]
fn two_inspections_within_the_slack_of_two_clocks() {
    let refused = |seconds| seal_at(seconds, Outcome::NotFit);
    let fit = by_anvil(&seal());
    for (seconds, superseded) in [(-121, false), (-120, true), (0, true), (30, true), (121, true)] {
        let scene = Scene { now: at(200), ..Scene::holding(vec![by_herald(&refused(seconds)), fit.clone()]) };
        assert_eq!(scene.judge(&fit) == no_go("superseded"), superseded, "refused {seconds} s after");
        let state = if superseded { LoadState::NotFit } else { LoadState::Fit };
        assert_eq!(scene.standing().state(), Some(state), "the board says what the hook says");
    }
    // One clock tells its own order: refused, mended and walked again within two minutes.
    let scene = Scene::holding(vec![by_anvil(&refused(-60))]);
    assert_eq!(scene.judge(&fit), GO);
    // Both in one second: refused is the later word, whichever digest is greater.
    for record in 0..8 {
        let refused = Seal { record: Digest::from_bytes([record; 32]), ..refused(0) };
        assert_eq!(Scene::holding(vec![by_anvil(&refused)]).judge(&fit), no_go("superseded"));
    }
}

#[test]
fn no_inspector_no_later_word() {
    // A later seal that could not make a load go cannot take one back either; a void is for that.
    let later = seal_at(30, Outcome::NotFit);
    let run_out = credential("Herald 2", &[Role::Inspector], HERALD, 29, SELA);
    let foreign = credential("Herald 2", &[Role::Inspector], HERALD, 1_000_000, ALDER);
    let mut forged = by_herald(&later);
    *forged.last_mut().unwrap() ^= 1;
    let another_load = Seal { load: LoadNumber::new("KM-015").unwrap(), ..later.clone() };
    let others = vec![
        finish(&later.prepare(&hookup()), THISTLE),
        finish(&later.prepare(&run_out), HERALD),
        finish(&later.prepare(&foreign), HERALD),
        forged,
        b"junk".to_vec(),
        by_herald(&another_load),
        by_anvil(&seal()),
    ];
    let scene = Scene::holding(others);
    assert_eq!(scene.judge(&by_anvil(&seal())), GO);
    assert_eq!(scene.judge_tag(), GO);
    let standing = scene.standing();
    assert_eq!(standing.state(), Some(LoadState::Fit));
    assert_eq!(standing.inspections().count(), 1);
    let words: Vec<_> = standing.seals.values().map(Standing::word).collect();
    assert_eq!(words.iter().filter(|word| **word == "no_inspection").count(), 4, "{words:?}");
}

#[test]
fn each_authority_for_its_own() {
    // The tag's planner is of a second authority, whose roster counts too; the second cannot revoke for the first.
    let theirs = credential("Lantern 1", &[Role::Planner], LANTERN, 1_000_000, ALDER);
    let bytes = tag_bytes(&tag(), Some((&theirs, LANTERN)));
    let seal = by_anvil(&seal_of(&bytes));
    let mut scene = Scene { tag: Some(bytes), ..Scene::default() };
    let mut second = authority(ALDER, "Alder Aid", &[]);
    second.roster = None;
    scene.trusted.add(second.clone());
    assert_eq!(scene.judge(&seal), (Verdict::Wait, vec!["no_roster"]));
    let revoked = [CredentialId::of(&anvil())].into();
    second.roster = Some(Roster { revoked, ..Roster::new(7, at(-50), at(59)) });
    scene.trusted.add(second.clone());
    assert_eq!(scene.judge(&seal), (Verdict::Wait, vec!["roster_too_old"]));
    second.roster.as_mut().unwrap().expires = at(60);
    scene.trusted.add(second);
    assert_eq!(scene.judge(&seal), GO);
}

#[test]
fn a_void_counts_whoever_is_revoked_since_and_only_while_it_could_be_signed() {
    let judge = |void: (Kind, Vec<u8>)| {
        let scene = Scene { words: vec![void], trusted: trusting(&[&hookup()]), ..Scene::default() };
        scene.judge(&by_anvil(&seal()))
    };
    let by = |seconds, seed| (Kind::Void, void(seal().record, seconds, &hookup(), seed));
    assert_eq!(judge(by(30, THISTLE)), no_go("voided"));
    assert_eq!(judge(by(1_000_001, THISTLE)), GO, "its credential had run out");
    assert_eq!(judge(by(30, STRANGER)), GO, "signed by another key than the credential's");
    assert_eq!(judge((Kind::Void, by_anvil(&seal()))), GO, "a seal is no void");
    let other = void(Digest::of(b"another record"), 30, &hookup(), THISTLE);
    assert_eq!(judge((Kind::Void, other)), GO, "of another record");
    // Of several the last is told.
    let scene = Scene { words: vec![by(40, THISTLE), by(50, THISTLE), by(30, THISTLE)], ..Scene::default() };
    let by = CallSign::new("Thistle 7").unwrap();
    let told = Reason::Voided { by, at: at(50), cause: VoidCause::LoadMoved, note: None };
    assert_eq!(scene.judgement(&by_anvil(&seal())).reasons, [told]);
}

#[test]
fn a_void_for_another_reason_says_its_words() {
    let by = CallSign::new("Thistle 7").unwrap();
    let note = Some(slingseal_words::Note::new("slid off its pallet").unwrap());
    let told = Reason::Voided { by, at: at(50), cause: VoidCause::Other, note };
    let words = told.say(slingseal_catalogue::Language::English);
    assert!(words.contains("slid off its pallet") && !words.contains("see the note"), "{words}");
}

#[test]
fn a_seal_that_contradicts_itself() {
    let scene = Scene::default();
    for bad in [
        Seal { found: 0, corrected: 1, ..seal() },
        Seal { issued: at(0), valid_until: at(-1), ..seal() },
        Seal { mass: Quantity::parse("-4200 lb").unwrap(), ..seal() },
        Seal { mass: Quantity::parse("42 ft").unwrap(), ..seal() },
    ] {
        for tag in [scene.tag.clone(), None] {
            let scene = Scene { tag, ..Scene::default() };
            assert_eq!(scene.judge(&by_anvil(&bad)), no_go("unreadable"));
        }
    }
    let moment = Seal { valid_until: at(0), ..seal() };
    assert_eq!(scene.judge(&by_anvil(&moment)), no_go("expired"), "a seal of one moment can be read");
    let refused = Seal { found: 2, corrected: 1, outcome: Outcome::NotFit, ..seal() };
    assert_eq!(scene.judge(&by_anvil(&refused)).1, ["not_fit", "corrected"]);
}

/// The accident: the clock is set back into a seal's validity, and the seal holds again, though newer words are held.
#[test]
fn a_clock_set_back_is_told_by_any_word() {
    let fit = by_anvil(&seal());
    let later = Seal { load: LoadNumber::new("KM-099").unwrap(), ..seal_at(100_000, Outcome::Fit) };
    let words: [(&str, Kind, Vec<u8>, bool); 6] = [
        ("a seal of another load", Kind::Seal, by_herald(&later), true),
        ("a void", Kind::Void, void(Digest::of(b"another"), 100_000, &hookup(), THISTLE), true),
        ("a tag", Kind::Tag, planned(&slingseal_message::tag::Tag { planned: at(100_000), ..tag() }), true),
        (
            "a tag that nobody signed",
            Kind::Tag,
            tag_bytes(&slingseal_message::tag::Tag { planned: at(100_000), ..tag() }, None),
            false,
        ),
        (
            "a stranger's",
            Kind::Seal,
            finish(
                &later.prepare(&credential("Herald 2", &[Role::Inspector], HERALD, 1_000_000, ALDER)),
                HERALD,
            ),
            false,
        ),
        (
            "one past its credential",
            Kind::Seal,
            finish(&later.prepare(&credential("Herald 2", &[Role::Inspector], HERALD, 99_999, SELA)), HERALD),
            false,
        ),
    ];
    for (what, kind, bytes, counts) in words {
        let mut scene = Scene::default();
        scene.words.push((kind, bytes.clone()));
        let expected = if counts { (Verdict::Wait, vec!["clock_behind"]) } else { GO };
        assert_eq!(scene.judge(&fit), expected, "{what}");
        // The way out of a word that a wrong clock dated far ahead: revoke whoever signed it.
        scene.trusted = trusting(&[&herald(), &hookup()]);
        if kind != Kind::Tag {
            assert_eq!(scene.judge(&fit), GO, "{what}, revoked");
        }
    }
    let mut scene = Scene { now: at(60), ..Scene::default() };
    for (time, verdict) in [(at(180), Verdict::Go), (at(181), Verdict::Wait)] {
        scene.latest = Some(LatestTrusted { time, by: Speaker::ThisDevice });
        assert_eq!(scene.judge(&fit).0, verdict, "two minutes of slack");
    }
    // A seal from the future is told once.
    let ahead = by_anvil(&seal_at(600, Outcome::Fit));
    assert_eq!(Scene::default().judge(&ahead), (Verdict::Wait, vec!["from_the_future"]));
}

#[test]
fn the_kept_part_of_a_standing_is_what_time_does_not_change() {
    let fit = by_anvil(&seal());
    for (now, word) in [(60, "fit"), (86_400, "fit"), (86_401, "expired"), (-121, "wait")] {
        let scene = Scene { now: at(now), ..Scene::holding(vec![fit.clone()]) };
        assert_eq!(scene.standing().latest().map(Standing::word), Some(word), "{now}");
    }
}

/// What a database keeps of a load gives, at every time, the state that all its facts give.
#[test]
fn an_outline_says_what_the_facts_say() {
    use super::facts::{Fact, Facts};
    let scene = Scene::default();
    let trusted = scene.trusted;
    let known = key(SELA).public();
    let voided = || Reason::Voided {
        by: CallSign::new("Thistle 7").unwrap(),
        at: at(3),
        cause: VoidCause::LoadMoved,
        note: None,
    };
    let revoked = || Reason::Revoked(CallSign::new("Anvil 3").unwrap());
    let superseded = || Reason::Superseded { by: Digest::of(b"x"), at: at(3), fit: false };
    let fixed =
        [Reason::NotFit, voided(), revoked(), superseded(), Reason::TagUnsigned, Reason::Corrected(1)];
    let timed = [
        Fact::Roster(known),
        Fact::Planner { planner: CallSign::new("Lantern 1").unwrap(), expired: at(400), until: at(700) },
        Fact::Equipment {
            kind: slingseal_words::Name::new("sling").unwrap(),
            serial: slingseal_words::Serial::new("SL-1").unwrap(),
            good_until: at(900),
        },
    ];
    let mut tried = 0;
    for set in 0..1u32 << (fixed.len() + timed.len()) {
        let chosen = |at: usize| set & (1 << at) != 0;
        let mut facts: Vec<Fact> = fixed
            .iter()
            .enumerate()
            .filter(|(at, _)| chosen(*at))
            .map(|(_, one)| Fact::Fixed(one.clone()))
            .collect();
        let behind = timed.iter().enumerate().filter(|(at, _)| chosen(at + fixed.len()));
        facts.extend(behind.map(|(_, fact)| fact.clone()));
        facts.extend([Fact::Validity { until: at(1_000) }, Fact::Issued(at(100))]);
        let facts = Facts(facts);
        let outline = Outline::of(&facts).unwrap();
        for now in [-100, 0, 699, 701, 899, 901, 1_000, 1_001, 600_000] {
            for latest in [None, Some(at(650))] {
                for memory in [Memory::Whole, Memory::PutBack { since: at(1) }] {
                    let latest = latest.map(|time| LatestTrusted { time, by: Speaker::ThisDevice });
                    let asked = Asked { trusted: &trusted, now: at(now), latest, memory };
                    let want = LoadState::of(&facts.reasons(&asked));
                    assert_eq!(outline.at(&asked), want, "{facts:?} at {now}");
                    tried += 1;
                }
            }
        }
    }
    assert_eq!(tried, 512 * 9 * 4);
    assert_eq!(Outline::of(&Facts(vec![Fact::Fixed(Reason::NotFit)])), None);
}

/// The accident: the tag orders the list for a vehicle, and the load is walked by the one for a bag.
#[test]
fn what_the_tag_orders_is_walked() {
    let other = Seal { procedure: ProcedureId::new("net").unwrap(), ..seal() };
    let scene = Scene::default();
    let told = scene.judge(&by_anvil(&other));
    assert_eq!(told, (Verdict::NoGo, vec!["procedure_not_ordered", "procedure_not_approved"]));
    // Held and not scanned, it is asked all the same.
    let mut held = Scene { tag: None, ..Scene::default() };
    assert!(!held.judge(&by_anvil(&other)).1.contains(&"procedure_not_ordered"), "the tag is not known");
    held.words.push((Kind::Tag, planned(&tag())));
    assert!(held.judge(&by_anvil(&other)).1.contains(&"procedure_not_ordered"));
    // A tag that orders the very edition: another version, and another text of the same version.
    let mut ordering = tag();
    ordering.basis.edition = Some(edition());
    let bytes = tag_bytes(&ordering, Some((&planner(), LANTERN)));
    let sealed = seal_of(&bytes);
    let judge = |seal: &Seal| {
        let mut sela = authority(SELA, "Sela Relief", &[]);
        let roster = sela.roster.as_mut().unwrap();
        for edition in [
            Edition { version: 2, ..edition() },
            // The one-card forgery, that somebody had approved beside the list which the tag orders.
            Edition { thumbprint: [4; 16], ..edition() },
        ] {
            roster.approved.insert(edition, Approval { from: at(-90_000), withdrawn: None });
        }
        let mut trusted = Trusted::default();
        trusted.add(sela);
        Scene { tag: Some(bytes.clone()), trusted, ..Scene::default() }.judge(&by_anvil(seal))
    };
    assert_eq!(judge(&sealed), GO);
    assert_eq!(judge(&Seal { version: 2, ..sealed.clone() }), no_go("procedure_not_ordered"));
    assert_eq!(judge(&Seal { procedure_print: [4; 4], ..sealed }), no_go("procedure_not_ordered"));
}

/// The accident: a unit's own list of one card is called `bag`, is walked and sealed, and every stranger is told GO.
#[test]
fn what_nobody_approved_waits() {
    let (fit, refused) = (by_anvil(&seal()), by_anvil(&seal_at(0, Outcome::NotFit)));
    let wait = |code| (Verdict::Wait, vec![code]);
    let approving = |of: &[(Edition, Approval)]| {
        let mut sela = authority(SELA, "Sela Relief", &[]);
        sela.roster.as_mut().unwrap().approved = of.iter().cloned().collect();
        let mut trusted = Trusted::default();
        trusted.add(sela);
        trusted
    };
    let judge = |of: &[(Edition, Approval)], bytes: &[u8]| {
        Scene { trusted: approving(of), ..Scene::default() }.judge(bytes)
    };
    let since = |from, withdrawn: Option<i64>| Approval { from: at(from), withdrawn: withdrawn.map(at) };
    let other = |change: fn(&mut Edition)| {
        let mut other = edition();
        change(&mut other);
        (other, since(-10, None))
    };
    assert_eq!(judge(&[(edition(), since(0, None))], &fit), GO, "approved in the second of the seal");
    assert_eq!(judge(&[(edition(), since(1, None))], &fit), wait("procedure_not_approved"), "approved later");
    assert_eq!(judge(&[(edition(), since(-9, Some(1)))], &fit), GO, "withdrawn a second after");
    assert_eq!(judge(&[(edition(), since(-9, Some(0)))], &fit), wait("procedure_withdrawn"));
    assert_eq!(judge(&[], &fit), wait("procedure_not_approved"), "an authority that has approved nothing");
    for one in [
        other(|edition| edition.version = 2),
        other(|edition| edition.procedure = ProcedureId::new("bag-2").unwrap()),
        other(|edition| edition.thumbprint[3] ^= 1),
    ] {
        assert_eq!(judge(std::slice::from_ref(&one), &fit), wait("procedure_not_approved"), "{one:?}");
    }
    // Two editions of one number, of which one is withdrawn: the bytes tell them apart.
    let both = [(edition(), since(-9, Some(-5))), other(|edition| edition.thumbprint = [4; 16])];
    assert_eq!(judge(&both, &fit), wait("procedure_withdrawn"));
    // What a list finds wrong is wrong whoever approved the list.
    assert_eq!(judge(&[], &refused), no_go("not_fit"));
    // Another authority's approval says nothing of this author.
    let mut trusted = approving(&[]);
    trusted.add(authority(ALDER, "Alder Aid", &[]));
    assert_eq!(Scene { trusted, ..Scene::default() }.judge(&fit), wait("procedure_not_approved"));
    // Where no roster is here, that is what is told.
    let mut none = authority(SELA, "Sela Relief", &[]);
    none.roster = None;
    let mut trusted = Trusted::default();
    trusted.add(none);
    assert_eq!(Scene { trusted, ..Scene::default() }.judge(&fit), wait("no_roster"));
    let scene = Scene { trusted: approving(&[]), ..Scene::holding(vec![fit]) };
    assert_eq!(scene.standing().state(), Some(LoadState::Waits));
}
