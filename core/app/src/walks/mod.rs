//! The walk as a shell drives it: begin, answer, decide. Each request is journalled before its view comes back.

pub(crate) mod drawing;
pub(crate) mod entries;
pub(crate) mod full_record;
pub(crate) mod inspections;
pub(crate) mod record;
pub(crate) mod request;
pub(crate) mod rigged;
pub(crate) mod sealing;
pub(crate) mod sound;
pub(crate) mod start;
pub(crate) mod subjects;
pub(crate) mod told;
pub(crate) mod view;
mod viewed;

use slingseal_catalogue::refusals as words;

use std::sync::Arc;

use crate::procedures::keep_own_text;
use crate::tags::pieces::REJECTED;
use crate::tags::statics::{summary, summary_once_kept};
use crate::tags::tag_bytes;
use crate::walks::entries::{EVENT, GROUND, SUBJECT, apply, bodies, events, ground_parts, walk_id};
use crate::walks::request::{WalkRequest, command};
use crate::walks::subjects::{KEPT, subject_words};
use crate::walks::view::WalkView;
use crate::{App, AppError, InHand, Inner};
use slingseal_journal::{Entry, NewEntry, WalkId};
use slingseal_message::envelope::Writer;
use slingseal_message::tag::{ReceivedTag, Tag};
use slingseal_message::trust::Role;
use slingseal_rigging::{self as rigging, RiggedLoad, SeatedLink};
use slingseal_store::{WalkRow, WalkState};
use slingseal_walk::procedure::{Expected, Kind, Point, Subject};
use slingseal_walk::walk::{Command, Event, Ground, LoadFacts, Refusal, RiggingFinding, Stage, Value, Walk};
use slingseal_words::{CallSign, Digest, Name, Note, Saying};

impl App {
    /// Begins the walk of a tag, or goes on with the one in hand.
    ///
    /// # Errors
    /// A text that is no tag; a procedure that is not known; no holder's name on this device.
    pub fn begin_walk(&self, tag: &str) -> Result<WalkView, AppError> {
        self.lock().begin(&tag_bytes(tag)?)
    }

    /// A walk as it stands.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk(&self, walk: &str) -> Result<WalkView, AppError> {
        let mut inner = self.lock();
        let id = walk_id(walk)?;
        let state = inner.walk_of(id)?;
        inner.walk_view(id, &state, None)
    }

    /// Does what a person did. A refusal stands in the view; nothing of it is kept.
    ///
    /// # Errors
    /// No such walk; a value that cannot be read; storage.
    pub fn do_walk(&self, walk: &str, request: &WalkRequest) -> Result<WalkView, AppError> {
        let mut inner = self.lock();
        let id = walk_id(walk)?;
        let state = inner.walk_of(id)?;
        let command = command(request, &state)?;
        let closed = inner.store.read().walk(id)?.is_some_and(|row| row.state == WalkState::Sealed);
        // What is no load has no seal: until its signature its decision can be taken back.
        let of_load = state.ground().plan.subject == Subject::Load;
        if closed && (of_load || inner.signed_word(id)?.is_some()) {
            return Err(AppError::refused(words::WalkSealedAlreadyTakeSeal));
        }
        let refusal = inner.perform(id, command)?;
        let state = inner.walk_of(id)?;
        let refused = refusal.map(|refusal| inner.shown_refusal(id, &state, refusal)).transpose()?;
        inner.walk_view(id, &state, refused)
    }

    /// Takes in a photograph (PNG or JPEG, up to 16 MiB) and gives the digest that a finding names it by.
    ///
    /// # Errors
    /// Another kind of file; storage.
    pub fn add_photo(&self, bytes: &[u8]) -> Result<String, AppError> {
        photograph(bytes)?;
        let mut inner = self.lock();
        let now = inner.now();
        let digest = inner.store.write(|tx| -> Result<Digest, AppError> {
            let digest = tx.put_photo(bytes, now)?;
            tx.remove_stray(digest)?;
            Ok(digest)
        })?;
        Ok(digest.to_string())
    }
}

/// Holds that bytes are a photograph.
///
/// # Errors
/// Another kind of file, or a longer one.
pub(crate) fn photograph(bytes: &[u8]) -> Result<(), AppError> {
    let picture = bytes.starts_with(&[0xff, 0xd8, 0xff]) || bytes.starts_with(b"\x89PNG\r\n\x1a\n");
    if picture && bytes.len() <= 16 << 20 {
        return Ok(());
    }
    Err(AppError::bad_input(words::JpegPngBelowMibTake))
}

impl Inner {
    fn begin(&mut self, bytes: &[u8]) -> Result<WalkView, AppError> {
        let received = ReceivedTag::open(bytes)?;
        let tag = received.tag;
        self.keep_tag(bytes)?;
        for row in self.store.read().walks_in_hand()? {
            if row.load == tag.load.as_str() {
                let state = self.walk_of(row.id)?;
                if state.ground().facts.tag == received.digest {
                    return self.walk_view(row.id, &state, None);
                }
            }
        }
        let inspector = self.inspector()?;
        let text = self.text_ordered(&tag)?;
        let procedure = slingseal_walk::procedure::check(&text)?;
        if procedure.subject() != Subject::Load {
            return Err(AppError::refused(words::ProcedureInspectsLoadButMake {
                id: procedure.id(),
                subject_words: subject_words(procedure.subject()),
            }));
        }
        let ground = Ground {
            plan: Arc::new(self.told(&procedure)?),
            facts: LoadFacts::of(&tag, received.digest),
            inspector: inspector.clone(),
        };
        let mut id = [0; 16];
        self.outside.entropy.fill(&mut id);
        let id = WalkId(id);
        let mut out = Writer::new();
        out.array(3).bytes(bytes).bytes(procedure.digest().as_bytes()).text(inspector.as_str());
        let body = out.into_bytes();
        let now = self.now();
        let mut walk = Walk::new(Arc::new(ground));
        let mut events = match walk.decide(Command::Begin, now) {
            Ok(events) => events,
            Err(refusal) => return Err(AppError::refused(refusal.to_string())),
        };
        apply(&mut walk, &events)?;
        for fault in self.rejected_on(&tag)? {
            if let Ok(more) = walk.decide(Command::KnowFault { fault }, now) {
                apply(&mut walk, &more)?;
                events.extend(more);
            }
        }
        if let Some(rigging) = &tag.rigging {
            let finding = rigging_finding(rigging);
            if let Ok(more) = walk.decide(Command::AssessRigging { finding }, now) {
                apply(&mut walk, &more)?;
                events.extend(more);
            }
        }
        let ground = NewEntry { kind: GROUND, walk: Some(id), body: &body, time: now };
        self.keep_begun(id, ground, &text, &events, InHand { walk, rigging: tag.rigging })
    }

    /// Keeps a walk that has just begun, in one transaction: the entry that says what it stands on, its procedure's text and its
    /// first events.
    fn keep_begun(
        &mut self,
        id: WalkId,
        stands_on: NewEntry<'_>,
        text: &str,
        events: &[Event],
        begun: InHand,
    ) -> Result<WalkView, AppError> {
        let now = stands_on.time;
        let row = row(id, &begun.walk, now);
        let bodies = bodies(events)?;
        let mut entries = vec![stands_on];
        entries.extend(bodies.iter().map(|body| NewEntry { kind: EVENT, walk: Some(id), body, time: now }));
        self.store.write(|tx| -> Result<(), AppError> {
            keep_own_text(tx, text)?;
            tx.append_many(&entries)?;
            tx.put_walk(&row)?;
            Ok(())
        })?;
        let view = self.walk_view(id, &begun.walk, None);
        self.walks.insert(id, begun);
        view
    }

    /// Who walks: the credential's holder, or the device's before it has one.
    pub(crate) fn inspector(&self) -> Result<CallSign, AppError> {
        let trusted = self.trusted()?;
        self.refuse_revoked(&trusted)?;
        let own = self.own_credential(&trusted, Some(Role::Inspector))?;
        if let Some((signer, _)) = own {
            return Ok(signer.credential.holder);
        }
        self.holder()?.ok_or_else(|| AppError::refused(words::DeviceDoesKnowWhoseMake))
    }

    /// The walk, from memory or folded from the journal.
    pub(crate) fn walk_of(&mut self, id: WalkId) -> Result<Walk, AppError> {
        if let Some(known) = self.walks.get(&id) {
            return Ok(known.walk.clone());
        }
        let entries = self.store.read().entries_of(id)?;
        let walk = match entries.iter().find(|entry| entry.kind == SUBJECT) {
            Some(subject) => self.fold_on(self.subject_ground(&subject.body)?, &entries)?,
            None => self.fold(&entries)?,
        };
        let rigging = self.tag_of_walk(id)?.and_then(|tag| tag.rigging);
        self.walks.insert(id, InHand { walk: walk.clone(), rigging });
        Ok(walk)
    }

    /// A walk from its journal entries.
    pub(crate) fn fold(&self, entries: &[Entry]) -> Result<Walk, AppError> {
        let ground = entries.iter().find(|entry| entry.kind == GROUND);
        let ground = ground.ok_or_else(|| AppError::not_found(words::NoWalkSeeLoadsInHand))?;
        self.fold_on(self.ground(&ground.body)?, entries)
    }

    fn fold_on(&self, ground: Ground, entries: &[Entry]) -> Result<Walk, AppError> {
        let events =
            events(entries.iter().filter(|entry| entry.kind == EVENT).map(|entry| entry.body.as_slice()))?;
        Walk::fold(Arc::new(ground), &events)
            .map_err(|error| AppError::StorageDamaged { message: error.saying() })
    }

    pub(crate) fn ground(&self, body: &[u8]) -> Result<Ground, AppError> {
        let (bytes, digest, inspector) = ground_parts(body)?;
        let received = ReceivedTag::open(bytes)?;
        Ok(Ground {
            plan: Arc::new(self.procedure_of_digest(&digest, self.language())?),
            facts: LoadFacts::of(&received.tag, received.digest),
            inspector,
        })
    }

    /// Performs a command: the refusal, if there is one; otherwise everything is on disk.
    pub(crate) fn perform(&mut self, id: WalkId, command: Command) -> Result<Option<Refusal>, AppError> {
        let mut walk = self.walk_of(id)?;
        let now = self.now();
        let mut events = match walk.decide(command, now) {
            Ok(events) => events,
            Err(refusal) => return Ok(Some(refusal)),
        };
        let counted = counted_links(&walk);
        apply(&mut walk, &events)?;
        // A counted link that differs from the plan changes how the load hangs: the statics follow the count.
        if counted != counted_links(&walk)
            && let Some(finding) = self.counted_rigging(id, &walk)?
            && walk.rigging() != Some(&finding)
            && let Ok(more) = walk.decide(Command::AssessRigging { finding }, now)
        {
            apply(&mut walk, &more)?;
            events.extend(more);
        }
        let row = WalkRow { begun: walk.began().unwrap_or(now), ..row(id, &walk, now) };
        let bodies = bodies(&events)?;
        let entries: Vec<NewEntry<'_>> =
            bodies.iter().map(|body| NewEntry { kind: EVENT, walk: Some(id), body, time: now }).collect();
        let rejected = self.rejected_since(id, &walk)?;
        let kept = self.kept_since(id, &walk)?;
        self.store.write(|tx| -> Result<(), AppError> {
            tx.append_many(&entries)?;
            tx.put_walk(&row)?;
            if let Some(list) = &rejected {
                tx.put_setting(REJECTED, list)?;
            }
            if let Some(list) = &kept {
                tx.put_setting(KEPT, list)?;
            }
            Ok(())
        })?;
        if let Some(known) = self.walks.get_mut(&id) {
            known.walk = walk;
        }
        Ok(None)
    }

    /// The statics with the links as they were counted, where the walk may still change and counts links.
    fn counted_rigging(&self, id: WalkId, walk: &Walk) -> Result<Option<RiggingFinding>, AppError> {
        if *walk.stage() != Stage::Walking || walk.rigging().is_none() {
            return Ok(None);
        }
        Ok(self.rigging_as_counted(id, walk)?.map(|rigging| rigging_finding(&rigging)))
    }

    /// The rigging of a walk's tag with the links as they were counted.
    pub(crate) fn rigging_as_counted(&self, id: WalkId, walk: &Walk) -> Result<Option<RiggedLoad>, AppError> {
        let Some(rigging) = self.planned_rigging(id)? else { return Ok(None) };
        let counted = counted_links(walk);
        Ok(Some(rigging.with_links(&counted).unwrap_or(rigging)))
    }

    /// The rigging that a walk's tag plans.
    pub(crate) fn planned_rigging(&self, id: WalkId) -> Result<Option<RiggedLoad>, AppError> {
        match self.walks.get(&id) {
            Some(known) => Ok(known.rigging.clone()),
            None => Ok(self.tag_of_walk(id)?.and_then(|tag| tag.rigging)),
        }
    }

    fn tag_of_walk(&self, id: WalkId) -> Result<Option<Tag>, AppError> {
        let entries = self.store.read().entries_of(id)?;
        let Some(ground) = entries.iter().find(|entry| entry.kind == GROUND) else { return Ok(None) };
        let (bytes, ..) = ground_parts(&ground.body)?;
        Ok(Some(ReceivedTag::open(bytes)?.tag))
    }
}

pub(crate) fn row(id: WalkId, walk: &Walk, now: slingseal_words::Time) -> WalkRow {
    let ground = walk.ground();
    WalkRow {
        id,
        load: ground.facts.load.to_string(),
        procedure: ground.plan.id.to_string(),
        inspector: ground.inspector.to_string(),
        state: match walk.stage() {
            Stage::Ready | Stage::Walking => WalkState::Open,
            Stage::Paused { .. } => WalkState::Paused,
            // Only a load's is sealed: any other is kept as it is decided.
            Stage::Decided { .. } if ground.plan.subject != Subject::Load => WalkState::Sealed,
            Stage::Decided { .. } => WalkState::Decided,
            Stage::Abandoned { .. } => WalkState::Abandoned,
        },
        begun: walk.began().unwrap_or(now),
        updated: now,
    }
}

pub(crate) fn rigging_finding(load: &RiggedLoad) -> RiggingFinding {
    let assessment = rigging::assess(load);
    finding_of(&assessment, &summary(load, &assessment))
}

pub(crate) fn finding_of(assessment: &rigging::Assessment, summary: &Saying) -> RiggingFinding {
    let whole = summary.to_string();
    // Cut only where it must be: half a sentence about a leg misleads.
    let line: String =
        if whole.len() <= Note::MOST { whole } else { whole.chars().take(Note::MOST / 4).collect() };
    let plain = || Note::new("see the statics").expect("a short line is a note");
    RiggingFinding {
        within_limits: assessment.verdict == rigging::Verdict::WithinLimits,
        summary: Note::new(&line).unwrap_or_else(|_| plain()),
    }
}

/// What was found of a rigging, in no language yet where it is what the statics of one of these loads say.
pub(crate) fn finding_said(finding: &RiggingFinding, loads: &[RiggedLoad]) -> Saying {
    let known = loads.iter().find_map(|load| {
        let assessment = rigging::assess(load);
        let now = summary(load, &assessment);
        let kept = [&now, &summary_once_kept(load, &assessment)];
        kept.iter().any(|kept| finding_of(&assessment, kept) == *finding).then_some(now)
    });
    known.unwrap_or_else(|| finding.summary.to_string().into())
}

/// The links that were counted, by leg, where they are a number of the tag's.
pub(crate) fn counted_links(walk: &Walk) -> Vec<SeatedLink> {
    let mut links = Vec::new();
    for point in walk.ground().plan.cards.iter().flat_map(|card| &card.points) {
        let Kind::Count(Expected::LinksOfLeg(leg)) = &point.kind else { continue };
        let Some(count) = counted(walk, point) else { continue };
        if let (Ok(leg), Ok(link)) = (Name::new(leg), u16::try_from(count)) {
            links.push(SeatedLink { leg, link });
        }
    }
    links
}

/// The last count of a point: of its open finding, or of its answer.
fn counted(walk: &Walk, point: &Point) -> Option<u32> {
    use slingseal_walk::walk::{FindingState, PointStatus};
    let value = match walk.point_status(&point.id) {
        PointStatus::Good(answer) => answer.value,
        PointStatus::Deficient(number) | PointStatus::AwaitsSecondLook(number) => {
            let finding = walk.finding(number)?;
            (finding.state != FindingState::Closed).then(|| finding.value.clone())?
        }
        PointStatus::Unanswered => None,
    };
    match value {
        Some(Value::Count(count)) => Some(count),
        _ => None,
    }
}
