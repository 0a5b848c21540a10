//! A whole walk by a script: the same seed does the same things at the same times, so that a walk that was broken off can
//! be held against one that was not.

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use slingseal_app::{
    App, AppError, Clock, Entropy, FindingState, FindingView, Issue, Language, NextStep, Outside, PointState,
    PointView, Stretch, Time, WalkRequest, WalkView, sound_answer,
};
use slingseal_words::Digest;

/// When the scripted day begins.
const START: i64 = 1_796_000_000;
/// The inspector's PIN.
pub const PIN: &str = "294817";
/// After so many steps the script only goes forward.
pub const WILD: u64 = 120;

/// A clock that stands where it is put.
#[derive(Default)]
pub struct Set(AtomicI64);

impl Set {
    /// Puts it so many seconds after the day's beginning.
    pub fn to(&self, seconds: u64) {
        self.0.store(START + seconds as i64, Ordering::SeqCst);
    }
}

impl Clock for Set {
    fn now(&self) -> Time {
        Time::from_unix(self.0.load(Ordering::SeqCst))
    }
}

struct Repeating(&'static str, AtomicU64);

impl Entropy for Repeating {
    fn fill(&self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(32) {
            let count = self.1.fetch_add(1, Ordering::SeqCst);
            let digest = Digest::of_parts(&[self.0.as_bytes(), &count.to_be_bytes()]);
            chunk.iter_mut().zip(digest.as_bytes()).for_each(|(to, from)| *to = *from);
        }
    }
}

/// Opens a home whose clock stands at the day's beginning. `who` is what its randomness is drawn from.
///
/// # Errors
/// Those of [`App::open`].
pub fn open(home: &Path, who: &'static str) -> Result<(App, Arc<Set>), AppError> {
    let clock = Arc::new(Set::default());
    clock.to(0);
    let outside = Outside {
        clock: clock.clone(),
        entropy: Arc::new(Repeating(who, AtomicU64::new(0))),
        device_secret: zeroize::Zeroizing::new(b"scripted".to_vec()),
        stretch: Stretch::weak_for_tests_only(),
        language: Language::English,
    };
    App::open(home, outside).map(|app| (app, clock))
}

/// Makes an inspector's home below a folder, with a credential, and the text of a tag for its load.
///
/// # Panics
/// Where something of the setting up fails.
pub fn set_up(folder: &Path) -> (std::path::PathBuf, String) {
    const WORDS: &str = "a meadow by the river";
    let (authority, _) = open(&folder.join("authority"), "authority").expect("the authority's home opens");
    authority
        .authority_init("Sela Relief", WORDS, &slingseal_app::built_in_procedures())
        .expect("an authority is made");
    let home = folder.join("inspector");
    let (app, _) = open(&home, "inspector").expect("the inspector's home opens");
    let card = authority.authority().expect("an authority has a card");
    app.trust(&card.card.text, &card.fingerprint).expect("the authority is trusted");
    app.receive(&card.roster.text).expect("the roster is taken");
    let request = app.make_key("Anvil 3", PIN).expect("a key is made").text;
    let (roles, expires) = (vec![slingseal_app::Role::Inspector], "2027-12-31".into());
    let issue = Issue { request, roles, expires, holder: None, validity_hours: None };
    let credential = authority.issue(&issue, WORDS).expect("a credential is issued");
    app.receive(&credential.text).expect("the credential is taken");
    let none = |_: &str| Err("none".into());
    let tag = app.write_tag(PLAN, &none, None).expect("a tag is made").code.text;
    (home, tag)
}

/// A load that a script walks; another load is the same with another number.
pub const PLAN: &str = r#"
load = "KM-014"
description = "Rations, webbing bag"
procedure = "bag"
gross = "1800 lb"
rigger = "Mason 5"
[aircraft]
type = "Heron M2"
allowable = "7000 lb"
[pickup]
name = "Kestrel Meadow"
[destination]
name = "Alder Bridge"
[[link]]
leg = "1"
link = 3
"#;

/// A walk that the script drives.
pub struct Scripted<'a> {
    /// The home.
    pub app: &'a App,
    /// Its clock.
    pub clock: &'a Set,
    /// The tag's text.
    pub tag: &'a str,
    /// What the script's chances are drawn from.
    pub seed: u64,
}

impl Scripted<'_> {
    /// Does the step of a number; `false` where the walk is sealed and nothing is left to do. The first step begins it.
    ///
    /// # Errors
    /// Those of the facade; a refusal is none.
    pub fn step(&self, number: u64) -> Result<bool, AppError> {
        self.clock.to(number);
        self.step_now(number)
    }

    /// As `step`, at whatever time the clock shows.
    ///
    /// # Errors
    /// Those of the facade.
    pub fn step_now(&self, number: u64) -> Result<bool, AppError> {
        if number == 0 {
            self.app.begin_walk(self.tag)?;
            return Ok(true);
        }
        let Some(view) = self.view()? else { return Ok(false) };
        if view.next == NextStep::Seal {
            self.app.seal(&view.walk, PIN, None)?;
            return Ok(true);
        }
        match self.request(&view, number) {
            None => Ok(false),
            Some(request) => self.app.do_walk(&view.walk, &request).map(|_| true),
        }
    }

    /// Everything that can be seen of the home and how long its journal is, as one digest, at the time of a step.
    ///
    /// # Errors
    /// Those of the facade.
    pub fn look(&self, number: u64) -> Result<Digest, AppError> {
        self.clock.to(number);
        let view = self.view()?;
        let records = self.app.records(None, 10)?;
        // A step may be in the journal and in no view (to go to the card that is open): done twice it would end in another record.
        let entries = self.app.audit()?.entries;
        let seen = serde_json::to_vec(&(view, records, entries)).expect("views are JSON");
        Ok(Digest::of(&seen))
    }

    /// The walk in hand.
    ///
    /// # Errors
    /// Those of the facade.
    pub fn view(&self) -> Result<Option<WalkView>, AppError> {
        match self.app.start()?.in_hand.first() {
            Some(line) => self.app.walk(&line.walk).map(Some),
            None => Ok(None),
        }
    }

    fn request(&self, view: &WalkView, number: u64) -> Option<WalkRequest> {
        let chance = Digest::of_parts(&[&self.seed.to_be_bytes(), &number.to_be_bytes()]);
        let [dice, which, ..] = *chance.as_bytes();
        let wild = number < WILD;
        if view.next == NextStep::Resume {
            return Some(WalkRequest::Resume);
        }
        match (dice, &view.card) {
            (0..=9, _) if wild => return Some(WalkRequest::Pause),
            (10..=25, _) if wild && view.undo.is_some() => {
                return view.undo.map(|answer| WalkRequest::Undo { answer });
            }
            (26..=35, Some(card)) if wild => {
                return Some(WalkRequest::GoTo { card: 1 + u32::from(which) % card.of });
            }
            (36..=60, Some(card)) if wild => {
                let point = &card.points[usize::from(which) % card.points.len()];
                let name = point.deficiencies.iter().find(|known| known.in_place);
                return Some(WalkRequest::Deficiency {
                    card: card.number,
                    point: point.id.clone(),
                    name: name.map_or("other".into(), |known| known.name.clone()),
                    note: Some("seen by the script".into()),
                    photos: vec![],
                });
            }
            _ => {}
        }
        if let Some(card) = &view.card {
            let open = |point: &&_| -> bool {
                let point: &slingseal_app::PointView = point;
                point.needs_value && point.state == PointState::Unanswered
            };
            return Some(match card.points.iter().find(open) {
                None => WalkRequest::CardGood { card: card.number },
                Some(point) => WalkRequest::Answer {
                    card: card.number,
                    point: point.id.clone(),
                    value: sound_answer(view, point),
                },
            });
        }
        let none = || (None, Vec::new());
        for finding in &view.findings {
            let (note, photos) = none();
            match finding.state {
                FindingState::Closed => {}
                FindingState::Open if finding.in_place => {
                    let by = Some("Mason 5".into());
                    return Some(WalkRequest::PutRight { finding: finding.number, by, note, photos });
                }
                FindingState::PutRight => {
                    let value = finding.needs_value.then(|| again(view, finding));
                    let finding = finding.number;
                    return Some(WalkRequest::LookAgain { finding, good: true, value, note, photos });
                }
                FindingState::Open => {}
            }
        }
        (view.next != NextStep::Nothing).then(|| {
            let fit = view.blocks_fit.is_empty();
            WalkRequest::Decide { fit, reason: (!fit).then(|| "a deficiency stays".into()) }
        })
    }
}

/// What a finding's point answers once it is corrected.
fn again(view: &WalkView, finding: &FindingView) -> String {
    let point = PointView {
        id: finding.point.clone(),
        prompt: String::new(),
        spoken: String::new(),
        kind: finding.kind.clone(),
        state: PointState::Unanswered,
        answer: None,
        deficiencies: Vec::new(),
        source: String::new(),
        needs_value: true,
        may_not_apply: false,
    };
    sound_answer(view, &point)
}
