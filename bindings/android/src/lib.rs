//! The facade of Slingseal for Kotlin: one object, coarse synchronous calls, one error type. It maps types and injects
//! the phone's clock and randomness; it decides nothing.

mod error;
mod exam;
mod inspections;
mod leading;
mod moving;
mod planning;
mod platform;
mod printing;
mod trust;
mod views;
mod weighing;

use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use slingseal_app::catalogue::refusals as words;
use slingseal_app::{
    App, ArrivalView, AuditView, CodeView, DrawingView, Effort, Language, MovementView, MovingCode,
    MovingReader, Outside, ProcedureView, Reading, Received, RecordLine, RecordView, RefusalChoice,
    ReportMade, ReportRequest, RiggingView, SealView, StartView, StickerReading, StickerView, Stretch,
    TagMade, TagView, VerdictView, VoidCause, WalkRequest, WalkView, code_of, read_picture, read_sticker,
    sticker,
};
use zeroize::Zeroizing;

pub use error::HandheldError;
pub use views::moving::{MovingOut, MovingTaken};

uniffi::setup_scaffolding!();

type Answer<T> = Result<T, HandheldError>;

/// The core of one device.
#[derive(uniffi::Object)]
pub struct Handheld {
    app: App,
    moving: Mutex<Moving>,
}

/// The moving code that is shown, and the one that is being read.
#[derive(Default)]
struct Moving {
    shown: Option<MovingCode>,
    read: MovingReader,
}

impl Handheld {
    fn moving(&self) -> MutexGuard<'_, Moving> {
        self.moving.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[uniffi::export]
impl Handheld {
    /// Opens the home in a folder that is there, or begins one. `device_secret` comes from the platform's keystore;
    /// `language` is a tag such as `es-MX`.
    ///
    /// # Errors
    /// A home that is in use, of a newer program, on a full or read-only disk.
    #[uniffi::constructor]
    pub fn open(home: &str, device_secret: Vec<u8>, language: &str) -> Answer<Arc<Self>> {
        let language = Language::of_locale(language);
        error::speak(language);
        let outside = Outside {
            clock: Arc::new(platform::PhoneClock),
            entropy: Arc::new(platform::PhoneEntropy),
            device_secret: Zeroizing::new(device_secret),
            stretch: Stretch::FIELD,
            language,
        };
        Ok(Arc::new(Self { app: App::open(Path::new(home), outside)?, moving: Mutex::default() }))
    }

    /// Changes the language of what is answered from here on.
    pub fn speak(&self, language: &str) {
        let language = Language::of_locale(language);
        error::speak(language);
        self.app.speak(language);
    }

    /// Brings what was written last into the home's one file, for whoever copies it: when the program leaves the front. Everything is on
    /// the disk without it.
    pub fn settle(&self) {
        self.app.settle();
    }

    /// What the shell was asked to remember under a name; none where nothing was.
    ///
    /// # Errors
    /// Storage.
    pub fn preference(&self, name: &str) -> Answer<Option<String>> {
        Ok(self.app.preference(name)?)
    }

    /// Remembers a choice of the shell's.
    ///
    /// # Errors
    /// A name or value that is too long; storage.
    pub fn prefer(&self, name: &str, value: &str) -> Answer<()> {
        Ok(self.app.prefer(name, value)?)
    }

    /// The first screen.
    ///
    /// # Errors
    /// Storage.
    pub fn start(&self) -> Answer<StartView> {
        Ok(self.app.start()?)
    }

    /// Reads one camera frame: 8-bit luminance, rows of `stride` bytes.
    ///
    /// # Errors
    /// A frame whose sizes do not fit its bytes.
    pub fn read_frame(&self, width: u32, height: u32, stride: u32, luminance: Vec<u8>) -> Answer<Reading> {
        Ok(self.app.read_frame(width, height, stride, &luminance, Effort::Frame)?)
    }

    /// As `read_frame`, passing over texts that were read before: of two codes in one frame, the other.
    ///
    /// # Errors
    /// A frame whose sizes do not fit its bytes.
    pub fn read_frame_beside(
        &self,
        width: u32,
        height: u32,
        stride: u32,
        luminance: Vec<u8>,
        known: Vec<String>,
    ) -> Answer<Reading> {
        Ok(self.app.read_frame_beside(width, height, stride, &luminance, &known, Effort::Frame)?)
    }

    /// What every code in a PNG or JPEG says.
    ///
    /// # Errors
    /// A file that is no picture.
    pub fn read_picture(&self, picture: Vec<u8>) -> Answer<Vec<String>> {
        Ok(read_picture(&picture)?)
    }

    /// The code of a text that is ours.
    ///
    /// # Errors
    /// A text that is none of ours.
    pub fn code_of(&self, text: &str) -> Answer<CodeView> {
        Ok(code_of(text)?)
    }

    /// What to write to an NFC sticker with room for `room` bytes: give a tag, a seal, or both.
    ///
    /// # Errors
    /// A text that is none of ours; two of one kind; more than any sticker holds.
    pub fn sticker(&self, texts: Vec<String>, room: u32) -> Answer<StickerView> {
        Ok(sticker(&texts, room)?)
    }

    /// What the NDEF message of an NFC sticker holds.
    pub fn read_sticker(&self, message: Vec<u8>) -> StickerReading {
        read_sticker(&message)
    }

    /// Takes in a text of any kind.
    ///
    /// # Errors
    /// A text that is none of ours, damaged, forged, or of someone whom this device does not trust.
    pub fn receive(&self, text: &str) -> Answer<Received> {
        Ok(self.app.receive(text)?)
    }

    /// What a tag says.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn read_tag(&self, text: &str) -> Answer<TagView> {
        Ok(self.app.read_tag(text)?)
    }

    /// Makes a tag of a plan, with the text of the rigging file that it names; signed where a PIN is given.
    ///
    /// # Errors
    /// Every fault of the plan; no planner's credential; a wrong PIN.
    pub fn write_tag(&self, plan: &str, rigging: Option<String>, pin: Option<String>) -> Answer<TagMade> {
        let language = self.app.spoken();
        let given = |name: &str| rigging.clone().ok_or_else(|| words::FileNotGiven { name }.say(language));
        Ok(self.app.write_tag(plan, &given, pin.as_deref())?)
    }

    /// Every procedure that this device knows.
    ///
    /// # Errors
    /// Storage.
    pub fn procedures(&self) -> Answer<Vec<ProcedureView>> {
        Ok(self.app.procedures()?)
    }

    /// Takes in a unit's own procedure, the whole text of its file.
    ///
    /// # Errors
    /// Every fault of the file.
    pub fn add_procedure(&self, text: &str) -> Answer<ProcedureView> {
        Ok(self.app.add_procedure(text)?)
    }

    /// Every edition that this device has or should have, with who approves it: those kept apart and those missing among them.
    ///
    /// # Errors
    /// Storage.
    pub fn procedure_editions(&self) -> Answer<Vec<ProcedureView>> {
        Ok(self.app.procedure_editions()?)
    }

    /// Begins the walk of a tag, or goes on with the one in hand.
    ///
    /// # Errors
    /// A text that is no tag; a procedure that is not known; no holder's name on this device.
    pub fn begin_walk(&self, tag: &str) -> Answer<WalkView> {
        Ok(self.app.begin_walk(tag)?)
    }

    /// A walk as it stands.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk(&self, walk: &str) -> Answer<WalkView> {
        Ok(self.app.walk(walk)?)
    }

    /// Does what a person did; it is on disk before this returns. A refusal stands in the view.
    ///
    /// # Errors
    /// No such walk; a value that cannot be read; storage.
    pub fn do_walk(&self, walk: &str, request: WalkRequest) -> Answer<WalkView> {
        Ok(self.app.do_walk(walk, &request)?)
    }

    /// Takes in a photograph and gives the digest that a finding names it by.
    ///
    /// # Errors
    /// Another kind of file; storage.
    pub fn add_photo(&self, bytes: Vec<u8>) -> Answer<String> {
        Ok(self.app.add_photo(&bytes)?)
    }

    /// The load of a walk as lines, with what its card is about marked; none where its procedure has no drawing.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_drawing(&self, walk: &str) -> Answer<Option<DrawingView>> {
        Ok(self.app.walk_drawing(walk)?)
    }

    /// The same of a run of an examination.
    ///
    /// # Errors
    /// No such run.
    pub fn exam_drawing(&self, run: &str) -> Answer<Option<DrawingView>> {
        Ok(self.app.exam_drawing(run)?)
    }

    /// The statics of the rigging, as counted in a walk.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_rigging(&self, walk: &str) -> Answer<Option<RiggingView>> {
        Ok(self.app.walk_rigging(walk)?)
    }

    /// The picture of the rigging as counted in a walk, as PNG.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_picture(&self, walk: &str) -> Answer<Option<Vec<u8>>> {
        Ok(self.app.walk_picture(walk)?)
    }

    /// The picture of the rigging that a tag plans, as PNG.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn tag_picture(&self, tag: &str) -> Answer<Option<Vec<u8>>> {
        Ok(self.app.tag_picture(tag)?)
    }

    /// Seals a decided walk. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// A walk that is not decided; no inspector's credential; the inspector is the rigger; a wrong PIN.
    pub fn seal(&self, walk: &str, pin: &str, validity_hours: Option<u32>) -> Answer<SealView> {
        Ok(self.app.seal(walk, pin, validity_hours)?)
    }

    /// The seal of a record, to be shown again.
    ///
    /// # Errors
    /// No such record.
    pub fn show_seal(&self, record: &str) -> Answer<SealView> {
        Ok(self.app.show_seal(record)?)
    }

    /// Judges a seal, a tag, or both.
    ///
    /// # Errors
    /// Texts that are no seal and no tag; storage.
    pub fn check(&self, seal: Option<String>, tag: Option<String>) -> Answer<VerdictView> {
        Ok(self.app.check(seal.as_deref(), tag.as_deref())?)
    }

    /// Judges everything that was shown at once, seals and tags in any number: each is judged, the gravest is what is shown.
    ///
    /// # Errors
    /// As `check`.
    pub fn check_all(&self, codes: Vec<String>) -> Answer<VerdictView> {
        Ok(self.app.check_all(&codes)?)
    }

    /// Takes a seal back. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// No such record; no credential; a wrong PIN.
    pub fn void(&self, record: &str, cause: VoidCause, note: Option<String>, pin: &str) -> Answer<CodeView> {
        Ok(self.app.void(record, cause, note.as_deref(), pin)?)
    }

    /// Reports what became of a load, that of the last verdict where none is named. Without a PIN it is unsigned and done at once; with
    /// one it is signed, and slow: the PIN is stretched.
    ///
    /// # Errors
    /// No load is meant; an event, cause, time, place or piece that cannot be; a wrong PIN; storage.
    pub fn report(&self, request: ReportRequest, pin: Option<String>) -> Answer<ReportMade> {
        Ok(self.app.report(&request, pin.as_deref())?)
    }

    /// What a load is and what was done to it, by its tag or its number: for whoever takes it down.
    ///
    /// # Errors
    /// A text that is neither a tag nor a load number; a number of which nothing is known here.
    pub fn arrival(&self, load: &str) -> Answer<ArrivalView> {
        Ok(self.app.arrival(load)?)
    }

    /// Every report of a load that is known here, the first that happened first.
    ///
    /// # Errors
    /// A text that is no load number; storage.
    pub fn movements(&self, load: &str) -> Answer<Vec<MovementView>> {
        Ok(self.app.movements(load)?)
    }

    /// Signs a report that this device wrote unsigned: a second report of the same, which counts everywhere. Slow.
    ///
    /// # Errors
    /// No such report; one that was signed, or written elsewhere; no credential; a wrong PIN; storage.
    pub fn sign_report(&self, load: &str, digest: &str, pin: &str) -> Answer<ReportMade> {
        Ok(self.app.sign_report(load, digest, pin)?)
    }

    /// Whether a report is one that this device wrote and nobody signed yet.
    ///
    /// # Errors
    /// No such report; storage.
    pub fn report_waits_for_signature(&self, load: &str, digest: &str) -> Answer<bool> {
        Ok(self.app.report_waits_for_signature(load, digest)?)
    }

    /// A report that is known here, to be shown and carried again.
    ///
    /// # Errors
    /// A text that is no load number or no digest; no such report; storage.
    pub fn show_report(&self, load: &str, digest: &str) -> Answer<ReportMade> {
        Ok(self.app.show_report(load, digest)?)
    }

    /// Why a load may be refused at the hook, the likeliest first.
    pub fn refusal_causes(&self) -> Vec<RefusalChoice> {
        self.app.refusal_causes()
    }

    /// Records, newest first.
    ///
    /// # Errors
    /// Storage.
    pub fn records(&self, words: Option<String>, most: u32) -> Answer<Vec<RecordLine>> {
        Ok(self.app.records(words.as_deref(), most)?)
    }

    /// A record's story.
    ///
    /// # Errors
    /// No such record.
    pub fn record(&self, record: &str) -> Answer<RecordView> {
        Ok(self.app.record(record)?)
    }

    /// Walks the journal and every record and names what does not hold.
    ///
    /// # Errors
    /// Storage.
    pub fn audit(&self) -> Answer<AuditView> {
        Ok(self.app.audit()?)
    }
}
