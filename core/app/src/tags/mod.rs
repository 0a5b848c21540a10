//! Load tags: written from a plan, read back, shown.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::rigging as rig_words;
use slingseal_catalogue::tags as tag_words;
pub(crate) mod basis;
pub(crate) mod draft;
pub(crate) mod editor;
mod entries;
pub(crate) mod field;
pub(crate) mod form;
pub(crate) mod lift;
pub(crate) mod pieces;
pub(crate) mod rigging;
pub(crate) mod scales;
pub(crate) mod statics;
pub(crate) mod sticker;
pub(crate) mod view;
pub(crate) mod weighing;

use std::collections::BTreeSet;

use serde::Serialize;

use crate::account::strays::Origin;
use crate::{App, AppError, CodeView, Inner};
use slingseal_message::envelope::{Kind, Unsigned, unwrap};
use slingseal_message::tag::{Condition, ReceivedTag, Tag, kind_of_tag, read_list, read_plan};
use slingseal_message::trust::{Edition, Role, SecretKey};
use slingseal_store::TagRow;
use slingseal_walk::procedure::Procedure;
use slingseal_walk::walk::TagFault;
use slingseal_words::{LoadNumber, Saying, nearest};

use crate::tags::view::TagView;
use crate::trust::vault::DEVICE_VAULT;

/// A tag that was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TagMade {
    /// Its code.
    pub code: CodeView,
    /// What it says.
    pub tag: TagView,
}

impl App {
    /// Makes a tag of a plan. `open` gives the text of the rigging file that the plan names. With a PIN it is signed
    /// by this device's planner; without, it is marked unsigned.
    ///
    /// # Errors
    /// Every fault of the plan; a procedure that is not known; no planner's credential; a wrong PIN.
    pub fn write_tag(
        &self,
        plan: &str,
        open: &dyn Fn(&str) -> Result<String, String>,
        pin: Option<&str>,
    ) -> Result<TagMade, AppError> {
        let now = self.lock().now();
        let tag = read_plan(plan, now, open)?.tag;
        let made = self.make_tags(&[tag], pin)?;
        made.into_iter().next().ok_or_else(|| AppError::internal("one plan makes one tag"))
    }

    /// Makes the tags of a load list, CSV with a head line; `core/message/PLAN.md` names its columns. All of them, or none.
    ///
    /// # Errors
    /// Every fault of the list, with line and column; otherwise those of [`App::write_tag`].
    pub fn write_tags(
        &self,
        list: &str,
        open: &dyn Fn(&str) -> Result<String, String>,
        pin: Option<&str>,
    ) -> Result<Vec<TagMade>, AppError> {
        let now = self.lock().now();
        let tags = read_list(list, now, open)?;
        self.make_tags(&tags, pin)
    }

    /// Whether the tags of a load list can be made: see `write_tags`. `signed`: whether a PIN will be given.
    ///
    /// # Errors
    /// What `write_tags` would answer before its PIN.
    pub fn would_write_tags(
        &self,
        list: &str,
        open: &dyn Fn(&str) -> Result<String, String>,
        signed: bool,
    ) -> Result<(), AppError> {
        let now = self.lock().now();
        let tags = read_list(list, now, open)?;
        self.may_make(&tags, signed)
    }

    fn may_make(&self, tags: &[Tag], signed: bool) -> Result<(), AppError> {
        let inner = self.lock();
        inner.to_be_written(tags)?;
        if signed {
            inner.credential_for(Some(Role::Planner))?;
        }
        Ok(())
    }

    /// What can be told without the PIN is told first: it costs no try. The home is free while the PIN is stretched.
    fn make_tags(&self, tags: &[Tag], pin: Option<&str>) -> Result<Vec<TagMade>, AppError> {
        self.may_make(tags, pin.is_some())?;
        let key = pin.map(|pin| self.open_key(DEVICE_VAULT, pin)).transpose()?;
        self.lock().write_tags(tags, key.as_ref())
    }

    /// What a tag says.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn read_tag(&self, text: &str) -> Result<TagView, AppError> {
        self.lock().tag_view(&tag_bytes(text)?)
    }

    /// The tags that this device knows, the last received first; one that cannot be read any more is left out.
    ///
    /// # Errors
    /// Storage.
    pub fn tags(&self, most: u32) -> Result<Vec<TagView>, AppError> {
        let inner = self.lock();
        let mut rows = inner.store.read().tags()?;
        rows.sort_by(|a, b| b.received.cmp(&a.received).then(a.digest.cmp(&b.digest)));
        let most = usize::try_from(most).unwrap_or(usize::MAX);
        Ok(rows.iter().filter_map(|row| inner.tag_view(&row.bytes).ok()).take(most).collect())
    }
}

/// The bytes of a tag's text.
pub(crate) fn tag_bytes(text: &str) -> Result<Vec<u8>, AppError> {
    match unwrap(text)? {
        (kind @ (Kind::Tag | Kind::TagWithBasis), bytes) => {
            ReceivedTag::open_as(kind, &bytes)?;
            Ok(bytes)
        }
        (kind, _) => Err(AppError::bad_input(words::LoadTagScanTagLoad { kind: &kind })),
    }
}

impl Inner {
    /// The tags with the editions of their procedures, where each names one that is known and no piece that its load overloads.
    fn to_be_written(&self, tags: &[Tag]) -> Result<Vec<Tag>, AppError> {
        let mut tags = tags.to_vec();
        let several = tags.len() > 1;
        for tag in &mut tags {
            let procedure = self.procedure(&tag.procedure).map_err(|error| match several {
                false => error,
                true => AppError::not_found(words::OfLoad { load: &tag.load, error: &error }),
            })?;
            known_conditions(tag, &procedure)?;
            tag.basis.edition =
                Some(Edition::of(procedure.id().clone(), procedure.version(), procedure.digest()));
            // A piece out of service: NO-GO at the hook, told where another one can still be taken.
            if let Some(TagFault::Rejected { serial, why, at }) =
                self.rejected_on(tag)?.into_iter().find(|fault| matches!(fault, TagFault::Rejected { .. }))
            {
                return Err(AppError::refused(words::PieceWithdrawnAtPlanning {
                    load: &tag.load,
                    serial,
                    at: at.dtg(),
                    why,
                }));
            }
            // The hook would say NO-GO: told where another piece can still be taken. What is overdue is a warning on the tag.
            if let Some(piece) = tag.equipment.iter().find(|piece| piece.overloaded(tag.gross)) {
                let rating = piece.rating.as_ref().map(|rating| rating.value.to_string()).unwrap_or_default();
                return Err(AppError::refused(words::LoadRatedLoadWeighsTake {
                    load: &tag.load,
                    kind: &piece.kind,
                    serial: &piece.serial,
                    rating: &rating,
                    gross: &tag.gross,
                }));
            }
        }
        Ok(tags)
    }

    /// Makes tags, each signed where there is a key; nothing is kept before all of them are made. Everything is judged again: time
    /// passed while the PIN was stretched.
    fn write_tags(&mut self, tags: &[Tag], key: Option<&SecretKey>) -> Result<Vec<TagMade>, AppError> {
        let tags = self.to_be_written(tags)?;
        let signing = match key {
            None => None,
            Some(key) => Some((self.credential_for(Some(Role::Planner))?.1, key)),
        };
        let mut messages = Vec::new();
        for tag in &tags {
            let content = tag.content();
            let claims = tag.claims(&content);
            let bytes = match &signing {
                None => claims.to_bytes(),
                Some((credential, key)) => {
                    let unsigned = Unsigned::prepare(tag.kind(), credential, &claims);
                    unsigned.finish(&key.sign(&unsigned.to_be_signed()))
                }
            };
            // Reads its own writing back: a tag that this program would refuse must not reach a load.
            ReceivedTag::open(&bytes)?;
            messages.push((tag, CodeView::of(tag.kind(), &bytes)?, bytes));
        }
        self.admit(|admission| {
            for (tag, _, bytes) in &messages {
                let word = admission.open(tag.kind(), bytes)?;
                admission.tag(&word, true, Origin::Here)?;
            }
            Ok(())
        })?;
        let made = messages.into_iter();
        made.map(|(_, code, bytes)| Ok(TagMade { code, tag: self.tag_view(&bytes)? })).collect()
    }

    /// Keeps a tag that the person at this device works by.
    pub(crate) fn keep_tag(&mut self, bytes: &[u8]) -> Result<(), AppError> {
        self.admit(|admission| {
            let word = admission.open(kind_of_tag(bytes), bytes)?;
            admission.tag(&word, false, Origin::Here)?;
            Ok(())
        })
    }

    /// Every tag known of a load.
    pub(crate) fn tags_of(&self, load: &LoadNumber) -> Result<Vec<TagRow>, AppError> {
        Ok(self.store.read().tags_of(load.as_str())?)
    }
}

/// The condition under which the points of a load on two hooks count.
const TWO_HOOKS: &str = "two-hooks";

/// The conditions that a plan names must be the procedure's: one that it does not know would count nothing, silently.
fn known_conditions(tag: &Tag, procedure: &Procedure) -> Result<(), AppError> {
    let known = procedure.conditions();
    let two_hooks = tag.rigging.as_ref().is_some_and(|load| load.hooks.len() > 1);
    let left_out = |set: &BTreeSet<Condition>| set.iter().all(|condition| condition.as_str() != TWO_HOOKS);
    if two_hooks && known.contains(TWO_HOOKS) && tag.basis.conditions.as_ref().is_some_and(left_out) {
        let condition = TWO_HOOKS;
        return Err(AppError::bad_input(rig_words::TwoHooksLeftOut { load: &tag.load, condition }));
    }
    let named = tag.basis.conditions.iter().flatten();
    let Some(unknown) = named.map(Condition::as_str).find(|name| !known.contains(name)) else {
        return Ok(());
    };
    let list = known.iter().copied().collect::<Vec<_>>().join(", ");
    let mend: Saying = match nearest(unknown, &known) {
        Some(near) => tag_words::DidYouMean { near }.into(),
        None if known.is_empty() => tag_words::NoConditionsLeaveOut.into(),
        None => tag_words::ConditionsAre { list }.into(),
    };
    let (load, id) = (&tag.load, procedure.id());
    Err(AppError::bad_input(words::LoadWhenProcedureNoCondition {
        load: &load,
        id: &id,
        unknown: &unknown,
        mend: &mend,
    }))
}
