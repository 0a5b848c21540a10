//! A tag as everybody who reads it sees it: its lines, its equipment and its rigging.

use slingseal_catalogue::refusals as words;
use slingseal_catalogue::tags as tag_words;

use serde::Serialize;

use crate::{AppError, Inner, Stamp};
use slingseal_judgement::{LoadWord, TagSignature};
use slingseal_message::tag::{Equipment, Tag, Zone};
use slingseal_rigging as rigging;
use slingseal_walk::walk::TagFault;
use slingseal_words::Language;

use crate::tags::basis::{BasisView, basis_view};
use crate::tags::rigging::RiggingView;

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
    /// What its signature is worth here.
    #[serde(serialize_with = "crate::view::word")]
    pub signature: TagSignature,
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

impl TagView {
    /// Who stands for it, in words: its planner, or what its signature is worth without one.
    pub fn signed_by(&self, language: Language) -> String {
        match (&self.planner, self.signature) {
            (Some(planner), _) => planner.clone(),
            (None, TagSignature::Unknown) => tag_words::SignedBySomebody.say(language),
            (None, TagSignature::Forged) => tag_words::SignedByNobodyForged.say(language),
            (None, TagSignature::Planner | TagSignature::Unsigned) => tag_words::SignedByNobody.say(language),
        }
    }
}

impl Inner {
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
        let rigging = tag.rigging.as_ref().map(|load| crate::tags::statics::rigging_view(load, language));
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
        if let Some(rigging) =
            rigging.as_ref().filter(|rigging| rigging.verdict != rigging::Verdict::WithinLimits)
        {
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
        let ordered = text.ok().and_then(|text| self.texts.borrow_mut().read(&text).ok());
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
            signature,
            warnings,
            bytes: u32::try_from(bytes.len()).unwrap_or(u32::MAX),
        })
    }
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
