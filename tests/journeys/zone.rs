//! A zone: devices that share nothing but what their people show each other, each with a clock of its own.

use std::cell::{Cell, RefCell};
use std::path::PathBuf;
use std::sync::Arc;

use slingseal_app::{
    App, BundleReport, BundleRequest, Issue, NextStep, Received, RecordLine, SealView, VerdictView,
    WalkRequest,
};
use slingseal_tests::scripted::{PIN, PLAN, Scripted, Set, WILD, open};

/// An authority's passphrase.
pub const WORDS: &str = "a meadow by the river";

pub struct Zone {
    folder: tempfile::TempDir,
    seconds: Cell<u64>,
    clocks: RefCell<Vec<(Arc<Set>, u64)>>,
}

pub struct Device {
    pub app: App,
    clock: Arc<Set>,
    home: PathBuf,
    fast: u64,
}

/// How an inspection ends.
pub enum Ends {
    /// Everything good.
    Fit,
    /// Something found, put right and looked at again.
    FitOnceCorrected,
    /// The inspector does not put a name to it.
    NotFit,
}

impl Zone {
    pub fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        Self { folder, seconds: Cell::new(0), clocks: RefCell::default() }
    }

    pub fn pass(&self, seconds: u64) {
        self.seconds.set(self.seconds.get() + seconds);
        for (clock, fast) in self.clocks.borrow().iter() {
            clock.to(self.seconds.get() + fast);
        }
    }

    /// A device's clock is set so many seconds back from where it belongs; with none it is set right.
    pub fn set_back(&self, device: &Device, seconds: u64) {
        device.clock.to(self.seconds.get() + device.fast - seconds);
    }

    /// A device whose clock runs so many seconds ahead. `name` is its folder and what its randomness is drawn from.
    pub fn device(&self, name: &'static str, fast: u64) -> Device {
        let home = self.folder.path().join(name);
        std::fs::create_dir_all(&home).unwrap();
        self.started(home, name, fast)
    }

    /// A device of a test that makes many: its folder beside what its randomness is drawn from.
    pub fn named(&self, folder: &str, name: &'static str) -> Device {
        let home = self.folder.path().join(folder);
        std::fs::create_dir_all(&home).unwrap();
        self.started(home, name, 0)
    }

    /// The battery is changed.
    pub fn restart(&self, device: Device, name: &'static str) -> Device {
        let Device { app, home, fast, .. } = device;
        drop(app);
        self.started(home, name, fast)
    }

    fn started(&self, home: PathBuf, name: &'static str, fast: u64) -> Device {
        let (app, clock) = open(&home, name).unwrap();
        self.clocks.borrow_mut().push((clock.clone(), fast));
        self.pass(0);
        Device { app, clock, home, fast }
    }

    /// A walk of the load from card to card, sealed for six hours.
    pub fn inspect(&self, device: &Device, tag: &str, ends: Ends) -> SealView {
        let app = &device.app;
        let script = Scripted { app, clock: &device.clock, tag, seed: 5 };
        let mut begun = app.begin_walk(tag).unwrap();
        if let Ends::FitOnceCorrected = ends {
            let known =
                |point: &&slingseal_app::PointView| point.deficiencies.iter().any(|known| known.in_place);
            for card in 2.. {
                if begun.card.as_ref().unwrap().points.iter().any(|point| known(&point)) {
                    break;
                }
                begun = app.do_walk(&begun.walk, &WalkRequest::GoTo { card }).unwrap();
            }
            let card = begun.card.clone().unwrap();
            let point = card.points.iter().find(known).unwrap();
            let name = point.deficiencies.iter().find(|known| known.in_place).unwrap().name.clone();
            let (point, card) = (point.id.clone(), card.number);
            let found = WalkRequest::Deficiency { card, point, name, note: None, photos: vec![] };
            assert_eq!(app.do_walk(&begun.walk, &found).unwrap().refused, None);
        }
        for number in WILD.. {
            self.pass(5);
            match script.view().unwrap().unwrap().next {
                NextStep::Seal => break,
                NextStep::Decide if matches!(ends, Ends::NotFit) => {
                    let reason = Some("the ground is soft under it".to_owned());
                    let decided = WalkRequest::Decide { fit: false, reason };
                    assert_eq!(app.do_walk(&begun.walk, &decided).unwrap().refused, None);
                }
                _ => assert!(script.step_now(number).unwrap()),
            }
        }
        app.seal(&begun.walk, PIN, Some(6)).unwrap()
    }
}

impl Device {
    /// Trusts the authority, as read aloud, and takes its roster.
    pub fn meet(&self, authority: &Device) {
        let card = authority.app.authority().unwrap();
        self.app.trust(&card.card.text, &card.fingerprint).unwrap();
        self.app.receive(&card.roster.text).unwrap();
    }

    /// A key of its own, and a credential for it.
    pub fn credentialed(self, authority: &Device, holder: &str, roles: &str) -> Self {
        self.meet(authority);
        let request = self.app.make_key(holder, PIN).unwrap().text;
        let (roles, expires) = (slingseal_app::roles_of(roles).unwrap(), "2027-12-31".into());
        let issue = Issue { request, roles, expires, holder: None, validity_hours: None };
        let credential = authority.app.issue(&issue, WORDS).unwrap().text;
        let Received::Credential { own: true, .. } = self.app.receive(&credential).unwrap() else {
            panic!("{holder} took a credential that is not its own");
        };
        self
    }

    /// The text of a signed tag for a load.
    pub fn plan(&self, load: &str) -> String {
        let none = |_: &str| Err("none".into());
        let made = self.app.write_tag(&PLAN.replace("KM-014", load), &none, Some(PIN)).unwrap();
        assert_eq!(made.tag.signature.word(), "signed");
        made.code.text
    }

    /// What the hook is told: the word and every reason.
    pub fn told(&self, seal: Option<&SealView>, tag: Option<&str>) -> (String, Vec<String>) {
        let verdict: VerdictView = self.app.check(seal.map(|seal| seal.code.text.as_str()), tag).unwrap();
        (verdict.word, verdict.reasons.into_iter().map(|reason| reason.code).collect())
    }

    pub fn bundle(&self, have: Option<String>) -> Vec<u8> {
        let mut bytes = Vec::new();
        self.app
            .bundle_write(&BundleRequest { have, photos: true, ..BundleRequest::default() }, &mut bytes)
            .unwrap();
        bytes
    }

    pub fn take(&self, bundle: &[u8]) -> BundleReport {
        self.app.bundle_read(&mut &bundle[..], &mut |_| {}).unwrap()
    }

    /// What a leader counts by, in the order of the seals.
    pub fn account(&self) -> Vec<RecordLine> {
        let mut lines = self.app.records(None, 100).unwrap();
        lines.reverse();
        lines
    }

    pub fn sound(&self) {
        assert_eq!(self.app.audit().unwrap().faults, [""; 0]);
    }
}
