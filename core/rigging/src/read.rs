//! Reading a rigged load from TOML. Every fault is told, with its place.

use slingseal_catalogue::rigging as words;
use slingseal_words::{Dimension, Fault, Faults, Name, Part, Quantity, Spot, TomlFile};

use super::file::RiggingFile;
use super::flight::read_flight;
use super::keys::{missing, need_rating, place, rating, read_chain, read_leg_part, tell};
use super::load::{CommonPart, Hook, Leg, Rating, Reach, RiggedLoad, wrong_counts, wrong_load};
use super::solve::{Stock, read_ropes, read_set};
use super::weigh::{Weighed, Weighing, read_weighing, weigh, written};
use super::{RiggingError, Rule};

/// Reads a rigged load.
///
/// # Errors
/// Every fault of the file, each with line and column.
pub fn read(text: &str) -> Result<RiggedLoad, Faults> {
    let file = read_file(text)?;
    match file.load {
        Some(load) => Ok(load),
        None => Faults::new(vec![fault_of(&RiggingError::NoRigging)])
            .map_or_else(|| unreachable!("one fault is not none"), Err),
    }
}

/// Reads a rigging file with all that it holds beside the load: weighing, slings at hand, flight.
///
/// # Errors
/// Every fault of the file, each with line and column.
pub fn read_file(text: &str) -> Result<RiggingFile, Faults> {
    let file = TomlFile::parse(text)?;
    let read = read_top(&file.top());
    let read = file.finish(read)?;
    // Reading tells every rule with its place; this catches a rule that was added to `check` alone.
    let wrong = read.load.as_ref().and_then(|load| load.check().err());
    match wrong.and_then(|error| Faults::new(vec![fault_of(&error)])) {
        Some(faults) => Err(faults),
        None => Ok(read),
    }
}

fn fault_of(error: &RiggingError) -> Fault {
    Fault::of(Spot { line: 1, column: 1 }, error.saying(), words::MendIt)
}

fn read_top(top: &Part<'_>) -> Option<RiggingFile> {
    let weighs = written(top);
    let only_weighs = weighs && !top.has("hook") && !top.has("leg");
    let load = if weighs { top.part("load") } else { top.need_part("load") };
    let weighing = weighs.then(|| read_weighed(top, load.as_ref()));
    let given = load.map(|part| {
        let read = (!weighs).then(|| read_given(&part)).flatten();
        part.no_more();
        read
    });
    let flight = top.part("flight").map(|part| read_flight(&part));
    let sets: Vec<_> = top.parts("sling_set").iter().map(read_set).collect();
    let rule = top.maybe("rule", Rule::parse);
    let aircraft = top.part("aircraft");
    let allowable = aircraft.map(|part| {
        let rating = rating(&part, "allowable");
        if rating.is_none() && !part.has("allowable") {
            missing::<Rating>(&part, "allowable", "\"7000 lb\"");
        }
        part.no_more();
        (part, rating)
    });

    let (hook_tables, leg_tables, part_tables) = (top.parts("hook"), top.parts("leg"), top.parts("part"));
    let hooks: Vec<_> = hook_tables.iter().map(read_hook).collect();
    let ropes: Vec<_> = leg_tables.iter().map(read_ropes).collect();
    let legs: Vec<_> = leg_tables.iter().map(read_leg).collect();
    let parts: Vec<_> = part_tables.iter().map(read_common).collect();
    top.no_more();
    if !only_weighs {
        tell(top, wrong_counts(hooks.len(), legs.len(), parts.len()));
    }
    let weighing = match weighing {
        Some(weighing) => Some(weighing?),
        None => None,
    };
    let stock = Stock { sets: sets.into_iter().collect::<Option<_>>()?, ropes };
    let flight = match flight {
        Some(flight) => Some(flight?),
        None => None,
    };
    if only_weighs {
        return Some(RiggingFile { load: None, weighing, stock, flight });
    }
    let (mass, centre) = match &weighing {
        Some((_, weighed)) => (weighed.mass, weighed.centre),
        None => given.flatten()?,
    };
    let read = RiggedLoad {
        mass,
        centre,
        hooks: hooks.into_iter().collect::<Option<_>>()?,
        allowable: match allowable {
            Some((_, rating)) => Some(rating?),
            None => None,
        },
        parts: parts.into_iter().collect::<Option<_>>()?,
        legs: legs.into_iter().collect::<Option<_>>()?,
        rule,
    };
    let all_tables: Vec<_> = leg_tables.iter().chain(&part_tables).collect();
    for (at, wrong) in read.wrong_hooks() {
        tell(all_tables.get(at)?, vec![wrong]);
    }
    let all_tables: Vec<_> = hook_tables.iter().chain(&leg_tables).collect();
    for (at, wrong) in read.wrong_names() {
        tell(all_tables.get(at)?, vec![wrong]);
    }
    Some(RiggingFile { load: Some(read), weighing, stock, flight })
}

/// Mass and centre as a person gave them.
fn read_given(part: &Part<'_>) -> Option<(Quantity, [Quantity; 3])> {
    let read = part
        .quantity("mass", Dimension::Mass)
        .or_else(|| missing(part, "mass", "\"5000 lb\""))
        .zip(place(part, "centre"));
    if let Some((mass, centre)) = &read {
        tell(part, wrong_load(*mass, centre));
    }
    read
}

/// Mass and centre as they were weighed.
fn read_weighed(top: &Part<'_>, load: Option<&Part<'_>>) -> Option<(Weighing, Weighed)> {
    let weighing = read_weighing(top, load)?;
    match weigh(&weighing) {
        Ok(weighed) => {
            tell(top, wrong_load(weighed.mass, &weighed.centre));
            Some((weighing, weighed))
        }
        Err(error) => {
            let key = if weighing.readings.is_empty() { "item" } else { "weighed" };
            top.fault_of(key, error.saying(), words::MendIt);
            None
        }
    }
}

fn read_hook(part: &Part<'_>) -> Option<Hook> {
    let (name, at, limit) = (part.need("name", Name::new), place(part, "at"), rating(part, "limit"));
    part.no_more();
    let hook = Hook { name: name?, at: at?, limit };
    tell(part, hook.wrong());
    Some(hook)
}

fn read_common(part: &Part<'_>) -> Option<CommonPart> {
    let (name, hook, rating) =
        (part.need("name", Name::new), part.maybe("hook", Name::new), need_rating(part, "rated"));
    part.no_more();
    let common = CommonPart { name: name?, hook, rating: rating? };
    tell(part, common.wrong());
    Some(common)
}

fn read_leg(part: &Part<'_>) -> Option<Leg> {
    let name = part.need("name", Name::new);
    let hook = part.maybe("hook", Name::new);
    let lift_point = place(part, "lift_point");
    let reach = read_reach(part);
    let stretch = part.quantity("stretch", Dimension::Ratio);
    let rated = rating(part, "rated");
    let tables = part.parts("part");
    let parts: Vec<_> = tables.iter().map(read_leg_part).collect();
    part.no_more();
    let parts = parts.into_iter().collect::<Option<Vec<_>>>()?;
    let leg = Leg { name: name?, hook, lift_point: lift_point?, reach: reach?, stretch, rated, parts };
    if !(part.has("rated") && leg.rated.is_none()) {
        tell(part, leg.wrong_alone());
    }
    Some(leg)
}

fn read_reach(part: &Part<'_>) -> Option<Reach> {
    let (length, rope) =
        (part.quantity("length", Dimension::Length), part.quantity("rope", Dimension::Length));
    let chain = part.part("chain").map(|part| read_chain(&part, true));
    match (part.has("length"), part.has("rope"), part.has("chain")) {
        (true, false, false) => length.map(Reach::Length),
        (false, true, true) => {
            rope.zip(chain.flatten()).map(|(rope, chain)| Reach::RopeAndChain(rope, chain))
        }
        (false, false, true) => chain.flatten().map(Reach::Chain),
        (false, true, false) => {
            part.fault("rope", words::RopeAlone, words::RopeAloneMend);
            None
        }
        (true, ..) => {
            part.fault("length", words::LengthAndRope, words::LengthAndRopeMend);
            None
        }
        (false, false, false) => {
            part.fault("length", words::KeyMissing { key: "length" }, words::ReachMissingMend);
            None
        }
    }
}
