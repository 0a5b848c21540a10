//! What is kept of where a load is, for the board.

use slingseal_judgement::{Evidence, LastReports, LoadWord, RULES, TagSignature};
use slingseal_message::movement::Movement;
use slingseal_message::seal::TagPrint;
use slingseal_message::tag::Tag;
use slingseal_message::trust::Trusted;
use slingseal_store::FlowRow;
use slingseal_words::{Digest, LoadNumber, Time};

/// The tag that tells of a load: the one that its latest inspection sealed, else the last one that a planner known here signed, else
/// the last one.
pub(crate) fn telling_tag<'w>(
    words: &[&'w LoadWord],
    latest: Option<TagPrint>,
    trusted: &Trusted,
) -> Option<(&'w LoadWord, &'w Tag)> {
    let tags = words.iter().filter_map(|word| Some((*word, word.tag()?)));
    tags.max_by_key(|(word, tag)| {
        let sealed = latest == Some(TagPrint::of(&word.digest()));
        let planned = TagSignature::of(tag, word.author(), trusted) == TagSignature::Planner;
        (sealed, planned, tag.planned, word.digest())
    })
}

/// Where a load is on its way. None where nothing is known of it but what nobody signed: a stranger's reports fill no board.
/// `latest`: the seal of its latest inspection; `given`: a plan of it was given here.
pub(crate) fn flow_row(
    load: &LoadNumber,
    latest: Option<Digest>,
    words: &[LoadWord],
    given: bool,
    trusted: &Trusted,
) -> Option<FlowRow> {
    let words: Vec<&LoadWord> = words.iter().collect();
    let evidence = Evidence::lasting(trusted, &words, &[]);
    let seal = latest.and_then(|latest| words.iter().find(|word| word.digest() == latest)?.seal());
    let tag = telling_tag(&words, seal.map(|seal| seal.tag), trusted);
    let LastReports { counts, hint } = LastReports::of(load, &evidence);
    if seal.is_none() && tag.is_none() && counts.is_none() {
        return None;
    }
    let said = |report: Option<&LoadWord>| report.and_then(LoadWord::movement).cloned();
    let (told, hinted): (Option<Movement>, Option<Movement>) = (said(counts), said(hint));
    let who = counts.and_then(LoadWord::signer).map(|signer| signer.credential.holder.to_string());
    let times =
        [seal.map(|seal| seal.issued), tag.map(|(_, tag)| tag.planned), told.as_ref().map(Movement::at)];
    let zone = |pick: fn(&Tag) -> &slingseal_message::tag::Zone| {
        let zone = tag.map(|(_, tag)| pick(tag));
        let grid = zone.and_then(|zone| zone.grid.as_ref()).map(ToString::to_string).unwrap_or_default();
        (zone.map(|zone| zone.name.to_string()).unwrap_or_default(), grid)
    };
    let ((zone, grid), (destination, destination_grid)) =
        (zone(|tag| &tag.pickup), zone(|tag| &tag.destination));
    Some(FlowRow {
        load: load.to_string(),
        event: told.as_ref().map(|told| told.event.word().to_owned()).unwrap_or_default(),
        happened: told.as_ref().map(Movement::at),
        who: who.unwrap_or_default(),
        verdict: told
            .as_ref()
            .and_then(|told| Some(told.shown.as_ref()?.verdict.word().to_owned()))
            .unwrap_or_default(),
        hint: hinted.as_ref().map(|hinted| hinted.event.word().to_owned()).unwrap_or_default(),
        hinted: hinted.as_ref().map(Movement::at),
        zone,
        grid,
        destination,
        destination_grid,
        aircraft: tag.map(|(_, tag)| tag.aircraft.to_string()).unwrap_or_default(),
        description: tag.map(|(_, tag)| tag.description.to_string()).unwrap_or_default(),
        gross: tag
            .map(|(_, tag)| tag.gross.to_string())
            .or_else(|| seal.map(|seal| seal.mass.to_string()))
            .unwrap_or_default(),
        planner: tag
            .and_then(|(word, _)| word.signer())
            .map(|signer| signer.credential.holder.to_string())
            .unwrap_or_default(),
        rigger: tag.and_then(|(_, tag)| tag.rigger.as_ref()).map(ToString::to_string).unwrap_or_default(),
        planned: tag.filter(|_| given).map(|(_, tag)| tag.planned),
        touched: times.into_iter().flatten().max().unwrap_or(Time::from_unix(0)),
        version: RULES,
    })
}
