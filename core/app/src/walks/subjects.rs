//! Inspections of what is no load: a piece of gear by its serial number, an aircraft's hooks, a zone, a hookup, a derigging.
//! They have no tag. They are walked and journalled as a load's and kept when they are decided; the inspector then signs them.

use slingseal_catalogue::refusals as words;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::walks::entries::{SUBJECT, apply, id_text, walk_id};
use crate::walks::record::subject_of_kind;
use crate::{App, AppError, InHand, Inner, Stamp, WalkView};
use slingseal_journal::{NewEntry, WalkId};
use slingseal_judgement::same_serial;
use slingseal_message::envelope::{Limits, Reader, Writer, check};
use slingseal_message::tag::Tag;
use slingseal_walk::procedure::Subject;
use slingseal_walk::walk::{Command, EquipmentFact, Ground, LoadFacts, Outcome, Stage, TagFault, Walk};
use slingseal_words::{CallSign, Digest, LineError, LoadNumber, Name, ProcedureId, Saying, Serial, Time};

/// The setting that keeps the list of what was decided.
pub(crate) const KEPT: &str = "kept-inspections";

/// An inspection of what is no load, as it was decided.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct KeptInspection {
    /// What the inspection goes by on this device; empty where it was made on another.
    pub walk: String,
    /// What was inspected.
    #[serde(serialize_with = "crate::view::word")]
    pub subject: Subject,
    /// Serial number, aircraft, zone or load number.
    pub name: String,
    /// The procedure's id.
    pub procedure: String,
    /// Its edition.
    pub version: u32,
    /// Who inspected.
    pub inspector: String,
    /// Whether it was found fit.
    pub fit: bool,
    /// When it was decided.
    pub at: Stamp,
    /// Until when a piece is fit; none for anything else.
    pub fit_until: Option<Stamp>,
    /// What the inspector's signed word goes by; none where it is not signed, and then nobody else hears of it.
    pub signed: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Kept {
    walk: String,
    subject: KeptSubject,
    name: String,
    procedure: String,
    version: u32,
    inspector: String,
    fit: bool,
    at: i64,
    fit_until: Option<i64>,
}

/// A subject as the list keeps it: by its word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String")]
struct KeptSubject(#[serde(serialize_with = "crate::view::word")] Subject);

impl TryFrom<String> for KeptSubject {
    type Error = String;

    fn try_from(word: String) -> Result<Self, String> {
        Subject::of_word(&word).map(Self).ok_or_else(|| format!("\"{word}\" is no subject of an inspection"))
    }
}

/// What is inspected, in a few words.
pub(crate) fn subject_words(subject: Subject) -> Saying {
    match subject {
        Subject::Load => words::SubjectLoad.into(),
        Subject::Piece => words::SubjectPiece.into(),
        Subject::Aircraft => words::SubjectAircraft.into(),
        Subject::Zone => words::SubjectZone.into(),
        Subject::Handling => words::SubjectHandling.into(),
    }
}

impl App {
    /// Begins an inspection of what is no load, or goes on with the one in hand: `name` is the piece's serial number, the
    /// aircraft, the zone, or the load number.
    ///
    /// # Errors
    /// A procedure that is not known or that inspects a load; a name that cannot stand; no holder's name on this device.
    pub fn begin_inspection(&self, procedure: &str, name: &str) -> Result<WalkView, AppError> {
        self.lock().begin_subject(&ProcedureId::new(procedure)?, name)
    }

    /// What was inspected and is no load, the newest first: decided on this device, or signed and heard of.
    ///
    /// # Errors
    /// Storage.
    pub fn kept_inspections(&self) -> Result<Vec<KeptInspection>, AppError> {
        let inner = self.lock();
        let stamp = |at: i64| Stamp::from(Time::from_unix(at));
        let mut signed_here = std::collections::BTreeSet::new();
        let mut all = Vec::new();
        for one in inner.kept()? {
            let signed = inner.signed_word(walk_id(&one.walk)?)?;
            signed_here.extend(signed);
            all.push((one, signed));
        }
        let view = |(one, signed): (Kept, Option<Digest>)| KeptInspection {
            signed: signed.map(|digest| digest.to_string()),
            walk: one.walk,
            subject: one.subject.0,
            name: one.name,
            procedure: one.procedure,
            version: one.version,
            inspector: one.inspector,
            fit: one.fit,
            at: stamp(one.at),
            fit_until: one.fit_until.map(stamp),
        };
        let elsewhere = inner.store.read().inspections()?.into_iter();
        let elsewhere =
            elsewhere.filter(|row| !signed_here.contains(&row.digest)).map(|row| KeptInspection {
                walk: String::new(),
                subject: subject_of_kind(row.subject),
                name: row.name,
                procedure: row.procedure,
                version: row.version,
                inspector: row.inspector,
                fit: row.fit,
                at: row.issued.into(),
                fit_until: row.fit_until.map(Stamp::from),
                signed: Some(row.digest.to_string()),
            });
        let mut all: Vec<KeptInspection> = all.into_iter().map(view).chain(elsewhere).collect();
        all.sort_by(|a, b| b.at.unix.cmp(&a.at.unix).then(a.name.cmp(&b.name)));
        Ok(all)
    }
}

impl Inner {
    fn begin_subject(&mut self, procedure: &ProcedureId, name: &str) -> Result<WalkView, AppError> {
        let text = self.procedure_text(procedure)?;
        let checked = slingseal_walk::procedure::check(&text)?;
        if checked.subject() == Subject::Load {
            return Err(AppError::refused(words::ProcedureInspectsLoadBeginLoad { procedure: &procedure }));
        }
        let name = name_of(checked.subject(), name)?;
        for row in self.store.read().walks_in_hand()? {
            if same_serial(&row.load, name.as_str()) && row.procedure == procedure.as_str() {
                let state = self.walk_of(row.id)?;
                return self.walk_view(row.id, &state, None);
            }
        }
        let inspector = self.inspector()?;
        let mut out = Writer::new();
        out.array(4).text(checked.subject().word()).text(name.as_str());
        out.bytes(checked.digest().as_bytes()).text(inspector.as_str());
        let body = out.into_bytes();
        let facts = subject_facts(checked.subject(), &name, procedure, &body)?;
        let ground = Ground { plan: Arc::new(self.told(&checked)?), facts, inspector };
        let mut id = [0; 16];
        self.outside.entropy.fill(&mut id);
        let id = WalkId(id);
        let now = self.now();
        let mut walk = Walk::new(Arc::new(ground));
        let events =
            walk.decide(Command::Begin, now).map_err(|refusal| AppError::refused(refusal.to_string()))?;
        apply(&mut walk, &events)?;
        let subject = NewEntry { kind: SUBJECT, walk: Some(id), body: &body, time: now };
        self.keep_begun(id, subject, &text, &events, InHand { walk, rigging: None })
    }

    /// What an inspection without a tag stands on.
    pub(crate) fn subject_ground(&self, body: &[u8]) -> Result<Ground, AppError> {
        check(body, Limits::FILE)?;
        let mut reader = Reader::new(body);
        reader.array(4, "subject of an inspection")?;
        let word = reader.text("subject")?;
        let subject = Subject::of_word(word).filter(|subject| *subject != Subject::Load);
        let subject =
            subject.ok_or_else(|| AppError::StorageDamaged { message: words::SubjectOfNewerKind.into() })?;
        let name = reader.line("name", Serial::received)?;
        let digest = Digest::from_bytes(reader.fixed("procedure")?);
        let inspector = reader.line("inspector", CallSign::new)?;
        let plan = self.procedure_of_digest(&digest, self.language())?;
        let facts = subject_facts(subject, &name, &plan.id.clone(), body)?;
        Ok(Ground { plan: Arc::new(plan), facts, inspector })
    }

    fn kept(&self) -> Result<Vec<Kept>, AppError> {
        let Some(bytes) = self.store.read().setting(KEPT)? else { return Ok(Vec::new()) };
        serde_json::from_slice(&bytes).map_err(|error| AppError::StorageDamaged {
            message: words::ListOfInspectionsDamaged { error: error.to_string() }.into(),
        })
    }

    /// The list as this inspection leaves it, where it changes.
    pub(crate) fn kept_since(&self, id: WalkId, walk: &Walk) -> Result<Option<Vec<u8>>, AppError> {
        let ground = walk.ground();
        if ground.plan.subject == Subject::Load {
            return Ok(None);
        }
        let before = self.kept()?;
        let own = id_text(id);
        let mut list = before.clone();
        list.retain(|one| one.walk != own);
        if let Stage::Decided { outcome, at, .. } = walk.stage() {
            let fit = *outcome == Outcome::Fit;
            list.push(Kept {
                walk: own,
                subject: KeptSubject(ground.plan.subject),
                name: ground.facts.load.to_string(),
                procedure: ground.plan.id.to_string(),
                version: ground.plan.version,
                inspector: ground.inspector.to_string(),
                fit,
                at: at.unix(),
                fit_until: walk.fit_for().filter(|_| fit).map(|time| at.plus(time).unix()),
            });
        }
        if list == before {
            return Ok(None);
        }
        serde_json::to_vec(&list).map(Some).map_err(AppError::internal)
    }

    /// The pieces on a tag whose last inspection on this device holds no longer.
    pub(crate) fn overdue_on(&self, tag: &Tag) -> Result<Vec<TagFault>, AppError> {
        let (kept, now) = (self.kept()?, self.now());
        let overdue = tag.equipment.iter().filter_map(|piece| {
            let of_piece = |one: &&Kept| {
                one.subject.0 == Subject::Piece && same_serial(&one.name, piece.serial.as_str())
            };
            let due = Time::from_unix(kept.iter().rev().find(of_piece)?.fit_until?);
            let (serial, kind) = (piece.serial.clone(), piece.kind.clone());
            (due < now).then_some(TagFault::InspectionPast { serial, kind, due })
        });
        Ok(overdue.collect())
    }
}

/// What an inspection goes by, as its signed word has it: of what is done with a load the load's number, else any serial number's
/// line. The only place that says which names can stand.
fn name_of(subject: Subject, text: &str) -> Result<Serial, LineError> {
    match subject {
        Subject::Load | Subject::Handling => Ok(Serial::from(&LoadNumber::new(text)?)),
        Subject::Piece | Subject::Aircraft | Subject::Zone => Serial::new(text),
    }
}

fn subject_facts(
    subject: Subject,
    name: &Serial,
    procedure: &ProcedureId,
    body: &[u8],
) -> Result<LoadFacts, AppError> {
    // The piece itself is the only equipment: what is read off its plate is held against the name it was begun by.
    let equipment = match subject {
        Subject::Piece => vec![EquipmentFact {
            serial: name.clone(),
            kind: Name::new("piece")?,
            rating: None,
            source: None,
            good_until: None,
        }],
        _ => Vec::new(),
    };
    Ok(LoadFacts {
        load: name.clone(),
        tag: Digest::of(body),
        procedure: procedure.clone(),
        rigger: None,
        gross: None,
        allowable: None,
        equipment,
        links: std::collections::BTreeMap::new(),
        conditions: None,
    })
}
