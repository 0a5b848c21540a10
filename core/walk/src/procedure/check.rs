//! Reads a procedure file and tells every fault with its place and its mend.

use slingseal_catalogue::{files as words, tags};
use std::cell::Cell;
use std::collections::BTreeSet;

use slingseal_words::{Digest, Faults, Part, ProcedureId, Saying, TomlFile};

use super::around::{Around, OPTION, SENTENCE, Shared, bounded, read_each};
use super::check_point::{read_point, sound_point};
use super::fill::words_of;
use super::shape::{CardShape, Column, Mark, PointShape, Procedure, Round, Said, StationShape, Subject};
use super::table::{LONGEST_VALUE, Table, plain_id};

/// Longest texts, in characters, once filled: a title is one line of a small screen, a sentence is one breath.
const TITLE: usize = 60;
/// Most cards and points of an expanded walk, and most values of a round: a hostile file stops here.
const CARDS: usize = 300;
const POINTS: usize = 1_500;
const VALUES: usize = 24;

/// Checks a procedure file. Every fault comes with line, column and mend.
pub fn check(text: &str) -> Result<Procedure, Faults> {
    let file = TomlFile::parse(text)?;
    let procedure = read(&Table::new(file.top()), text);
    file.finish(procedure)
}

/// What a text that may have faults calls itself, to tell it from others: its id, or that it has none.
pub fn name_of(text: &str) -> Saying {
    let line = text.lines().map(str::trim).find_map(|line| line.strip_prefix("id"));
    let id =
        line.and_then(|rest| rest.trim_start().strip_prefix('=')).map(|rest| rest.trim().trim_matches('"'));
    match id.map(|id| id.chars().take(24).collect::<String>()).filter(|id| !id.is_empty()) {
        Some(id) => tags::ProcedureOfId { id }.into(),
        None => tags::ProcedureWithoutId.into(),
    }
}

fn read(top: &Table<'_>, text: &str) -> Option<Procedure> {
    let id = top.part.need("id", ProcedureId::new);
    let version = read_version(&top.part);
    let title = top.need_said("title");
    if let Some(title) = &title {
        top.sound("title", title, &[], TITLE);
    }
    let about = top.said("about");
    if let Some(about) = &about {
        top.sound("about", about, &[], SENTENCE);
    }
    let mark = top.part.need("source", Mark::parse);
    let subject = top.part.maybe("subject", |word| Subject::of_word(word).ok_or(words::SubjectNotKnown));

    let mut rounds: Vec<Round> = Vec::new();
    let round_tables: Vec<Table<'_>> = top.part.parts("round").into_iter().map(Table::new).collect();
    for table in &round_tables {
        let round = read_round(table);
        if rounds.iter().any(|known| known.name == round.name) {
            table.part.fault("name", words::SecondRound { name: &round.name }, words::GiveAnotherName);
        }
        rounds.push(round);
    }
    let used_rounds: Vec<Cell<bool>> = rounds.iter().map(|_| Cell::new(false)).collect();

    let alone = Around { rounds: &rounds, used_rounds: &used_rounds, shared: &[], mark: mark.as_ref() };
    let mut shared: Vec<Shared<'_>> = Vec::new();
    for part in top.part.parts("point") {
        let table = Table::new(part);
        let Some(shape) = read_point(&table, &alone) else { continue };
        if shared.iter().any(|known| known.shape.id == shape.id) {
            table.part.fault("id", words::SecondPoint { id: &shape.id }, words::RenameOne);
        }
        shared.push(Shared { table, shape, used: Cell::new(false) });
    }

    let around = Around { shared: &shared, ..alone };
    let parts = top.part.parts("station");
    if parts.is_empty() {
        top.part.fault("station", words::NoStation, words::AddStation);
    }
    let stations: Vec<_> = parts.into_iter().filter_map(|part| read_station(part, &around)).collect();
    top.done();

    for (table, used) in round_tables.iter().zip(&used_rounds) {
        if !used.get() {
            table.part.fault("name", words::RoundNotUsed, words::UseOrTakeOut);
        }
    }
    for point in shared.iter().filter(|point| !point.used.get()) {
        let what = words::PointNotUsed { id: &point.shape.id };
        point.table.part.fault("id", what, words::NameInUse);
    }
    check_size(top, &stations, &rounds);
    check_ids(top, &stations, &rounds);
    Some(Procedure {
        id: id?,
        version: version?,
        digest: Digest::of(text.as_bytes()),
        title: title?,
        about,
        subject: subject.unwrap_or_default(),
        rounds,
        stations,
    })
}

fn read_version(part: &Part<'_>) -> Option<u32> {
    if !part.has("version") {
        part.fault("version", words::NoVersion, words::AddVersion);
        return None;
    }
    bounded(part, "version", 1, 9_999)
}

/// Always answers, so that what uses the round is not told to be unknown as well.
fn read_round(table: &Table<'_>) -> Round {
    let part = &table.part;
    let name = table.need_id("name").unwrap_or_default();
    let values = part.texts("values");
    if values.is_empty() || values.len() > VALUES {
        let what = words::RoundHasValues { count: &values.len() };
        part.fault("values", what, words::WriteValues { most: VALUES });
    }
    let distinct: BTreeSet<&String> = values.iter().collect();
    if distinct.len() < values.len() || values.iter().any(|value| !plain_id(value, LONGEST_VALUE)) {
        part.fault("values", words::ValuesNotShort, words::WriteEachOnce { most: LONGEST_VALUE });
    }
    let mut words = read_words(table, values.len());
    if words.is_empty() {
        words = values.iter().map(|value| Said::plain(value.clone())).collect();
    }
    let mut columns: Vec<Column> = Vec::new();
    for part in part.parts("column") {
        let table = Table::new(part);
        let name = table.need_id("name").unwrap_or_default();
        if columns.iter().any(|known| known.name == name) {
            table.part.fault("name", words::SecondColumn { name: &name }, words::RenameOne);
        }
        let words = read_words(&table, values.len());
        if words.is_empty() {
            table.part.fault("words", words::ColumnNoWords, words::AddWords);
        }
        table.done();
        columns.push(Column { name, words });
    }
    table.done();
    Round { name, values, words, columns }
}

/// The words of a round or of a column: none, or one for each value.
fn read_words(table: &Table<'_>, values: usize) -> Vec<Said> {
    let words = table.list("words");
    for said in &words {
        table.sound("words", said, &[], OPTION);
    }
    if !words.is_empty() && words.len() != values {
        let what = words::WordsAndValues { texts: &words.len(), values: &values };
        table.part.fault("words", what, words::OneForEachValue);
    }
    words
}

fn read_station(part: Part<'_>, around: &Around<'_, '_>) -> Option<StationShape> {
    let table = Table::new(part);
    let id = table.need_id("id");
    let each = read_each(&table.part, around);
    let within = open(each, &[], &table.part, around);
    let title = table.need_said("title");
    if let Some(title) = &title {
        table.sound("title", title, &within, TITLE);
    }
    let parts = table.part.parts("card");
    if parts.is_empty() {
        table.part.fault("card", words::StationNoCard, words::AddCard);
    }
    let cards = parts.into_iter().filter_map(|part| read_card(part, &within, around)).collect();
    table.done();
    Some(StationShape { id: id?, each, title: title?, cards })
}

fn read_card(part: Part<'_>, within: &[&Round], around: &Around<'_, '_>) -> Option<CardShape> {
    let table = Table::new(part);
    let id = table.need_id("id");
    let each = read_each(&table.part, around);
    let within = open(each, within, &table.part, around);
    let title = table.need_said("title");
    if let Some(title) = &title {
        table.sound("title", title, &within, TITLE);
    }
    let motion = table.need_said("motion");
    if let Some(motion) = &motion {
        table.sound("motion", motion, &within, SENTENCE);
    }
    let mut points = Vec::new();
    let used = table.part.texts("use");
    let own = table.part.parts("point");
    if own.is_empty() && used.is_empty() {
        table.part.fault("point", words::CardNoPoint, words::AddPoint);
    }
    for name in used {
        match around.shared.iter().find(|shared| shared.shape.id == name) {
            Some(shared) => {
                shared.used.set(true);
                let within = open(shared.shape.each, &within, &shared.table.part, around);
                sound_point(&shared.table, &shared.shape, &within);
                points.push(shared.shape.clone());
            }
            None => {
                let known: Vec<&str> = around.shared.iter().map(|shared| shared.shape.id.as_str()).collect();
                let mend: Saying = match known.is_empty() {
                    true => words::AddPointOfId.into(),
                    false => words::KnownAre { known: known.join(", ") }.into(),
                };
                table.part.fault("use", words::NoPointHasId { id: name }, mend);
            }
        }
    }
    for part in own {
        let own = Table::new(part);
        let Some(shape) = read_point(&own, around) else { continue };
        let within = open(shape.each, &within, &own.part, around);
        sound_point(&own, &shape, &within);
        points.push(shape);
    }
    table.done();
    Some(CardShape { id: id?, each, title: title?, motion: motion?, points })
}

/// The rounds that are known inside, once `each` is opened.
fn open<'a>(
    each: Option<usize>,
    within: &[&'a Round],
    part: &Part<'_>,
    around: &Around<'a, '_>,
) -> Vec<&'a Round> {
    let mut within = within.to_vec();
    let Some(at) = each else { return within };
    if let Some(used) = around.used_rounds.get(at) {
        used.set(true);
    }
    if let Some(round) = around.rounds.get(at) {
        if words_of(&within, &round.name, None).is_some() {
            let what = words::RoundOpenAlready { name: &round.name };
            part.fault("each", what, words::TakeEachOut);
        } else {
            within.push(round);
        }
    }
    within
}

fn times(each: Option<usize>, rounds: &[Round]) -> usize {
    each.and_then(|at| rounds.get(at)).map_or(1, |round| round.values.len())
}

fn check_size(top: &Table<'_>, stations: &[StationShape], rounds: &[Round]) {
    let (mut cards, mut points) = (0usize, 0usize);
    for station in stations {
        for card in &station.cards {
            let copies = times(station.each, rounds) * times(card.each, rounds);
            cards = cards.saturating_add(copies);
            let on_card: usize = card.points.iter().map(|point| times(point.each, rounds)).sum();
            points = points.saturating_add(copies.saturating_mul(on_card));
        }
    }
    if cards > CARDS || points > POINTS {
        top.part.fault(
            "station",
            words::WalkTooLarge { cards: &cards, points: &points },
            words::KeepWalkTo { cards: &CARDS, points: &POINTS },
        );
    }
}

/// An answer is kept by its point's id: two of one id would share it.
fn check_ids(top: &Table<'_>, stations: &[StationShape], rounds: &[Round]) {
    let tails = |id: &str, each: Option<usize>| -> Vec<String> {
        match each.and_then(|at| rounds.get(at)) {
            Some(round) => round.values.iter().map(|value| format!("{id}-{value}")).collect(),
            None => vec![id.to_owned()],
        }
    };
    let twice = |what: &str, ids: Vec<String>| {
        let mut seen = BTreeSet::new();
        for id in ids {
            if !seen.insert(id.clone()) {
                top.part.fault("station", words::TwoHaveId { what: &what, id: &id }, words::RenameOne);
            }
        }
    };
    let mut station_ids = Vec::new();
    for station in stations {
        station_ids.extend(tails(&station.id, station.each));
        let mut card_ids = Vec::new();
        for card in &station.cards {
            let full = |tail: String| format!("{}.{tail}", station.id);
            card_ids.extend(tails(&card.id, card.each).into_iter().map(full));
            let full = |tail: String| format!("{}.{}.{tail}", station.id, card.id);
            let of_point = |point: &PointShape| tails(&point.id, point.each);
            twice("points", card.points.iter().flat_map(of_point).map(full).collect());
        }
        twice("cards", card_ids);
    }
    twice("stations", station_ids);
}
