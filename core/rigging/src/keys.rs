//! What several tables of a rigging file have: a place, a rating, a part of a leg, a chain. Each fault is told at its key.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_words::{Dimension, Name, Part, Quantity, Source};

use super::load::{Chain, LegPart, Rating, Reeved, RiggedLoad, Wrong};

pub(super) fn read_leg_part(part: &Part<'_>) -> Option<LegPart> {
    let (name, rating) = (part.need("name", Name::new), need_rating(part, "rated"));
    part.no_more();
    let leg_part = LegPart { name: name?, rating: rating? };
    tell(part, leg_part.wrong());
    Some(leg_part)
}

/// `seated` is whether the link in the grab hook is written, or not known yet.
pub(super) fn read_chain(part: &Part<'_>, seated: bool) -> Option<Chain> {
    let count = |key: &'static str, example: &str| {
        if !part.has(key) {
            return missing(part, key, example);
        }
        let number = part.integer(key)?;
        let fits = u16::try_from(number).ok().filter(|number| *number <= RiggedLoad::MOST_LINKS);
        if fits.is_none() {
            part.fault(key, words::LinksOut { key, number: number.to_string() }, words::LinksOutMend);
        }
        fits
    };
    let links = count("links", "110");
    let seated = if seated { count("seated", "3") } else { Some(1) };
    let pitch = part
        .quantity("pitch", Dimension::Length)
        .or_else(|| if part.has("pitch") { None } else { missing(part, "pitch", "\"1.09 in\"") });
    let reeved = part.need("reeved", |text| match text {
        "loop" => Ok(Reeved::Loop),
        "single" => Ok(Reeved::Single),
        text => Err(Saying::from(words::ReevedWrong { text })),
    });
    part.no_more();
    Some(Chain { links: links?, seated: seated?, pitch: pitch?, reeved: reeved? })
}

pub(super) fn place(part: &Part<'_>, key: &'static str) -> Option<[Quantity; 3]> {
    if !part.has(key) {
        return missing(part, key, "[\"0 m\", \"0 m\", \"0 m\"]");
    }
    part.quantities(key, Dimension::Length)
}

pub(super) fn rating(part: &Part<'_>, key: &'static str) -> Option<Rating> {
    let source = part.maybe("source", Source::new);
    part.rating(key).map(|value| Rating { value, source })
}

pub(super) fn need_rating(part: &Part<'_>, key: &'static str) -> Option<Rating> {
    let read = rating(part, key);
    if part.has(key) { read } else { missing(part, key, "\"2500 lb\"") }
}

pub(super) fn missing<T>(part: &Part<'_>, key: &'static str, example: &str) -> Option<T> {
    if !part.has(key) {
        part.fault(key, words::KeyMissing { key }, words::KeyMissingMend { key, example });
    }
    None
}

pub(super) fn tell(part: &Part<'_>, wrong: Vec<Wrong>) {
    for (key, error) in wrong {
        part.fault_of(key, error.saying(), words::MendIt);
    }
}
