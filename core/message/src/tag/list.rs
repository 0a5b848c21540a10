//! A load list: one tag a line, as a planner keeps it in a spreadsheet.

use slingseal_catalogue::files as words;
use std::collections::BTreeMap;

use super::basis::{
    AirspeedLimit, Basis, Condition, LegSerial, MOST_CONDITIONS, MOST_LEGS, Manual, WeightSource, twice,
};
use super::noun::{Equipment, EquipmentRating, LinkCount, MOST_EQUIPMENT, Tag, Zone};
use super::plan::agreeing;
use slingseal_rigging::{self as rigging, RiggedLoad};
use slingseal_words::{
    CallSign, Degrees, Description, Dimension, Fault, Faults, GridPrecision, GridRef, LoadNumber, Name,
    PlaceName, ProcedureId, Quantity, Saying, Serial, Source, Spot, Time,
};

/// The columns that must be there.
const NEEDED: [&str; 8] =
    ["load", "description", "procedure", "gross", "aircraft", "allowable", "pickup", "destination"];
/// The columns that may be there.
const MAYBE: [&str; 12] = [
    "pickup_grid",
    "destination_grid",
    "rigger",
    "planned",
    "rigging",
    "equipment",
    "links",
    "legs",
    "weight_source",
    "manual",
    "airspeed",
    "when",
];
/// More is no list of one zone's loads.
const MOST_LOADS: usize = 2_000;
/// Larger than any list that a person keeps.
const LARGEST: usize = 4 << 20;

/// Reads a load list: CSV with a head line, in any order of columns. `open` gives the text of a rigging file that a line
/// names; `now` is the time of planning where a line names none.
///
/// # Errors
/// Every fault with its line and column (counted in characters of the line for the first, in fields for what is in a field:
/// the message names the column), and its mend.
pub fn read_list(
    text: &str,
    now: Time,
    open: &dyn Fn(&str) -> Result<String, String>,
) -> Result<Vec<Tag>, Faults> {
    let mut faults = Vec::new();
    let tags = read(text, now, open, &mut faults);
    Faults::new(faults).map_or(Ok(tags), Err)
}

fn read(
    text: &str,
    now: Time,
    open: &dyn Fn(&str) -> Result<String, String>,
    faults: &mut Vec<Fault>,
) -> Vec<Tag> {
    let start = Spot { line: 1, column: 1 };
    let mut whole = |what: Saying, mend: Saying| faults.push(Fault::new(start, what, mend));
    if text.len() > LARGEST {
        whole(words::ListTooLarge { size: text.len() }.into(), words::SplitIt.into());
        return Vec::new();
    }
    // A spreadsheet may put a mark in front, and write semicolons where the comma is a decimal sign.
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let head = text.lines().next().unwrap_or_default();
    let delimiter = if head.contains(';') && !head.contains(',') { b';' } else { b',' };
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .flexible(true)
        .trim(csv::Trim::All)
        .has_headers(true)
        .from_reader(text.as_bytes());
    let heads: Vec<String> = match reader.headers() {
        Ok(heads) => heads.iter().map(|head| head.to_ascii_lowercase().replace([' ', '-'], "_")).collect(),
        Err(error) => {
            let what = words::HeadLineUnreadable { error: error.to_string() };
            whole(what.into(), words::WriteColumnNames.into());
            return Vec::new();
        }
    };
    for needed in NEEDED {
        if !heads.iter().any(|head| head == needed) {
            whole(words::NoColumn { column: needed }.into(), words::AddToHeadLine.into());
        }
    }
    for (at, head) in heads.iter().enumerate() {
        let spot = Spot { line: 1, column: at + 1 };
        let known = NEEDED.contains(&head.as_str()) || MAYBE.contains(&head.as_str());
        let again = heads.iter().take(at).any(|earlier| earlier == head);
        if !known {
            let mend = words::UseColumns { needed: NEEDED.join(", "), other: MAYBE.join(", ") };
            faults.push(Fault::new(spot, words::ColumnNotKnown { column: head }, mend));
        } else if again {
            faults.push(Fault::new(spot, words::ColumnTwice { column: head }, words::TakeOneOut));
        }
    }
    if !faults.is_empty() {
        return Vec::new();
    }
    let mut tags: Vec<Tag> = Vec::new();
    let mut lines: BTreeMap<String, usize> = BTreeMap::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(1, |position| position.line());
                let spot = Spot { line: usize::try_from(line).unwrap_or(usize::MAX), column: 1 };
                faults.push(Fault::new(spot, words::LineUnreadable, words::CloseQuotes));
                continue;
            }
        };
        let line =
            record.position().map_or(1, |position| usize::try_from(position.line()).unwrap_or(usize::MAX));
        if record.iter().all(str::is_empty) {
            continue;
        }
        if tags.len() >= MOST_LOADS {
            let what = words::MoreLoadsThan { most: MOST_LOADS };
            faults.push(Fault::new(Spot { line, column: 1 }, what, words::SplitTheList));
            break;
        }
        if record.len() > heads.len() {
            let what = words::FieldsAndColumns { fields: record.len(), columns: heads.len() };
            faults.push(Fault::new(Spot { line, column: heads.len() + 1 }, what, words::QuoteTheComma));
            continue;
        }
        let fields = Fields { heads: &heads, record: &record, line, faults };
        let Some(tag) = fields.tag(now, open) else { continue };
        match lines.insert(tag.load.to_string(), line) {
            Some(earlier) => {
                let column = heads.iter().position(|head| head == "load").unwrap_or(0) + 1;
                let what = words::LoadStandsAlready { load: &tag.load, line: earlier };
                faults.push(Fault::new(Spot { line, column }, what, words::OwnNumberEach));
            }
            None => tags.push(tag),
        }
    }
    if tags.is_empty() && faults.is_empty() {
        faults.push(Fault::new(start, words::ListHasNoLoad, words::OneLineALoad));
    }
    tags
}

/// The fields of one line; each getter tells its own fault and answers `None`, so that reading goes on.
struct Fields<'l> {
    heads: &'l [String],
    record: &'l csv::StringRecord,
    line: usize,
    faults: &'l mut Vec<Fault>,
}

impl Fields<'_> {
    fn text(&self, name: &str) -> Option<String> {
        let at = self.heads.iter().position(|head| head == name)?;
        self.record.get(at).filter(|text| !text.is_empty()).map(str::to_owned)
    }

    fn fault(&mut self, name: &str, what: impl Into<Saying>, mend: impl Into<Saying>) {
        let column = self.heads.iter().position(|head| head == name).map_or(1, |at| at + 1);
        let spot = Spot { line: self.line, column };
        self.faults.push(Fault::of(spot, words::FieldIsWrong { field: name, what: what.into() }, mend));
    }

    fn maybe<T, E: Into<Saying>>(&mut self, name: &str, read: impl Fn(&str) -> Result<T, E>) -> Option<T> {
        let text = self.text(name)?;
        // The words' own errors say what to do behind a semicolon.
        read(&text).map_err(|error| self.fault(name, error, words::WriteItAnew)).ok()
    }

    fn need<T, E: Into<Saying>>(&mut self, name: &str, read: impl Fn(&str) -> Result<T, E>) -> Option<T> {
        if self.text(name).is_none() {
            self.fault(name, words::FieldIsEmpty, words::FillItIn);
        }
        self.maybe(name, read)
    }

    fn mass(&mut self, name: &str) -> Option<Quantity> {
        self.need(name, |text| {
            let mass = Quantity::parse_as(text, Dimension::Mass)
                .map_err(|error| words::MassIsWrong { error }.saying())?;
            if mass.thousandths() > 0 { Ok(mass) } else { Err(words::MassNotAboveZero.saying()) }
        })
    }

    fn zone(&mut self, name: &'static str, grid: &'static str) -> Option<Zone> {
        let place = self.need(name, PlaceName::new);
        let had = self.text(grid).is_some();
        let grid = self.maybe(grid, place_of);
        (grid.is_some() || !had).then_some(())?;
        Some(Zone { name: place?, grid })
    }

    /// What the load was planned and rigged by.
    fn basis(&mut self) -> Option<Basis> {
        let leg_serials = self.maybe("legs", |text| {
            let list = parts(text, MOST_LEGS, leg_serial)?;
            if twice(&list) { Err(words::LegTwiceOneSerial.saying()) } else { Ok(list) }
        });
        Some(Basis {
            manual: self.maybe("manual", manual),
            leg_serials: leg_serials.unwrap_or_default(),
            weight_source: self.maybe("weight_source", WeightSource::of_word),
            airspeed: self.maybe("airspeed", airspeed),
            edition: None,
            conditions: self.maybe("when", conditions),
        })
    }

    fn tag(mut self, now: Time, open: &dyn Fn(&str) -> Result<String, String>) -> Option<Tag> {
        let before = self.faults.len();
        let load = self.need("load", LoadNumber::new);
        let description = self.need("description", Description::new);
        let procedure = self.need("procedure", ProcedureId::new);
        let gross = self.mass("gross");
        let aircraft = self.need("aircraft", Name::new);
        let allowable = self.mass("allowable");
        let pickup = self.zone("pickup", "pickup_grid");
        let destination = self.zone("destination", "destination_grid");
        let rigger = self.maybe("rigger", CallSign::new);
        let planned = self.maybe("planned", Time::parse).unwrap_or(now);
        let equipment =
            self.maybe("equipment", |text| parts(text, MOST_EQUIPMENT, piece)).unwrap_or_default();
        let links = self.maybe("links", |text| parts(text, MOST_LEGS, link)).unwrap_or_default();
        let basis = self.basis();
        let rigging = self.text("rigging").is_some();
        let planned_rigging: Option<RiggedLoad> = self.maybe("rigging", |name| {
            let text = open(name)
                .map_err(|error| words::RiggingFileBeside { name, error: error.to_string() }.saying())?;
            rigging::read(&text).map_err(|faults| -> Saying {
                let first = faults.iter().next().map(Fault::saying);
                words::FileIsWrong { name, error: first.unwrap_or_else(|| Saying::verbatim("")) }.into()
            })
        });
        if self.faults.len() > before {
            return None;
        }
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
            equipment,
            links,
            rigging: None,
            basis: basis?,
        };
        if rigging {
            match agreeing(&tag, planned_rigging?) {
                Ok(agreed) => tag.rigging = Some(agreed),
                Err((what, mend)) => {
                    self.fault("rigging", what, mend);
                    return None;
                }
            }
        }
        Some(tag)
    }
}

/// A grid reference, or latitude and longitude in degrees, which become one of ten metres.
fn place_of(text: &str) -> Result<GridRef, Saying> {
    let degrees: Vec<&str> = text.split([',', ' ']).map(str::trim).filter(|part| !part.is_empty()).collect();
    if let [latitude, longitude] = degrees.as_slice()
        && let (Ok(latitude), Ok(longitude)) = (latitude.parse::<f64>(), longitude.parse::<f64>())
    {
        let degrees = |value| Degrees::new(value).map_err(|_| words::NoPlaceWriteDegrees { text }.saying());
        return GridRef::of(degrees(latitude)?, degrees(longitude)?, GridPrecision::M10)
            .map_err(Saying::from);
    }
    GridRef::new(text).map_err(Saying::from)
}

fn parts<T>(text: &str, most: usize, read: fn(&str) -> Result<T, Saying>) -> Result<Vec<T>, Saying> {
    let parts: Vec<&str> = text.split(';').map(str::trim).filter(|part| !part.is_empty()).collect();
    if parts.len() > most {
        return Err(words::MoreThanFitKeep { count: parts.len(), most }.into());
    }
    parts.into_iter().map(read).collect()
}

/// `KIND | SERIAL | RATING | SOURCE | NEXT INSPECTION`, the last three optional.
fn piece(text: &str) -> Result<Equipment, Saying> {
    let fields: Vec<&str> = text.split('|').map(str::trim).collect();
    let field = |at: usize| fields.get(at).copied().filter(|text| !text.is_empty());
    let (Some(kind), Some(serial)) = (field(0), field(1)) else {
        return Err(words::PieceNoKindAndSerial { text }.into());
    };
    if fields.len() > 5 {
        return Err(words::PieceMoreThanFive { text }.into());
    }
    let rating = match (field(2), field(3)) {
        (None, _) => None,
        (Some(_), None) => return Err(words::PieceRatingNoSource { serial }.into()),
        (Some(value), Some(source)) => Some(EquipmentRating {
            value: Quantity::parse(value)
                .ok()
                .filter(|value| value.newtons().is_some() && value.thousandths() > 0)
                .ok_or_else(|| words::NoRating { value }.saying())?,
            source: Source::new(source).map_err(Saying::from)?,
        }),
    };
    let due = field(4).map(Time::parse).transpose().map_err(Saying::from)?;
    let day = |time: Time| Time::parse(&time.date()).ok();
    Ok(Equipment {
        kind: Name::new(kind).map_err(Saying::from)?,
        serial: Serial::new(serial).map_err(Saying::from)?,
        rating,
        next_inspection: due.and_then(day),
    })
}

/// `LEG:SERIAL`.
fn leg_serial(text: &str) -> Result<LegSerial, Saying> {
    let wrong = || words::NoLegWithSerial { text }.saying();
    let (leg, serial) = text.split_once(':').ok_or_else(wrong)?;
    let leg = Name::new(leg).map_err(Saying::from)?;
    Ok(LegSerial { leg, serial: Serial::new(serial).map_err(Saying::from)? })
}

/// `TITLE | EDITION`.
fn manual(text: &str) -> Result<Manual, Saying> {
    let wrong = || words::NoManualWithEdition { text }.saying();
    let (title, edition) = text.split_once('|').ok_or_else(wrong)?;
    let title = Source::new(title).map_err(Saying::from)?;
    Ok(Manual { title, edition: Name::new(edition).map_err(Saying::from)? })
}

/// `LIMIT | SOURCE`.
fn airspeed(text: &str) -> Result<AirspeedLimit, Saying> {
    let (limit, source) = text.split_once('|').ok_or_else(|| words::AirspeedNoSource { text }.saying())?;
    let limit = Quantity::parse_as(limit, Dimension::Speed)
        .map_err(|error| words::AirspeedIsWrong { error }.saying())?;
    if limit.thousandths() <= 0 {
        return Err(words::AirspeedNotAboveZero.into());
    }
    Ok(AirspeedLimit { limit, source: Source::new(source).map_err(Saying::from)? })
}

/// Names, `;` between; `none` where none of the procedure's conditions holds.
fn conditions(text: &str) -> Result<std::collections::BTreeSet<Condition>, Saying> {
    if text.eq_ignore_ascii_case("none") {
        return Ok(std::collections::BTreeSet::new());
    }
    Ok(parts(text, MOST_CONDITIONS, Condition::new)?.into_iter().collect())
}

/// `LEG:LINK`.
fn link(text: &str) -> Result<LinkCount, Saying> {
    let wrong = || words::NoLegWithLink { text }.saying();
    let (leg, link) = text.split_once(':').ok_or_else(wrong)?;
    let link = link.trim().parse::<u16>().ok().filter(|link| (1..=2_000).contains(link)).ok_or_else(wrong)?;
    Ok(LinkCount { leg: Name::new(leg).map_err(Saying::from)?, link })
}
