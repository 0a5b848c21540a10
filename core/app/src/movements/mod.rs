//! What becomes of a load after its verdict: reported where it happens, in one call, with a key or without; and what whoever takes a
//! load down sees and says of it.

pub(crate) mod arrival;
pub(crate) mod flow;
mod request;
mod view;

use serde::Serialize;
use slingseal_catalogue::movement as movement_words;

use crate::account::open_word;
use crate::hook::LastScan;
use crate::trust::vault::DEVICE_VAULT;
use crate::{App, AppError, CodeView, Inner};
use slingseal_catalogue::refusals;
use slingseal_journal::NewEntry;
use slingseal_judgement::{Author, LoadWord};
use slingseal_message::envelope::{Kind, unwrap};
use slingseal_message::movement::{JournalEnd, Movement, RefusalCause, VerdictShown};
use slingseal_words::{Digest, GridRef, LoadNumber, Name, Note, Seconds, Time};

pub use self::request::{PieceReport, ReportRequest};
use self::request::{event_of, pieces_of, some};
pub use self::view::{MovedPiece, MovementView};
pub use arrival::{ArrivalPiece, ArrivalView};

/// The journal's entry that names a report written here.
pub(crate) const MOVED: &str = "moved";

/// A cause of a refusal, to be picked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RefusalChoice {
    /// Which.
    pub cause: RefusalCause,
    /// What a person reads.
    pub shown: String,
}

/// A report that was written: on disk, in this device's journal, and as a code to be carried.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReportMade {
    /// Its code.
    pub code: CodeView,
    /// What it says.
    pub report: MovementView,
}

impl App {
    /// Reports what became of a load. Without a PIN the report is unsigned and chained in this device's journal: a hookup team is never
    /// stopped by paperwork under a hovering aircraft. With one it is signed with this device's credential, whatever its role.
    ///
    /// # Errors
    /// No load is meant, since nothing was scanned; an event, cause, time, place or piece that cannot be; with a PIN: no credential, a
    /// wrong PIN; storage.
    pub fn report(&self, request: &ReportRequest, pin: Option<&str>) -> Result<ReportMade, AppError> {
        let Some(pin) = pin else {
            let mut inner = self.lock();
            let movement = inner.movement_of(request)?;
            let bytes = movement.unsigned()?;
            return inner.keep_report(&bytes);
        };
        {
            // What can be told without the PIN is told first: it costs no try.
            let inner = self.lock();
            inner.movement_of(request)?;
            inner.credential_for(None)?;
        }
        let key = self.open_key(DEVICE_VAULT, pin)?;
        let mut inner = self.lock();
        let movement = inner.movement_of(request)?;
        let (_, credential) = inner.credential_for(None)?;
        let unsigned = movement.prepare(&credential);
        let bytes = Movement::fitting(unsigned.finish(&key.sign(&unsigned.to_be_signed())))?;
        drop(key);
        inner.keep_report(&bytes)
    }

    /// Signs a report that this device wrote and nobody signed, so that it counts on other devices too: a second report of the same,
    /// with the time at which it happened, the verdict that was shown then, and when it was written. The first stays as it is.
    ///
    /// # Errors
    /// No such report; one that was signed, or written elsewhere; no credential; a wrong PIN; storage.
    pub fn sign_report(&self, load: &str, digest: &str, pin: &str) -> Result<ReportMade, AppError> {
        {
            // What can be told without the PIN is told first: it costs no try.
            let inner = self.lock();
            inner.unsigned_report(load, digest)?;
            inner.credential_for(None)?;
        }
        let key = self.open_key(DEVICE_VAULT, pin)?;
        let mut inner = self.lock();
        let movement = inner.unsigned_report(load, digest)?;
        let (_, credential) = inner.credential_for(None)?;
        let unsigned = movement.prepare(&credential);
        let bytes = Movement::fitting(unsigned.finish(&key.sign(&unsigned.to_be_signed())))?;
        drop(key);
        inner.keep_report(&bytes)
    }

    /// Whether a report is one that this device wrote and nobody signed yet: on other devices it is a hint and moves nothing.
    ///
    /// # Errors
    /// A text that is no load number or no digest; no such report; storage.
    pub fn report_waits_for_signature(&self, load: &str, digest: &str) -> Result<bool, AppError> {
        match self.lock().unsigned_report(load, digest) {
            Ok(_) => Ok(true),
            Err(AppError::Refused { .. }) => Ok(false),
            Err(error) => Err(error),
        }
    }

    /// Every report of a load that is known here, the first that happened first; of one second lifted before set down, then by digest.
    ///
    /// # Errors
    /// A text that is no load number; storage.
    pub fn movements(&self, load: &str) -> Result<Vec<MovementView>, AppError> {
        self.lock().movements(&LoadNumber::new(load)?)
    }

    /// A report that is known here, to be shown and carried again.
    ///
    /// # Errors
    /// A text that is no load number or no digest; no such report; storage.
    pub fn show_report(&self, load: &str, digest: &str) -> Result<ReportMade, AppError> {
        let none = || AppError::not_found(refusals::NoSuchReport);
        let (load, digest) = (LoadNumber::new(load)?, Digest::from_hex(digest).ok_or_else(none)?);
        let inner = self.lock();
        let row = inner.store.read().movement(load.as_str(), digest)?.ok_or_else(none)?;
        let word = open_word(Kind::Movement, &row.bytes, &mut inner.trusted()?)?;
        let word = if row.own { word.written_here() } else { word };
        Ok(ReportMade {
            code: CodeView::of(Kind::Movement, &row.bytes)?,
            report: inner.movement_view(&word)?,
        })
    }

    /// Why a load may be refused at the hook, the likeliest first: to be given back in a [`ReportRequest`].
    pub fn refusal_causes(&self) -> Vec<RefusalChoice> {
        let language = self.lock().language();
        RefusalCause::ALL.map(|cause| RefusalChoice { cause, shown: cause.say(language) }).into()
    }
}

/// What was shown last, for the report that follows it.
struct ShownLast {
    load: LoadNumber,
    seal: Option<Digest>,
    shown: VerdictShown,
}

impl LastScan {
    fn shown_last(&self) -> Option<ShownLast> {
        let (judgement, tag) = self.gravest()?;
        let load = judgement.seal.as_ref().map(|seal| &seal.load).or(tag.map(LoadWord::load))?;
        Some(ShownLast { load: load.clone(), seal: judgement.digest, shown: judgement.shown() })
    }
}

impl Inner {
    /// The load that is meant, the seal that it hangs under, and the verdict that was shown of it.
    fn meant(
        &self,
        load: Option<&str>,
    ) -> Result<(LoadNumber, Option<Digest>, Option<VerdictShown>), AppError> {
        let last = self.judged.as_ref().and_then(LastScan::shown_last);
        let load = match (load, &last) {
            (None, Some(last)) => last.load.clone(),
            (None, None) => {
                return Err(AppError::bad_input(movement_words::NoLoadIsMeant));
            }
            (Some(text), _) => load_of(text)?,
        };
        if let Some(last) = last.filter(|last| last.load == load) {
            return Ok((load, last.seal, Some(last.shown)));
        }
        let latest = self.judge_load(&load)?.latest;
        Ok((load, latest, None))
    }

    /// What a report says that this device wrote and nobody signed, to be written anew at the end of its journal.
    fn unsigned_report(&self, load: &str, digest: &str) -> Result<Movement, AppError> {
        let none = || AppError::not_found(refusals::NoSuchReport);
        let (load, digest) = (LoadNumber::new(load)?, Digest::from_hex(digest).ok_or_else(none)?);
        let row = self.store.read().movement(load.as_str(), digest)?.ok_or_else(none)?;
        let word = open_word(Kind::Movement, &row.bytes, &mut self.trusted()?)?;
        let movement = word.movement().ok_or_else(none)?;
        if !row.own || *word.author() != Author::Nobody {
            return Err(AppError::refused(movement_words::OnlyOwnUnsigned));
        }
        let this = self.movement_view(&word)?;
        let signed = |other: &MovementView| {
            other.by.is_some()
                && (&other.device, &other.event, &other.cause, &other.at)
                    == (&this.device, &this.event, &this.cause, &this.at)
        };
        if self.movements(&load)?.iter().any(signed) {
            return Err(AppError::refused(movement_words::SignedAlready));
        }
        let (issued, head) = (self.now(), self.store.head());
        let before = self.store.read().last_entry(MOVED)?;
        Ok(Movement {
            issued,
            happened: Some(movement.at()).filter(|at| issued.since(*at) > Seconds(0)),
            journal: JournalEnd { seq: head.seq, digest: head.digest },
            before: before.and_then(|entry| Digest::from_slice(&entry.body)),
            ..movement.clone()
        })
    }

    /// The report that a person asks for.
    fn movement_of(&self, request: &ReportRequest) -> Result<Movement, AppError> {
        let event = event_of(request)?;
        let (load, seal, shown) = self.meant(some(request.load.as_ref()))?;
        let issued = self.now();
        let happened = request.happened.map(Time::from_unix);
        if let Some(happened) = happened.filter(|happened| *happened > issued) {
            return Err(AppError::bad_input(movement_words::TimeIsAhead {
                at: &happened.dtg(),
                now: &issued.dtg(),
            }));
        }
        let grid = |text: &str| GridRef::new(text).map_err(|error| AppError::bad_input(error.saying()));
        let digest = |text: &String| {
            Digest::from_hex(text)
                .ok_or_else(|| AppError::bad_input(movement_words::NoPhotoDigest { text: &text }))
        };
        let head = self.store.head();
        let before = self.store.read().last_entry(MOVED)?;
        // What had happened before it was looked at is no answer to the verdict that is shown now.
        let later = happened.filter(|happened| issued.since(*happened) > Seconds(0));
        Ok(Movement {
            load,
            event,
            issued,
            happened: later,
            device: self.store.device().0,
            journal: JournalEnd { seq: head.seq, digest: head.digest },
            before: before.and_then(|entry| Digest::from_slice(&entry.body)),
            seal,
            shown,
            aircraft: some(request.aircraft.as_ref()).map(Name::new).transpose()?,
            place: some(request.place.as_ref()).map(grid).transpose()?,
            photos: request.photos.iter().map(digest).collect::<Result<_, _>>()?,
            pieces: pieces_of(request)?,
            note: some(request.note.as_ref()).map(Note::new).transpose()?,
        })
    }

    /// Keeps a report that was written here: in the journal, and among the words of its load.
    fn keep_report(&mut self, bytes: &[u8]) -> Result<ReportMade, AppError> {
        let now = self.now();
        let word = self.admit(|admission| {
            let word = admission.open(Kind::Movement, bytes)?.written_here();
            admission.tx.append(NewEntry {
                kind: MOVED,
                walk: None,
                body: word.digest().as_bytes(),
                time: now,
            })?;
            admission.movement(&word, true)?;
            Ok(word)
        })?;
        Ok(ReportMade { code: CodeView::of(Kind::Movement, bytes)?, report: self.movement_view(&word)? })
    }

    /// Takes in a report; whether it is new here.
    pub(crate) fn receive_movement(&mut self, bytes: &[u8]) -> Result<(MovementView, bool), AppError> {
        let (word, new) = self.admit(|admission| {
            let word = admission.open(Kind::Movement, bytes)?;
            let new = admission.movement(&word, false)?;
            Ok((word, new))
        })?;
        let own = self.store.read().movement(word.load().as_str(), word.digest())?.is_some_and(|row| row.own);
        let word = if own { word.written_here() } else { word };
        Ok((self.movement_view(&word)?, new))
    }

    pub(crate) fn movements(&self, load: &LoadNumber) -> Result<Vec<MovementView>, AppError> {
        let mut trusted = self.trusted()?;
        let mut words = Vec::new();
        for row in self.store.read().movements_of(load.as_str())? {
            let Ok(word) = open_word(Kind::Movement, &row.bytes, &mut trusted) else { continue };
            words.push(if row.own { word.written_here() } else { word });
        }
        words.sort_by_key(|word| word.movement().map(|report| report.place(word.digest())));
        words.iter().map(|word| self.movement_view(word)).collect()
    }
}

/// A load number, or the one on a tag.
fn load_of(text: &str) -> Result<LoadNumber, AppError> {
    match unwrap(text) {
        Ok((Kind::Tag | Kind::TagWithBasis, bytes)) => {
            Ok(slingseal_message::tag::ReceivedTag::open(&bytes)?.tag.load)
        }
        Ok((Kind::Seal, bytes)) => Ok(crate::hook::admission::seal_of(&bytes)?.load),
        Ok((kind, _)) => Err(AppError::bad_input(movement_words::KindScanTag { kind: &kind })),
        Err(_) => Ok(LoadNumber::new(text)?),
    }
}
