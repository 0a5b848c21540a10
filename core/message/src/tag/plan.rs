//! The planner's file: what a tag is made of, read with every fault in its place.

use super::basis::{
    AirspeedLimit, Basis, Condition, LegSerial, MOST_CONDITIONS, MOST_LEGS, Manual, WeightSource, twice,
};
use super::noun::{Equipment, EquipmentRating, LinkCount, MOST_EQUIPMENT, Tag, Zone};
use slingseal_catalogue::files as words;
use slingseal_rigging::{self as rigging, Rating, RiggedLoad};
use slingseal_words::{
    CallSign, Description, Dimension, Faults, GridRef, LoadNumber, Name, Part, PlaceName, ProcedureId,
    Quantity, Saying, Serial, Source, Time, TomlFile,
};

/// A plan that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// The tag that it makes.
    pub tag: Tag,
}

/// Reads a plan. `open` gives the text of the file that the plan names as its rigging; `now` is the time of planning
/// where the plan names none.
///
/// # Errors
/// Every fault of the plan, with its place and its mend.
pub fn read_plan(
    text: &str,
    now: Time,
    open: &dyn Fn(&str) -> Result<String, String>,
) -> Result<Plan, Faults> {
    let file = TomlFile::parse(text)?;
    let tag = tag(&file.top(), now, open);
    file.finish(tag.map(|tag| Plan { tag }))
}

fn tag(top: &Part<'_>, now: Time, open: &dyn Fn(&str) -> Result<String, String>) -> Option<Tag> {
    let load = top.need("load", LoadNumber::new);
    let description = top.need("description", Description::new);
    let procedure = top.need("procedure", ProcedureId::new);
    let gross = positive(top, "gross");
    let rigger = top.maybe("rigger", CallSign::new);
    let planned = top.maybe("planned", Time::parse).unwrap_or(now);
    let aircraft = top.need_part("aircraft");
    let (aircraft, allowable) = match &aircraft {
        Some(part) => {
            let found = (part.need("type", Name::new), positive(part, "allowable"));
            part.no_more();
            found
        }
        None => (None, None),
    };
    let pickup = zone(top, "pickup");
    let destination = zone(top, "destination");
    let equipment = few(top, "equipment", MOST_EQUIPMENT, equipment);
    let links = few(top, "link", MOST_LEGS, link_count);
    let rigging = top.text("rigging").map(|name| {
        open(&name).and_then(|text| rigging::read(&text).map_err(|faults| faults.to_string())).map_err(
            |error| {
                let what = words::FileIsWrong { name: &name, error: error.to_string() };
                top.fault("rigging", what, words::MendThatFile);
            },
        )
    });
    let basis = basis(top);
    top.no_more();
    let mut tag = Tag {
        load: load?,
        planned,
        description: description?,
        procedure: procedure?,
        gross: gross?,
        aircraft: aircraft?,
        allowable: allowable?,
        pickup: pickup?,
        destination: destination?,
        rigger,
        equipment: equipment?,
        links: links?,
        rigging: None,
        basis: basis?,
    };
    if let Some(rigging) = rigging {
        let agreed = agreeing(&tag, rigging.ok()?);
        tag.rigging = Some(agreed.map_err(|(what, mend)| top.fault("rigging", what, mend)).ok()?);
    }
    Some(tag)
}

/// What it was planned and rigged by. The edition of the procedure is set by whoever knows the procedure.
fn basis(top: &Part<'_>) -> Option<Basis> {
    let weight_source = top.maybe("weight_source", WeightSource::of_word);
    let manual = top.part("manual").map(|part| {
        let (title, edition) = (part.need("title", Source::new), part.need("edition", Name::new));
        part.no_more();
        Some(Manual { title: title?, edition: edition? })
    });
    let airspeed = top.part("airspeed").map(|part| {
        let limit = above_zero(&part, "limit", Dimension::Speed, words::WriteSpeedAboveZero.into());
        let source = part.need("source", Source::new);
        part.no_more();
        Some(AirspeedLimit { limit: limit?, source: source? })
    });
    let leg_serials = few(top, "leg", MOST_LEGS, |part| {
        let (leg, serial) = (part.need("name", Name::new), part.need("serial", Serial::new));
        part.no_more();
        Some(LegSerial { leg: leg?, serial: serial? })
    });
    if leg_serials.as_ref().is_some_and(|list| twice(list)) {
        top.fault("leg", words::LegTwice, words::OneLegWithSerial);
        return None;
    }
    let conditions = top.has("when").then(|| {
        let texts = top.texts("when");
        let read = |text: &String| {
            Condition::new(text).map_err(|error| top.fault_of("when", error, words::WriteItAnew))
        };
        let read: Vec<Option<Condition>> = texts.iter().map(|text| read(text).ok()).collect();
        if read.len() > MOST_CONDITIONS {
            let what = words::MoreConditionsThanFit { count: read.len() };
            top.fault("when", what, words::KeepAtMost { most: MOST_CONDITIONS });
        }
        read.into_iter().collect::<Option<std::collections::BTreeSet<_>>>()
    });
    Some(Basis {
        manual: told(manual)?,
        leg_serials: leg_serials?,
        weight_source,
        airspeed: told(airspeed)?,
        edition: None,
        conditions: told(conditions)?,
    })
}

/// `None` where something stands there and is wrong.
#[expect(clippy::option_option, reason = "not there and wrong are two things")]
fn told<T>(part: Option<Option<T>>) -> Option<Option<T>> {
    match part {
        None => Some(None),
        Some(part) => part.map(Some),
    }
}

/// The rigging must speak of the load that the plan speaks of: two masses on one tag would be two truths. What differs, and
/// what to do, where it does not.
pub(super) fn agreeing(tag: &Tag, mut rigging: RiggedLoad) -> Result<RiggedLoad, (Saying, Saying)> {
    let differs = |a: Quantity, b: Quantity| (a.si() - b.si()).abs() > 1e-6 * b.si().abs();
    if differs(rigging.mass, tag.gross) {
        let what = words::RiggingOtherMass { rigging: rigging.mass, plan: tag.gross };
        return Err((what.into(), words::SameMassInBoth.into()));
    }
    if let Some(rule) = rigging.rule {
        // Whoever reads the tag would hold the tensions against another rule than the manual's.
        let what = words::RiggingNamesRule { rule: rule.as_str() };
        return Err((what.into(), words::AssessAtDesk.into()));
    }
    if let Some(allowable) = &rigging.allowable
        && differs(allowable.value, tag.allowable)
    {
        let what = words::RiggingOtherAllowable { rigging: allowable.value, plan: tag.allowable };
        return Err((what.into(), words::SameAllowableInBoth.into()));
    }
    for count in &tag.links {
        let leg = rigging.legs.iter().find(|leg| leg.name == count.leg);
        let seated = leg.and_then(|leg| leg.reach.chain()).map(|chain| chain.seated);
        if seated.is_some_and(|seated| seated != count.link) {
            let what = words::RiggingOtherLink { link: count.link, leg: &count.leg };
            return Err((what.into(), words::SameLinkInBoth.into()));
        }
    }
    rigging.mass = tag.gross;
    rigging.allowable = Some(Rating { value: tag.allowable, source: None });
    Ok(rigging)
}

fn positive(part: &Part<'_>, key: &'static str) -> Option<Quantity> {
    above_zero(part, key, Dimension::Mass, words::WriteMassAboveZero.into())
}

fn above_zero(part: &Part<'_>, key: &'static str, dimension: Dimension, mend: Saying) -> Option<Quantity> {
    part.need_text(key)?;
    let quantity = part.quantity(key, dimension)?;
    if quantity.thousandths() > 0 {
        return Some(quantity);
    }
    part.fault(key, words::KeyIsThat { key, value: quantity }, mend);
    None
}

fn zone(top: &Part<'_>, key: &'static str) -> Option<Zone> {
    let part = top.need_part(key)?;
    let (name, grid) = (part.need("name", PlaceName::new), part.maybe("grid", GridRef::new));
    part.no_more();
    Some(Zone { name: name?, grid })
}

fn few<T>(
    top: &Part<'_>,
    key: &'static str,
    most: usize,
    read: impl Fn(&Part<'_>) -> Option<T>,
) -> Option<Vec<T>> {
    let parts = top.parts(key);
    if parts.len() > most {
        top.fault(key, words::MoreTablesThanFit { count: parts.len(), key }, words::KeepAtMost { most });
        return None;
    }
    // Every part is read, so that all faults are told, before the first gap ends it.
    parts.iter().map(read).collect::<Vec<_>>().into_iter().collect()
}

fn equipment(part: &Part<'_>) -> Option<Equipment> {
    let kind = part.need("kind", Name::new);
    let serial = part.need("serial", Serial::new);
    let value = part.rating("rating");
    let source = part.maybe("source", Source::new);
    let next_inspection = part.maybe("next_inspection", Time::parse);
    part.no_more();
    let rating = match (value, source) {
        (Some(value), Some(source)) => Some(EquipmentRating { value, source }),
        (Some(_), None) => {
            part.fault("rating", words::RatingNoSource, words::AddSource);
            None
        }
        _ => None,
    };
    let day = |time: Time| Time::parse(&time.date()).ok();
    Some(Equipment { kind: kind?, serial: serial?, rating, next_inspection: next_inspection.and_then(day) })
}

fn link_count(part: &Part<'_>) -> Option<LinkCount> {
    let leg = part.need("leg", Name::new);
    let link = part
        .integer("link")
        .and_then(|link| u16::try_from(link).ok())
        .filter(|link| (1..=2_000).contains(link));
    if link.is_none() {
        part.fault("link", words::LegNoLinkNumber, words::AddLink);
    }
    part.no_more();
    Some(LinkCount { leg: leg?, link: link? })
}
