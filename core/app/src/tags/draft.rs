//! A load that is planned on a phone: like one whose tag is here, with what differs put in field by field, or by a list alone, with
//! every field put in. What is typed is told wrong where it stands, and nothing is signed before all of it can be.

use serde::Serialize;
use slingseal_catalogue::refusals as words;

use crate::tags::rigging::RiggingView;
use crate::tags::statics::{rigging_png, rigging_view};
use crate::tags::{TagMade, tag_bytes};
use crate::{App, AppError};
use slingseal_message::tag::{Basis, Equipment, ReceivedTag, Tag, WeightSource, Zone};
use slingseal_rigging::{Rating, RiggedLoad, SeatedLink};
use slingseal_words::{
    CallSign, Description, Dimension, GridRef, LoadNumber, Name, PlaceName, ProcedureId, Quantity, Saying,
    Serial,
};

/// A piece of equipment on a load that is being planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DraftPiece {
    /// What it is.
    pub kind: String,
    /// Its serial number.
    pub serial: String,
}

/// The link in the grab hook of a leg, on a load that is being planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DraftLink {
    /// The leg.
    pub leg: String,
    /// The link, counted from the free end.
    pub link: u32,
}

/// A load that is being planned: all as it was typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TagDraft {
    /// The text of the tag that it is like: its procedure, its rigging and what no field here names are that tag's. Where no tag is
    /// here yet, the id of the procedure that it is inspected by: such a load has no rigging and no chain legs.
    pub like: String,
    /// Its own load number.
    pub load: String,
    /// What it is.
    pub description: String,
    /// Its gross mass.
    pub gross: String,
    /// How that is known; none where nobody says.
    #[serde(serialize_with = "crate::view::word_or_empty")]
    pub weight_source: Option<WeightSource>,
    /// The aircraft's type.
    pub aircraft: String,
    /// What the aircrew gives for this lift.
    pub allowable: String,
    /// Where it is picked up.
    pub pickup: String,
    /// Where it goes.
    pub destination: String,
    /// Its grid reference, or nothing.
    pub grid: String,
    /// Who rigs it, or nothing.
    pub rigger: String,
    /// Its equipment.
    pub equipment: Vec<DraftPiece>,
    /// The link in each grab hook.
    pub links: Vec<DraftLink>,
    /// The centre of gravity, forward, left, up, where it was weighed; empty: the rigging's own stands.
    pub centre: Vec<String>,
}

/// What is to be known of a load that is being planned.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DraftView {
    /// What keeps it from being signed, each in a line.
    pub faults: Vec<String>,
    /// Its statics with the links and the mass as they stand, where it has rigging.
    pub rigging: Option<RiggingView>,
    /// Side, front and top, as PNG.
    #[serde(skip)]
    pub picture: Option<Vec<u8>>,
}

impl App {
    /// A new load like the one of a tag: everything but its number, its weight's source and its rigger, which are said anew.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn draft_like(&self, tag: &str) -> Result<TagDraft, AppError> {
        let bytes = tag_bytes(tag)?;
        let like = ReceivedTag::open(&bytes)?.tag;
        Ok(TagDraft {
            like: tag.trim().to_owned(),
            load: String::new(),
            description: like.description.to_string(),
            gross: like.gross.to_string(),
            weight_source: None,
            aircraft: like.aircraft.to_string(),
            allowable: like.allowable.to_string(),
            pickup: like.pickup.name.to_string(),
            destination: like.destination.name.to_string(),
            grid: like.destination.grid.as_ref().map(ToString::to_string).unwrap_or_default(),
            rigger: String::new(),
            equipment: like
                .equipment
                .iter()
                .map(|piece| DraftPiece { kind: piece.kind.to_string(), serial: piece.serial.to_string() })
                .collect(),
            links: like
                .links
                .iter()
                .map(|count| DraftLink { leg: count.leg.to_string(), link: count.link.into() })
                .collect(),
            centre: Vec::new(),
        })
    }

    /// A new load without one that it is like: a list that is here, and nothing else said yet.
    ///
    /// # Errors
    /// No such list is here.
    pub fn draft_by(&self, procedure: &str) -> Result<TagDraft, AppError> {
        let id = ProcedureId::new(procedure)?;
        self.lock().procedure(&id)?;
        let none = String::new;
        Ok(TagDraft {
            like: id.to_string(),
            load: none(),
            description: none(),
            gross: none(),
            weight_source: None,
            aircraft: none(),
            allowable: none(),
            pickup: none(),
            destination: none(),
            grid: none(),
            rigger: none(),
            equipment: Vec::new(),
            links: Vec::new(),
            centre: Vec::new(),
        })
    }

    /// What a draft lacks, and how it would hang.
    ///
    /// # Errors
    /// Its tag is none; storage.
    pub fn check_draft(&self, draft: &TagDraft) -> Result<DraftView, AppError> {
        let inner = self.lock();
        let (tag, faults) = filled(draft, inner.now())?;
        let language = inner.language();
        let mut faults: Vec<String> = faults.iter().map(|fault| fault.say(language)).collect();
        if faults.is_empty()
            && let Err(error) = inner.to_be_written(std::slice::from_ref(&tag))
        {
            faults.push(error.saying().say(language));
        }
        if faults.is_empty() && tag.over_allowable() {
            faults.push(
                words::DraftOverAllowable { gross: &tag.gross, allowable: &tag.allowable }.say(language),
            );
        }
        let rigging: Option<&RiggedLoad> = tag.rigging.as_ref();
        let picture = rigging.map(|load| rigging_png(load, language)).transpose()?;
        Ok(DraftView { faults, rigging: rigging.map(|load| rigging_view(load, language)), picture })
    }

    /// Makes the tag of a draft, signed by this device's planner. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// What keeps it from being signed; no planner's credential; a wrong PIN.
    pub fn write_draft(&self, draft: &TagDraft, pin: &str) -> Result<TagMade, AppError> {
        let first = self.check_draft(draft)?.faults.into_iter().next();
        if let Some(first) = first {
            return Err(AppError::bad_input(Saying::verbatim(first)));
        }
        let now = self.lock().now();
        let (tag, _) = filled(draft, now)?;
        let made = self.make_tags(&[tag], Some(pin))?;
        made.into_iter().next().ok_or_else(|| AppError::internal("one draft makes one tag"))
    }
}

/// The tag as the draft has it, and what cannot stand; a field that cannot is the one of the tag that it is like.
pub(super) fn filled(draft: &TagDraft, now: slingseal_words::Time) -> Result<(Tag, Vec<Saying>), AppError> {
    let like = match ProcedureId::new(draft.like.trim()) {
        Ok(procedure) => blank(procedure, now)?,
        Err(_) => ReceivedTag::open(&tag_bytes(&draft.like)?)?.tag,
    };
    let mut faults = Vec::new();
    let mut tag = Tag { planned: now, ..like.clone() };
    take(&mut tag.load, LoadNumber::new(&draft.load), &mut faults);
    take(&mut tag.description, Description::new(&draft.description), &mut faults);
    take(&mut tag.gross, mass(&draft.gross), &mut faults);
    take(&mut tag.aircraft, Name::new(&draft.aircraft), &mut faults);
    take(&mut tag.allowable, mass(&draft.allowable), &mut faults);
    let mut pickup = like.pickup.name.clone();
    take(&mut pickup, PlaceName::new(&draft.pickup), &mut faults);
    // The grid reference of the other load's zone is that zone's alone.
    if pickup != like.pickup.name {
        tag.pickup = Zone { name: pickup, grid: None };
    }
    let mut place = like.destination.name.clone();
    take(&mut place, PlaceName::new(&draft.destination), &mut faults);
    let mut grid = None;
    if !draft.grid.trim().is_empty() {
        take(&mut grid, GridRef::new(&draft.grid).map(Some), &mut faults);
    }
    tag.destination = Zone { name: place, grid };
    tag.rigger = None;
    if !draft.rigger.trim().is_empty() {
        take(&mut tag.rigger, CallSign::new(&draft.rigger).map(Some), &mut faults);
    }
    tag.basis.weight_source = draft.weight_source;
    if tag.basis.weight_source.is_none() {
        faults.push(words::DraftWeightSource.into());
    }
    tag.basis
        .leg_serials
        .retain(|leg| draft.equipment.iter().any(|piece| same(&piece.serial, leg.serial.as_str())));
    tag.equipment = pieces(draft, &like, &mut faults);
    for count in &mut tag.links {
        let set = draft.links.iter().find(|one| one.leg == count.leg.as_str());
        if let Some(link) = set.and_then(|one| u16::try_from(one.link).ok()).filter(|link| *link > 0) {
            count.link = link;
        }
    }
    if let Some(rigging) = &mut tag.rigging {
        rigging.mass = tag.gross;
        for (at, text) in rigging.centre.iter_mut().zip(&draft.centre) {
            take(at, length(text), &mut faults);
        }
        rigging.allowable = Some(Rating { value: tag.allowable, source: None });
        let seated: Vec<SeatedLink> =
            tag.links.iter().map(|count| SeatedLink { leg: count.leg.clone(), link: count.link }).collect();
        match rigging.with_links(&seated) {
            Ok(changed) => *rigging = changed,
            Err(error) => faults.push(Saying::verbatim(error)),
        }
    }
    Ok((tag, faults))
}

/// A tag of which the list alone is known. What stands in the other fields is never signed: each is put in, or a fault is told.
fn blank(procedure: ProcedureId, planned: slingseal_words::Time) -> Result<Tag, AppError> {
    const OPEN: &str = "0";
    let nothing = || Quantity::parse_as("0 kg", Dimension::Mass).map_err(AppError::internal);
    let zone = || Ok::<_, AppError>(Zone { name: PlaceName::new(OPEN)?, grid: None });
    Ok(Tag {
        load: LoadNumber::new(OPEN)?,
        planned,
        description: Description::new(OPEN)?,
        procedure,
        gross: nothing()?,
        aircraft: Name::new(OPEN)?,
        allowable: nothing()?,
        pickup: zone()?,
        destination: zone()?,
        rigger: None,
        equipment: Vec::new(),
        links: Vec::new(),
        rigging: None,
        basis: Basis::default(),
    })
}

fn same(one: &str, other: &str) -> bool {
    slingseal_judgement::same_serial(one.trim(), other)
}

/// The equipment of a draft: a piece that the other tag had keeps its rating and its date, a new one says nothing of either.
fn pieces(draft: &TagDraft, like: &Tag, faults: &mut Vec<Saying>) -> Vec<Equipment> {
    let mut pieces: Vec<Equipment> = Vec::new();
    for one in &draft.equipment {
        let known = like.equipment.iter().find(|piece| same(&one.serial, piece.serial.as_str()));
        let piece = match (known, Name::new(&one.kind), Serial::new(&one.serial)) {
            (Some(known), ..) => known.clone(),
            (None, Ok(kind), Ok(serial)) => Equipment { kind, serial, rating: None, next_inspection: None },
            (None, Err(error), _) | (None, _, Err(error)) => {
                faults.push(error.saying());
                continue;
            }
        };
        if pieces.iter().any(|other| same(piece.serial.as_str(), other.serial.as_str())) {
            faults.push(words::DraftPieceTwice { serial: &piece.serial }.into());
        } else {
            pieces.push(piece);
        }
    }
    pieces
}

fn length(text: &str) -> Result<Quantity, Saying> {
    Quantity::parse_as(text, Dimension::Length).map_err(|error| error.saying())
}

/// A gross mass or an allowable load as it was typed.
pub(super) fn mass(text: &str) -> Result<Quantity, Saying> {
    let value = Quantity::parse_as(text, Dimension::Mass).map_err(|error| error.saying())?;
    if value.si() > 0.0 { Ok(value) } else { Err(words::DraftMass { text }.into()) }
}

/// Takes what can stand; what cannot is told.
fn take<T, E: Told>(field: &mut T, value: Result<T, E>, faults: &mut Vec<Saying>) {
    match value {
        Ok(value) => *field = value,
        Err(error) => faults.push(error.told()),
    }
}

/// What tells why a field cannot stand.
trait Told {
    fn told(&self) -> Saying;
}

impl Told for Saying {
    fn told(&self) -> Saying {
        self.clone()
    }
}

impl Told for slingseal_words::LineError {
    fn told(&self) -> Saying {
        self.saying()
    }
}

impl Told for slingseal_words::GridError {
    fn told(&self) -> Saying {
        self.saying()
    }
}
