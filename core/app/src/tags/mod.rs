//! Load tags: written from a plan, read back, shown.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::rigging as rig_words;
use slingseal_catalogue::tags as tag_words;
pub(crate) mod basis;
pub(crate) mod draft;
pub(crate) mod editor;
pub(crate) mod field;
pub(crate) mod form;
pub(crate) mod lift;
pub(crate) mod pieces;
pub(crate) mod scales;
pub(crate) mod statics;
pub(crate) mod sticker;
pub(crate) mod weighing;

use std::collections::BTreeSet;

use serde::Serialize;

use crate::account::strays::Origin;
use crate::{App, AppError, CodeView, Inner, Stamp};
use slingseal_judgement::{Author, LoadWord, TagSignature};
use slingseal_message::envelope::{Kind, Unsigned, unwrap};
use slingseal_message::tag::{
    Condition, Equipment, ReceivedTag, Tag, Zone, kind_of_tag, read_list, read_plan,
};
use slingseal_message::trust::{Edition, Role, SecretKey, Signer, Trusted};
use slingseal_store::TagRow;
use slingseal_walk::procedure::Procedure;
use slingseal_walk::walk::TagFault;
use slingseal_words::{Language, LoadNumber, Saying, nearest};

use crate::tags::basis::{BasisView, basis_view};
use crate::trust::vault::DEVICE_VAULT;

/// A tag, ready to draw.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TagView {
    /// The text of its code.
    pub text: String,
    /// SHA-256 of its bytes.
    pub digest: String,
    /// Its check word, to be compared by voice: `482 019 553`.
    pub check: String,
    /// The load number.
    pub load: String,
    /// When it was planned.
    pub planned: Stamp,
    /// What the load is.
    pub description: String,
    /// The procedure's id.
    pub procedure: String,
    /// The procedure's title, where it is known here.
    pub procedure_title: Option<String>,
    /// Gross mass, as planned.
    pub gross: String,
    /// The aircraft's type.
    pub aircraft: String,
    /// Its allowable load.
    pub allowable: String,
    /// Where it is picked up.
    pub pickup: ZoneView,
    /// Where it goes.
    pub destination: ZoneView,
    /// Who rigged it.
    pub rigger: Option<String>,
    /// Its equipment.
    pub equipment: Vec<EquipmentView>,
    /// The link in each chain leg's grab hook.
    pub links: Vec<LinkView>,
    /// The statics, where it carries its rigging.
    pub rigging: Option<RiggingView>,
    /// What it was planned and rigged by.
    pub basis: BasisView,
    /// Who planned it, where a trusted planner signed it.
    pub planner: Option<String>,
    /// `signed`, `unsigned`, `unknown` (signed by someone not trusted here as a planner) or `forged`.
    pub signature: String,
    /// What is wrong with it on its own showing, in plain words.
    pub warnings: Vec<String>,
    /// Bytes of the message.
    pub bytes: u32,
}

/// A zone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ZoneView {
    /// What it goes by.
    pub name: String,
    /// Its grid reference, spaced to be read aloud.
    pub grid: Option<String>,
}

/// A piece of equipment.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EquipmentView {
    /// What it is.
    pub kind: String,
    /// Its serial number.
    pub serial: String,
    /// What it may carry.
    pub rating: Option<String>,
    /// Where that comes from.
    pub source: Option<String>,
    /// The day its next inspection is due.
    pub next_inspection: Option<String>,
    /// Whether that day is past.
    pub overdue: bool,
    /// Whether the load weighs more than it may carry.
    pub overloaded: bool,
}

/// The link that the plan wants.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LinkView {
    /// The leg.
    pub leg: String,
    /// The link.
    pub link: u16,
}

/// The statics of a rigged load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RiggingView {
    /// `within_limits`, `over_limit` or `infeasible`.
    pub verdict: String,
    /// The same, with `at_rest_only` for a load that is within limits at rest and not otherwise.
    pub state: String,
    /// What it is over by, though not at rest, in a sentence.
    pub beyond: Option<String>,
    /// What governs, in one line.
    pub summary: String,
    /// The whole report, as sentences.
    pub report: String,
    /// Nose up is positive, degrees.
    pub pitch_deg: Option<f64>,
    /// Left side up is positive, degrees.
    pub roll_deg: Option<f64>,
    /// The governing part's utilisation; 1 is all of it.
    pub utilisation: Option<f64>,
    /// Side, front and top view.
    #[serde(skip)]
    pub picture_svg: Option<String>,
    /// What riggers and aircrew want on paper.
    #[serde(skip)]
    pub paper: RiggingPaper,
}

/// A rigging as riggers and aircrew want it on paper.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RiggingPaper {
    /// The state in capitals, in the reader's language.
    pub state: String,
    /// How it hangs, in the reader's language.
    pub attitude: String,
    /// The mass.
    pub mass: String,
    /// The centre of gravity: forward, left, up.
    pub centre: Vec<String>,
    /// Each leg, in the order of the plan.
    pub legs: Vec<RiggingLeg>,
    /// Each rated part, the governing one first.
    pub parts: Vec<RiggingPart>,
    /// Each hook of the aircraft with what it carries.
    pub hooks: Vec<RiggingHook>,
}

/// A hook of the aircraft on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingHook {
    /// What the aircrew calls it.
    pub hook: String,
    /// What it carries.
    pub carries: String,
}

/// A leg on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingLeg {
    /// What it goes by.
    pub leg: String,
    /// The aircraft's hook.
    pub hook: String,
    /// The lift point: forward, left, up.
    pub point: Vec<String>,
    /// Its rope, or its whole length; empty where it is a chain alone.
    pub rope: String,
    /// The link in the grab hook, counted from the free end; none without a chain.
    pub link: Option<u16>,
    /// How many links the chain has.
    pub links: Option<u16>,
    /// What it carries at rest.
    pub carries: String,
    /// Of its rating.
    pub share: String,
}

/// A rated part on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RiggingPart {
    /// What it is.
    pub part: String,
    /// What it carries.
    pub carries: String,
    /// What it may carry.
    pub rated: String,
    /// Where that is from.
    pub source: String,
    /// The first over the second.
    pub share: String,
}

impl TagView {
    /// Who stands for it, in words: its planner, or what its signature is worth without one.
    pub fn signed_by(&self, language: Language) -> String {
        match (&self.planner, self.signature.as_str()) {
            (Some(planner), _) => planner.clone(),
            (None, "unknown") => tag_words::SignedBySomebody.say(language),
            (None, "forged") => tag_words::SignedByNobodyForged.say(language),
            (None, _) => tag_words::SignedByNobody.say(language),
        }
    }
}

impl Eq for RiggingView {}

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

    pub(crate) fn tag_signature(
        &self,
        received: &ReceivedTag<'_>,
        trusted: &Trusted,
    ) -> (TagSignature, Option<Signer>) {
        let author = Author::of(received.kind, received.message.as_ref(), trusted);
        let signature = TagSignature::of(&received.tag, &author, trusted);
        let signer = match author {
            Author::Known(signer) => Some(*signer),
            _ => None,
        };
        (signature, signer)
    }

    pub(crate) fn tag_view(&self, bytes: &[u8]) -> Result<TagView, AppError> {
        self.tag_view_of(&LoadWord::open_tag(bytes, &self.trusted()?)?)
    }

    /// A tag that was opened, drawn.
    pub(crate) fn tag_view_of(&self, word: &LoadWord) -> Result<TagView, AppError> {
        let none = || AppError::bad_input(words::NoLoadTagHere);
        let (tag, bytes) = (word.tag().ok_or_else(none)?, word.bytes());
        let signature = TagSignature::of(tag, word.author(), &self.trusted()?);
        let planner = word.signer();
        let now = self.now();
        let language = self.language();
        let equipment: Vec<EquipmentView> =
            tag.equipment.iter().map(|equipment| equipment_view(equipment, tag, now)).collect();
        let rigging = tag.rigging.as_ref().map(|load| statics::rigging_view(load, language));
        let mut warnings = Vec::new();
        if tag.over_allowable() {
            let (gross, allowable) = (tag.gross, tag.allowable);
            warnings.push(tag_words::OverAllowable { gross, allowable }.say(language));
        }
        for piece in &equipment {
            let name = format!("{} {}", piece.kind, piece.serial);
            if piece.overdue {
                let due = piece.next_inspection.clone().unwrap_or_default();
                warnings.push(tag_words::PieceOverdue { name: &name, due }.say(language));
            }
            if piece.overloaded {
                let rating = piece.rating.clone().unwrap_or_default();
                warnings.push(tag_words::PieceRatedBelow { name: &name, rating }.say(language));
            }
        }
        for fault in self.rejected_on(tag)? {
            match fault {
                TagFault::Rejected { serial, why, at } => {
                    warnings.push(tag_words::PieceWithdrawn { serial, at: at.dtg(), why }.say(language));
                }
                TagFault::InspectionPast { serial, kind, due } => {
                    warnings
                        .push(tag_words::PieceWasFitUntil { kind, serial, until: due.dtg() }.say(language));
                }
                _ => {}
            }
        }
        if let Some(rigging) = rigging.as_ref().filter(|rigging| rigging.verdict != "within_limits") {
            warnings.push(rigging.summary.clone());
        }
        warnings.extend(rigging.as_ref().and_then(|rigging| rigging.beyond.clone()));
        warnings.extend(self.order_warning(tag)?);
        match signature {
            TagSignature::Planner => {}
            TagSignature::Unsigned => warnings.push(tag_words::TagUnsigned.say(language)),
            TagSignature::Unknown => warnings.push(tag_words::SignerNotTrusted.say(language)),
            TagSignature::Forged => warnings.push(tag_words::TagForged.say(language)),
        }
        let text = self.text_ordered(tag);
        if let Err(missing) = &text {
            // Before anybody walks: which edition is wanted, and where to get it.
            warnings.push(missing.saying().say(language));
        }
        let ordered_here = text.is_ok();
        let ordered = text.ok().and_then(|text| slingseal_walk::procedure::check(&text).ok());
        let title = ordered.map(|procedure| procedure.title(language).to_owned());
        Ok(TagView {
            check: word.digest().check_word(),
            text: slingseal_message::envelope::wrap(word.kind(), bytes),
            digest: word.digest().to_string(),
            load: tag.load.to_string(),
            planned: tag.planned.into(),
            description: tag.description.to_string(),
            procedure: tag.procedure.to_string(),
            procedure_title: title,
            gross: tag.gross.to_string(),
            aircraft: tag.aircraft.to_string(),
            allowable: tag.allowable.to_string(),
            pickup: zone_view(&tag.pickup),
            destination: zone_view(&tag.destination),
            rigger: tag.rigger.as_ref().map(ToString::to_string),
            equipment,
            links: tag
                .links
                .iter()
                .map(|count| LinkView { leg: count.leg.to_string(), link: count.link })
                .collect(),
            rigging,
            basis: basis_view(&tag.basis, ordered_here, language),
            planner: planner
                .filter(|_| signature == TagSignature::Planner)
                .map(|planner| planner.credential.holder.to_string()),
            signature: match signature {
                TagSignature::Planner => "signed",
                TagSignature::Unsigned => "unsigned",
                TagSignature::Unknown => "unknown",
                TagSignature::Forged => "forged",
            }
            .into(),
            warnings,
            bytes: u32::try_from(bytes.len()).unwrap_or(u32::MAX),
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

fn zone_view(zone: &Zone) -> ZoneView {
    ZoneView { name: zone.name.to_string(), grid: zone.grid.as_ref().map(slingseal_words::GridRef::spaced) }
}

fn equipment_view(equipment: &Equipment, tag: &Tag, now: slingseal_words::Time) -> EquipmentView {
    EquipmentView {
        kind: equipment.kind.to_string(),
        serial: equipment.serial.to_string(),
        rating: equipment.rating.as_ref().map(|rating| rating.value.to_string()),
        source: equipment.rating.as_ref().map(|rating| rating.source.to_string()),
        next_inspection: equipment.next_inspection.map(slingseal_words::Time::date),
        overdue: equipment.overdue(now),
        overloaded: equipment.overloaded(tag.gross),
    }
}
