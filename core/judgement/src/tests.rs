use super::*;
use slingseal_message::envelope::{Kind, Limits, check, wrap};
use slingseal_message::seal::{
    DigestOf, JournalEntry, Outcome, ReceivedSeal, Record, Seal, TagPrint, Void, VoidCause,
};
use slingseal_message::trust::{
    Credential, DEFAULT_VALIDITY, Role, Roles, Roster, SecretKey, Trusted, TrustedAuthority,
};
use slingseal_words::{
    CallSign, Digest, GridRef, Language, LoadNumber, Name, ProcedureId, Quantity, Seconds, Time,
};

fn key(seed: u8) -> SecretKey {
    SecretKey::from_seed(&[seed; 32])
}

fn at(seconds: i64) -> Time {
    Time::from_unix(1_790_000_000 + seconds)
}

fn credential(roles: &[Role]) -> Vec<u8> {
    Credential {
        holder: CallSign::new("Anvil 3").unwrap(),
        roles: Roles::of(roles),
        expires: at(1_000_000),
        longest_validity: DEFAULT_VALIDITY,
        key: key(2).public(),
    }
    .issue(&key(1))
}

fn seal() -> Seal {
    Seal {
        load: LoadNumber::new("KM-014").unwrap(),
        issued: at(0),
        valid_until: at(86_400),
        tag: TagPrint::of(&Digest::of(b"tag")),
        tag_signed: true,
        procedure: ProcedureId::new("vehicle").unwrap(),
        version: 1,
        procedure_print: [3; 4],
        outcome: Outcome::Fit,
        found: 1,
        corrected: 1,
        mass: Quantity::parse("4200 lb").unwrap(),
        record: Digest::of(b"record"),
    }
}

fn signed_under(seal: &Seal, credential: &[u8]) -> Vec<u8> {
    let unsigned = seal.prepare(credential);
    unsigned.finish(&key(2).sign(&unsigned.to_be_signed()))
}

fn signed(seal: &Seal) -> Vec<u8> {
    signed_under(seal, &credential(&[Role::Inspector]))
}

fn tag() -> TagSeen {
    TagSeen {
        digest: Digest::of(b"tag"),
        load: LoadNumber::new("KM-014").unwrap(),
        mass: Quantity::parse("4200 lb").unwrap(),
        allowable: Quantity::parse("7000 lb").unwrap(),
        rigger: Some(CallSign::new("Mason 5").unwrap()),
        signature: TagSignature::Planner,
        authority: Some(key(1).public()),
    }
}

fn trusted() -> Trusted {
    let roster = Roster { sequence: 1, issued: at(-100), expires: at(500_000), revoked: [].into() };
    let mut trusted = Trusted::default();
    trusted.add(TrustedAuthority {
        name: Name::new("Sela Relief").unwrap(),
        key: key(1).public(),
        roster: Some(roster),
    });
    trusted
}

struct Scene {
    trusted: Trusted,
    now: Time,
    seals: Vec<Vec<u8>>,
    voids: Vec<Vec<u8>>,
    tag: Option<TagSeen>,
    latest_seen: Option<Time>,
}

impl Default for Scene {
    fn default() -> Self {
        Self {
            trusted: trusted(),
            now: at(60),
            seals: vec![],
            voids: vec![],
            tag: Some(tag()),
            latest_seen: None,
        }
    }
}

impl Scene {
    fn report(&self, seal: &[u8]) -> Report {
        let known = Known {
            trusted: &self.trusted,
            now: self.now,
            latest_seen: self.latest_seen,
            seals: &self.seals,
            voids: &self.voids,
        };
        judge(Question { seal: Some(seal), tag: self.tag.as_ref() }, known)
    }

    fn judge(&self, seal: &[u8]) -> (Verdict, Vec<&'static str>) {
        let report = self.report(seal);
        for language in [Language::English, Language::Spanish] {
            assert!(report.reasons.iter().all(|reason| reason.say(language).len() > 10));
        }
        (report.verdict, report.reasons.iter().map(Reason::code).collect())
    }
}

#[test]
fn a_typical_seal_fits_version_13_at_level_m() {
    let bytes = signed(&seal());
    assert_eq!(check(&bytes, Limits::CODE), Ok(()));
    // ISO/IEC 18004 table 7: 483 alphanumeric characters in version 13 at level M.
    let text = wrap(Kind::Seal, &bytes);
    assert!(bytes.len() <= 320 && text.len() <= 483, "{} bytes, {} characters", bytes.len(), text.len());
    assert_eq!(ReceivedSeal::open(&bytes).unwrap().seal, seal());
    for (outcome, tag_signed) in [(Outcome::Fit, false), (Outcome::NotFit, true), (Outcome::NotFit, false)] {
        let other = Seal { outcome, tag_signed, ..seal() };
        assert_eq!(ReceivedSeal::open(&signed(&other)).unwrap().seal, other);
    }
}

#[test]
fn go_names_what_was_corrected() {
    assert_eq!(Scene::default().judge(&signed(&seal())), (Verdict::Go, vec!["corrected"]));
}

#[test]
fn no_flip_and_no_cut_passes() {
    let scene = Scene::default();
    let bytes = signed(&seal());
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
    let cases: [(&str, Verdict, Change); 16] = [
        ("expired", Verdict::NoGo, |scene, _| scene.now = at(86_401)),
        ("expires_soon", Verdict::Go, |scene, _| scene.now = at(86_400)),
        ("from_the_future", Verdict::Wait, |scene, _| scene.now = at(-121)),
        ("clock_behind", Verdict::Wait, |scene, _| scene.latest_seen = Some(at(200))),
        ("roster_too_old", Verdict::Wait, |scene, seal| {
            scene.now = at(500_001);
            (seal.issued, seal.valid_until) = (at(499_000), at(509_000));
        }),
        ("credential_expired", Verdict::NoGo, |_, seal| {
            (seal.issued, seal.valid_until) = (at(1_000_001), at(1_000_002));
        }),
        ("valid_too_long", Verdict::NoGo, |_, seal| seal.valid_until = at(86_401)),
        ("not_fit", Verdict::NoGo, |_, seal| seal.outcome = Outcome::NotFit),
        ("tag_unsigned", Verdict::Wait, |scene, _| {
            scene.tag.as_mut().unwrap().signature = TagSignature::Unsigned;
        }),
        ("tag_forged", Verdict::NoGo, |scene, _| {
            scene.tag.as_mut().unwrap().signature = TagSignature::Forged
        }),
        ("other_load", Verdict::NoGo, |scene, _| {
            scene.tag.as_mut().unwrap().load = LoadNumber::new("KM-015").unwrap();
        }),
        ("tag_changed", Verdict::NoGo, |scene, _| scene.tag.as_mut().unwrap().digest = Digest::of(b"other")),
        ("own_work", Verdict::NoGo, |scene, _| {
            scene.tag.as_mut().unwrap().rigger = Some(CallSign::new("ANVIL-3").unwrap());
        }),
        ("tag_planner_unknown", Verdict::Wait, |scene, _| {
            scene.tag.as_mut().unwrap().signature = TagSignature::Unknown
        }),
        ("mass_over_allowable", Verdict::NoGo, |scene, _| {
            scene.tag.as_mut().unwrap().allowable = Quantity::parse("4199 lb").unwrap();
        }),
        ("tag_not_seen", Verdict::Go, |scene, _| scene.tag = None),
    ];
    for (code, verdict, change) in cases {
        let (mut scene, mut seal) = (Scene::default(), seal());
        change(&mut scene, &mut seal);
        let (found, reasons) = scene.judge(&signed(&seal));
        assert_eq!(found, verdict, "{code}: {reasons:?}");
        assert!(reasons.contains(&code), "{code}: {reasons:?}");
    }
}

#[test]
fn a_load_as_heavy_as_the_aircraft_allows_may_fly() {
    let mut scene = Scene::default();
    scene.tag.as_mut().unwrap().allowable = seal().mass;
    assert_eq!(scene.judge(&signed(&seal())), (Verdict::Go, vec!["corrected"]));
}

#[test]
fn roles_and_revocation() {
    let mut scene = Scene::default();
    let hookup = credential(&[Role::Hookup]);
    assert_eq!(scene.judge(&signed_under(&seal(), &hookup)).1.first(), Some(&"not_an_inspector"));
    let inspector = credential(&[Role::Inspector]);
    let id = slingseal_message::trust::CredentialId::of(&inspector);
    let roster = Roster { sequence: 2, issued: at(0), expires: at(500_000), revoked: [id].into() };
    scene.trusted.add(TrustedAuthority {
        name: Name::new("Sela Relief").unwrap(),
        key: key(1).public(),
        roster: Some(roster),
    });
    assert_eq!(scene.judge(&signed(&seal())).1.first(), Some(&"revoked"));
    scene.trusted = Trusted::default();
    assert_eq!(scene.judge(&signed(&seal())), (Verdict::NoGo, vec!["unknown_authority", "corrected"]));
}

#[test]
fn a_void_and_a_later_inspection_take_a_seal_back() {
    let mut scene = Scene::default();
    let void = Void {
        load: seal().load,
        issued: at(30),
        record: seal().record,
        cause: VoidCause::LoadMoved,
        note: None,
    };
    let hookup = credential(&[Role::Hookup]);
    let unsigned = void.prepare(&hookup);
    let good = unsigned.finish(&key(2).sign(&unsigned.to_be_signed()));
    let forged = unsigned.finish(&key(3).sign(&unsigned.to_be_signed()));
    assert_eq!(Void::open(&good).unwrap().0, void);
    scene.voids = vec![forged];
    assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go, "a forged void is no void");
    scene.voids.push(good);
    assert_eq!(scene.judge(&signed(&seal())).1.first(), Some(&"voided"));
    scene.voids.clear();
    for outcome in [Outcome::Fit, Outcome::NotFit] {
        let later = Seal { issued: at(30), record: Digest::of(b"later"), outcome, ..seal() };
        scene.seals = vec![signed(&later)];
        assert_eq!(scene.judge(&signed(&seal())).1.first(), Some(&"superseded"));
        let fit = outcome == Outcome::Fit;
        assert_eq!(scene.report(&signed(&seal())).reasons[0], Reason::Superseded { at: at(30), fit });
        let own = scene.judge(&signed(&later));
        assert!(!own.1.contains(&"superseded"), "an earlier seal does not supersede a later one");
    }
}

#[test]
fn a_record_comes_back_and_tells_each_link_once() {
    let digest_of: DigestOf<'_> =
        &|entry, walk| Digest::of_parts(&[entry.prev.as_bytes(), walk, &entry.body]);
    let entry = |seq, prev, body: &[u8]| JournalEntry {
        seq,
        prev,
        time: at(0),
        kind: "walk".into(),
        body: body.to_vec(),
    };
    let first = entry(1, Digest::of(b"start"), b"a");
    let second = entry(2, digest_of(&first, &[9; 16]), b"b");
    let apart = entry(7, Digest::of(b"another walk"), b"c");
    let record = Record {
        tag: vec![0xa0],
        procedure: ProcedureId::new("bag").unwrap(),
        version: 1,
        procedure_digest: Digest::of(b"p"),
        inspector: CallSign::new("Anvil 3").unwrap(),
        outcome: Outcome::Fit,
        decided: at(5),
        device: [8; 16],
        walk: [9; 16],
        head: (7, digest_of(&apart, &[9; 16])),
        entries: vec![first, second, apart],
        rigging: Some("{}".into()),
        photos: vec![Digest::of(b"photo")],
        place: Some(GridRef::new("33TWN0000000000").unwrap()),
        before: Some(Digest::of(b"the record before")),
    };
    let bytes = record.to_bytes(digest_of);
    assert_eq!(check(&bytes, Limits::FILE), Ok(()));
    assert_eq!(Record::parse(&bytes, digest_of), Ok(record));
    for end in 0..bytes.len() {
        assert!(Record::parse(&bytes[..end], digest_of).is_err());
    }
}

#[test]
fn one_person_under_two_spellings() {
    let name = |text| CallSign::new(text).unwrap();
    assert!(super::judge::same_person(&name("Anvil 3"), &name("ANVIL-3")));
    assert!(!super::judge::same_person(&name("Anvil 3"), &name("Anvil 33")));
    assert_eq!(super::judge::SOON, Seconds(1_800));
}

#[test]
fn two_inspections_within_the_slack_of_two_clocks() {
    // Another inspector, with another key, of the same authority.
    let other = Credential {
        holder: CallSign::new("Lantern 1").unwrap(),
        roles: Roles::of(&[Role::Inspector]),
        expires: at(1_000_000),
        longest_validity: DEFAULT_VALIDITY,
        key: key(4).public(),
    }
    .issue(&key(1));
    let refused = Seal { outcome: Outcome::NotFit, record: Digest::of(b"refused"), ..seal() };
    let by_other = |seconds| {
        let seal = Seal { issued: at(seconds), ..refused.clone() };
        let unsigned = seal.prepare(&other);
        unsigned.finish(&key(4).sign(&unsigned.to_be_signed()))
    };
    let first = |scene: &Scene| scene.judge(&signed(&seal())).1.first().copied();
    let mut scene = Scene::default();
    for (seconds, reason) in
        [(-121, "corrected"), (-120, "superseded"), (0, "superseded"), (30, "superseded")]
    {
        scene.seals = vec![by_other(seconds)];
        assert_eq!(first(&scene), Some(reason), "refused {seconds} s after");
    }
    // One clock tells its own order: refused, mended and walked again within two minutes.
    scene.seals = vec![signed(&Seal { issued: at(-60), ..refused.clone() })];
    assert_eq!(first(&scene), Some("corrected"));
    // Both in one second: refused is the later word, whichever digest is greater.
    for record in [Digest::from_bytes([0; 32]), Digest::from_bytes([255; 32])] {
        scene.seals = vec![signed(&Seal { record, ..refused.clone() })];
        assert_eq!(first(&scene), Some("superseded"));
    }
}

#[test]
fn no_inspector_no_later_word() {
    // A later seal that could not make a load go cannot take one back either; a void is for that.
    let later = Seal { issued: at(30), record: Digest::of(b"later"), ..seal() };
    let mut scene =
        Scene { seals: vec![signed_under(&later, &credential(&[Role::Hookup]))], ..Scene::default() };
    assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go);
    let mut forged = signed(&later);
    *forged.last_mut().unwrap() ^= 1;
    scene.seals = vec![forged, b"junk".to_vec()];
    assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go);
    let another_load = Seal { load: LoadNumber::new("KM-015").unwrap(), ..later };
    scene.seals = vec![signed(&another_load), signed(&seal())];
    assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go);
}

#[test]
fn each_authority_for_its_own() {
    // The tag's planner is of a second authority, whose roster counts too; the second cannot revoke for the first.
    let inspector = credential(&[Role::Inspector]);
    let mut scene = Scene::default();
    scene.tag.as_mut().unwrap().authority = Some(key(9).public());
    let mut second =
        TrustedAuthority { name: Name::new("Alder Aid").unwrap(), key: key(9).public(), roster: None };
    scene.trusted.add(second.clone());
    assert_eq!(scene.judge(&signed(&seal())), (Verdict::Wait, vec!["no_roster", "corrected"]));
    let revoked = [slingseal_message::trust::CredentialId::of(&inspector)].into();
    second.roster = Some(Roster { sequence: 7, issued: at(-50), expires: at(59), revoked });
    scene.trusted.add(second.clone());
    assert_eq!(scene.judge(&signed(&seal())), (Verdict::Wait, vec!["roster_too_old", "corrected"]));
    second.roster.as_mut().unwrap().expires = at(60);
    scene.trusted.add(second);
    assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go);
    // Both run out: each is named once, however often it is met.
    scene.now = at(500_001);
    let late = Seal { issued: at(499_000), valid_until: at(509_000), ..seal() };
    let (verdict, reasons) = scene.judge(&signed(&late));
    assert_eq!((verdict, reasons), (Verdict::Wait, vec!["roster_too_old", "roster_too_old", "corrected"]));
    scene.tag.as_mut().unwrap().authority = Some(key(1).public());
    assert_eq!(scene.judge(&signed(&late)).1, vec!["roster_too_old", "corrected"]);
}

#[test]
fn a_void_counts_whoever_is_revoked_since_and_only_while_it_could_be_signed() {
    let void = |issued, seed: u8, credential: &[u8]| {
        let void = Void {
            load: seal().load,
            issued,
            record: seal().record,
            cause: VoidCause::RiggingDisturbed,
            note: None,
        };
        let unsigned = void.prepare(credential);
        unsigned.finish(&key(seed).sign(&unsigned.to_be_signed()))
    };
    let hookup = credential(&[Role::Hookup]);
    let mut scene = Scene { voids: vec![void(at(30), 2, &hookup)], ..Scene::default() };
    let id = slingseal_message::trust::CredentialId::of(&hookup);
    let roster = Roster { sequence: 2, issued: at(40), expires: at(500_000), revoked: [id].into() };
    let authority = TrustedAuthority {
        name: Name::new("Sela Relief").unwrap(),
        key: key(1).public(),
        roster: Some(roster),
    };
    scene.trusted.add(authority);
    assert_eq!(scene.judge(&signed(&seal())).1.first(), Some(&"voided"));
    for (void, why) in [
        (void(at(1_000_001), 2, &hookup), "its credential had run out"),
        (void(at(30), 3, &hookup), "signed by another key than the credential's"),
        (signed(&seal()), "a seal is no void"),
    ] {
        scene.voids = vec![void];
        assert_eq!(scene.judge(&signed(&seal())).0, Verdict::Go, "{why}");
    }
}

#[test]
fn a_seal_that_contradicts_itself() {
    let scene = Scene::default();
    let open = Seal { found: 2, corrected: 1, ..seal() };
    assert_eq!(scene.judge(&signed(&open)).1.first(), Some(&"open_deficiency"));
    for bad in
        [Seal { found: 0, corrected: 1, ..seal() }, Seal { issued: at(0), valid_until: at(-1), ..seal() }]
    {
        assert_eq!(scene.judge(&signed(&bad)), (Verdict::NoGo, vec!["unreadable"]));
    }
    let moment = Seal { issued: at(0), valid_until: at(0), ..seal() };
    assert_eq!(scene.judge(&signed(&moment)).1.first(), Some(&"expired"), "a seal of one moment can be read");
    let refused = Seal { found: 2, corrected: 1, outcome: Outcome::NotFit, ..seal() };
    assert_eq!(scene.judge(&signed(&refused)).1, vec!["not_fit", "corrected"]);
}
