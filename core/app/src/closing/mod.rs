//! Closing an account: what does not add up of a day or of some loads, what the leader says of each point, and the statement that the
//! leader signs and hands up.

mod account;
mod digests;
mod request;

use serde::Serialize;

use self::account::Account;
pub use self::request::CloseRequest;
use crate::trust::vault::DEVICE_VAULT;
use crate::{App, AppError, CodeView, Inner, Stamp};
use slingseal_account::report::{OpenPoint, PointKind};
use slingseal_catalogue::{Language, closing as words};
use slingseal_message::closing::{ClosingStatement, Explained, MOST_EXPLAINED};
use slingseal_message::envelope::{Kind, Limits, wrap};
use slingseal_message::trust::{Role, SecretKey, Signer};
use slingseal_words::{Description, Digest, Note, Seconds};

/// What does not add up of an account.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CloseView {
    /// What it is called.
    pub name: String,
    /// How many loads.
    pub loads: u32,
    /// How many inspections.
    pub inspections: u32,
    /// How many loads were lifted.
    pub lifted: u32,
    /// How many were set down or derigged.
    pub set_down: u32,
    /// How many were lost.
    pub lost: u32,
    /// How many reports rest on nobody's signature that is known here.
    pub unsigned: u32,
    /// The digest of everything that the account rests on: two desks that hold the same say the same.
    pub account: String,
    /// How many words that is.
    pub words: u32,
    /// The least seconds a card that an authority has set; none where none is set.
    pub least_seconds: Option<u32>,
    /// What does not add up, by sort.
    pub points: Vec<ClosePoint>,
    /// Whether each of them is explained.
    pub explained: bool,
}

/// One point that does not add up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ClosePoint {
    /// What it goes by: it changes when more becomes known of it.
    pub id: String,
    /// What sort it is.
    #[serde(serialize_with = "crate::view::word")]
    pub kind: PointKind,
    /// What a person reads as its heading.
    pub title: String,
    /// The load, the piece or the device.
    pub subject: String,
    /// The load, where it is one; empty for a device.
    pub load: String,
    /// What is known.
    pub known: String,
    /// What to do.
    pub to_do: String,
    /// What the leader says of it; none where nothing was said.
    pub note: Option<String>,
}

/// A statement that was signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ClosingMade {
    /// Its text.
    pub text: String,
    /// Its code, where it fits one.
    pub code: Option<CodeView>,
    /// What it says.
    pub statement: ClosingView,
}

/// What a leader handed up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ClosingView {
    /// What it goes by: the digest of its bytes.
    pub digest: String,
    /// Its check word, to be compared by voice.
    pub check: String,
    /// What it is about.
    pub name: String,
    /// When it was signed.
    pub issued: Stamp,
    /// Who signed it.
    pub by: String,
    /// The digest of the account.
    pub account: String,
    /// How many words the account rests on.
    pub words: u32,
    /// Loads, inspections, loads lifted, set down, lost.
    pub counts: Vec<u32>,
    /// What was open, and how it was explained.
    pub explained: Vec<ExplainedView>,
}

/// A point with the leader's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExplainedView {
    /// The stable word of its sort, as the statement carries it: one of a later edition is told by it.
    pub kind: String,
    /// The same as a person reads it.
    pub title: String,
    /// The load, the piece or the device.
    pub subject: String,
    /// What the leader says.
    pub note: String,
}

const LEAST_SECONDS: &str = "least-seconds-a-card";

fn note_key(id: &str) -> String {
    format!("closing-note/{id}")
}

impl App {
    /// Everything that does not add up, each with what is known and what to do. The same by whatever way and in whatever order the words
    /// came.
    ///
    /// # Errors
    /// A day or load number that is none; no load is meant; storage.
    pub fn close_account(&self, request: &CloseRequest) -> Result<CloseView, AppError> {
        let mut inner = self.lock();
        inner.learn_walk_facts()?;
        let account = inner.account_of(request)?;
        inner.close_view(account)
    }

    /// Says something of an open point, or takes it back where the note is empty. It is signed with the statement.
    ///
    /// # Errors
    /// A note that is too long; storage.
    pub fn explain(&self, point: &str, note: &str) -> Result<(), AppError> {
        if point.len() != 16 || !point.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return Err(AppError::bad_input(words::NoSuchPoint { point }));
        }
        let note = Some(note.trim()).filter(|note| !note.is_empty()).map(Note::new).transpose()?;
        self.lock().store.write(|tx| -> Result<(), AppError> {
            match &note {
                Some(note) => tx.put_setting(&note_key(point), note.as_str().as_bytes())?,
                None => drop(tx.remove_setting(&note_key(point))?),
            }
            Ok(())
        })
    }

    /// Sets the least seconds a card below which a walk is marked, or none. It is a sign, not a proof.
    ///
    /// # Errors
    /// More than an hour; storage.
    pub fn set_least_seconds(&self, seconds: Option<u32>) -> Result<(), AppError> {
        if seconds.is_some_and(|seconds| seconds == 0 || seconds > 3_600) {
            return Err(AppError::bad_input(words::LeastSecondsBounds));
        }
        self.lock().store.write(|tx| -> Result<(), AppError> {
            match seconds {
                Some(seconds) => tx.put_setting(LEAST_SECONDS, seconds.to_string().as_bytes())?,
                None => drop(tx.remove_setting(LEAST_SECONDS)?),
            }
            Ok(())
        })
    }

    /// Signs what a leader hands up: the account's digest, what was open and how it was explained. As a leader.
    ///
    /// # Errors
    /// A point that nobody has explained; more points than a statement holds; no leader's credential; a wrong PIN; storage.
    pub fn sign_closing(&self, request: &CloseRequest, pin: &str) -> Result<ClosingMade, AppError> {
        {
            // What can be told without the PIN is told first: it costs no try.
            let mut inner = self.lock();
            inner.learn_walk_facts()?;
            inner.statement_of(request)?;
            inner.credential_for(Some(Role::Leader))?;
        }
        let key = self.open_key(DEVICE_VAULT, pin)?;
        self.lock().sign_closing(request, &key)
    }

    /// The statements that are here, the newest first.
    ///
    /// # Errors
    /// Storage.
    pub fn closings(&self) -> Result<Vec<ClosingView>, AppError> {
        let inner = self.lock();
        let trusted = inner.trusted()?;
        let mut views = Vec::new();
        for row in inner.store.read().closings()? {
            let Ok((statement, message)) = ClosingStatement::open(&row.bytes) else { continue };
            let Ok(signer) = trusted.signer(Kind::Closing, &message) else { continue };
            views.push(view_of(&statement, &signer, row.digest, inner.language()));
        }
        Ok(views)
    }
}

fn view_of(statement: &ClosingStatement, signer: &Signer, digest: Digest, language: Language) -> ClosingView {
    ClosingView {
        digest: digest.to_string(),
        check: digest.check_word(),
        name: statement.name.to_string(),
        issued: statement.issued.into(),
        by: signer.credential.holder.to_string(),
        account: statement.account.to_string(),
        words: statement.words,
        counts: statement.counts.to_vec(),
        explained: statement
            .explained
            .iter()
            .map(|one| ExplainedView {
                kind: one.kind.clone(),
                title: PointKind::of_word(&one.kind)
                    .map_or_else(|| one.kind.replace('_', " "), |kind| kind.title().say(language)),
                subject: one.subject.to_string(),
                note: one.note.to_string(),
            })
            .collect(),
    }
}

fn id_of(point: &OpenPoint) -> String {
    // In English, whatever the reader's language: a note goes by it.
    let (subject, known) = (point.subject.to_string(), point.known.to_string());
    let parts = [point.kind.word(), &subject, &known].join("\n");
    Digest::of(parts.as_bytes()).to_string().chars().take(16).collect()
}

impl Inner {
    /// The least time a card that was set here.
    pub(crate) fn least_a_card(&self) -> Result<Option<Seconds>, AppError> {
        Ok(self.least_seconds()?.map(|seconds| Seconds(seconds.into())))
    }

    fn least_seconds(&self) -> Result<Option<u32>, AppError> {
        let bytes = self.store.read().setting(LEAST_SECONDS)?;
        Ok(bytes.and_then(|bytes| String::from_utf8(bytes).ok()).and_then(|text| text.parse().ok()))
    }

    fn points_of(&self, points: Vec<OpenPoint>, language: Language) -> Result<Vec<ClosePoint>, AppError> {
        let read = self.store.read();
        let mut said = Vec::with_capacity(points.len());
        for point in points {
            let id = id_of(&point);
            let note = read.setting(&note_key(&id))?.and_then(|bytes| String::from_utf8(bytes).ok());
            said.push(ClosePoint {
                id,
                kind: point.kind,
                title: point.kind.title().say(language),
                subject: point.subject.say(language),
                load: point.load,
                known: point.known.say(language),
                to_do: point.kind.to_do().say(language),
                note,
            });
        }
        Ok(said)
    }

    fn close_view(&self, account: Account) -> Result<CloseView, AppError> {
        let points = self.points_of(account.points, self.language())?;
        let counts = account.counts;
        Ok(CloseView {
            name: account.name.to_string(),
            loads: counts.loads,
            inspections: counts.inspections,
            lifted: counts.lifted,
            set_down: counts.set_down,
            lost: counts.lost,
            unsigned: account.unsigned,
            account: account.digest.0.to_string(),
            words: account.digest.1,
            least_seconds: self.least_seconds()?,
            explained: points.iter().all(|point| point.note.is_some()),
            points,
        })
    }

    fn statement_of(&self, request: &CloseRequest) -> Result<ClosingStatement, AppError> {
        let account = self.account_of(request)?;
        // What is signed has one language for all.
        let points = self.points_of(account.points, Language::English)?;
        let bare = points.iter().filter(|point| point.note.is_none()).count();
        if bare > 0 {
            let (bare, all) = (bare.to_string(), points.len().to_string());
            return Err(AppError::refused(words::PointsNotExplained { bare, all }));
        }
        if points.len() > MOST_EXPLAINED {
            let (points, most) = (points.len().to_string(), MOST_EXPLAINED.to_string());
            return Err(AppError::refused(words::TooManyPoints { points, most }));
        }
        let counts = account.counts;
        let explained = points.into_iter().map(|point| {
            let subject: String = point.subject.chars().take(40).collect();
            Ok(Explained {
                kind: point.kind.word().to_owned(),
                subject: Description::new(&subject)?,
                note: Note::new(&point.note.unwrap_or_default())?,
            })
        });
        Ok(ClosingStatement {
            issued: self.now(),
            name: account.name,
            days: account.days,
            account: account.digest.0,
            words: account.digest.1,
            counts: [counts.loads, counts.inspections, counts.lifted, counts.set_down, counts.lost],
            explained: explained.collect::<Result<_, AppError>>()?,
        })
    }

    fn sign_closing(&mut self, request: &CloseRequest, key: &SecretKey) -> Result<ClosingMade, AppError> {
        let statement = self.statement_of(request)?;
        let (_, credential) = self.credential_for(Some(Role::Leader))?;
        let unsigned = statement.prepare(&credential);
        let bytes = unsigned.finish(&key.sign(&unsigned.to_be_signed()));
        let (statement, signer) = self.admit(|admission| Ok(admission.closing(&bytes)?.0))?;
        let code =
            (bytes.len() <= Limits::CODE.bytes).then(|| CodeView::of(Kind::Closing, &bytes).ok()).flatten();
        let statement = view_of(&statement, &signer, Digest::of(&bytes), self.language());
        Ok(ClosingMade { text: wrap(Kind::Closing, &bytes), code, statement })
    }

    /// Takes in what a leader handed up; whether it is new here.
    pub(crate) fn receive_closing(&mut self, bytes: &[u8]) -> Result<(ClosingView, bool), AppError> {
        let ((statement, signer), new) = self.admit(|admission| admission.closing(bytes))?;
        Ok((view_of(&statement, &signer, Digest::of(bytes), self.language()), new))
    }
}
