//! A load list: one tag a line, as a planner keeps it in a spreadsheet.

use std::collections::BTreeMap;

use super::basis::{
    AirspeedLimit, Basis, Condition, LegSerial, MOST_CONDITIONS, Manual, WeightSource, twice,
};
use super::noun::{Equipment, EquipmentRating, LinkCount, MOST_EQUIPMENT, MOST_LEGS, Tag, Zone};
use super::plan::agreeing;
use slingseal_rigging::{self as rigging, RiggedLoad};
use slingseal_words::{
    CallSign, Degrees, Description, Dimension, Fault, Faults, GridPrecision, GridRef, LoadNumber, Name,
    PlaceName, ProcedureId, Quantity, Serial, Source, Spot, Time,
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
    let mut whole = |what: String, mend: &str| faults.push(Fault { spot: start, what, mend: mend.into() });
    if text.len() > LARGEST {
        whole(format!("the list has {} bytes", text.len()), "split it");
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
            whole(
                format!("the head line cannot be read: {error}"),
                "write the names of the columns, comma between",
            );
            return Vec::new();
        }
    };
    for needed in NEEDED {
        if !heads.iter().any(|head| head == needed) {
            whole(format!("there is no column \"{needed}\""), "add it to the head line");
        }
    }
    for (at, head) in heads.iter().enumerate() {
        let spot = Spot { line: 1, column: at + 1 };
        let known = NEEDED.contains(&head.as_str()) || MAYBE.contains(&head.as_str());
        let again = heads.iter().take(at).any(|earlier| earlier == head);
        if !known {
            let mend = format!("use {} or {}, or take it out", NEEDED.join(", "), MAYBE.join(", "));
            faults.push(Fault { spot, what: format!("no column \"{head}\" is known"), mend });
        } else if again {
            let what = format!("the column \"{head}\" is there twice");
            faults.push(Fault { spot, what, mend: "take one out".into() });
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
                let what = "the line cannot be read".to_owned();
                faults.push(Fault { spot, what, mend: "close its quotes; write UTF-8".into() });
                continue;
            }
        };
        let line =
            record.position().map_or(1, |position| usize::try_from(position.line()).unwrap_or(usize::MAX));
        if record.iter().all(str::is_empty) {
            continue;
        }
        if tags.len() >= MOST_LOADS {
            let what = format!("there are more than {MOST_LOADS} loads");
            faults.push(Fault { spot: Spot { line, column: 1 }, what, mend: "split the list".into() });
            break;
        }
        if record.len() > heads.len() {
            let what = format!("there are {} fields and {} columns", record.len(), heads.len());
            let mend = "put a field with a comma in it into quotes".into();
            faults.push(Fault { spot: Spot { line, column: heads.len() + 1 }, what, mend });
            continue;
        }
        let fields = Fields { heads: &heads, record: &record, line, faults };
        let Some(tag) = fields.tag(now, open) else { continue };
        match lines.insert(tag.load.to_string(), line) {
            Some(earlier) => {
                let column = heads.iter().position(|head| head == "load").unwrap_or(0) + 1;
                let what = format!("load {} stands on line {earlier} already", tag.load);
                let mend = "give each load a number of its own".into();
                faults.push(Fault { spot: Spot { line, column }, what, mend });
            }
            None => tags.push(tag),
        }
    }
    if tags.is_empty() && faults.is_empty() {
        let mend = "write one line a load under the head line".into();
        faults.push(Fault { spot: start, what: "the list has no load".into(), mend });
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

    fn fault(&mut self, name: &str, what: impl std::fmt::Display, mend: &str) {
        let column = self.heads.iter().position(|head| head == name).map_or(1, |at| at + 1);
        let spot = Spot { line: self.line, column };
        self.faults.push(Fault { spot, what: format!("{name}: {what}"), mend: mend.into() });
    }

    fn maybe<T, E: std::fmt::Display>(
        &mut self,
        name: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        let text = self.text(name)?;
        match read(&text) {
            Ok(value) => Some(value),
            Err(error) => {
                // The words' own errors say what to do behind a semicolon.
                let said = error.to_string();
                let (what, mend) = said.split_once("; ").unwrap_or((&said, "write it anew"));
                self.fault(name, what, mend);
                None
            }
        }
    }

    fn need<T, E: std::fmt::Display>(
        &mut self,
        name: &str,
        read: impl Fn(&str) -> Result<T, E>,
    ) -> Option<T> {
        if self.text(name).is_none() {
            self.fault(name, "the field is empty", "fill it in");
        }
        self.maybe(name, read)
    }

    fn mass(&mut self, name: &str) -> Option<Quantity> {
        self.need(name, |text| {
            let mass = Quantity::parse_as(text, Dimension::Mass)
                .map_err(|error| format!("{error}; write a number with kg, lb or t, such as 5000 lb"))?;
            if mass.thousandths() > 0 {
                Ok(mass)
            } else {
                Err("it is not above nought; write the mass".to_owned())
            }
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
            if twice(&list) {
                Err("a leg stands there twice; give each leg one serial".to_owned())
            } else {
                Ok(list)
            }
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
                .map_err(|error| format!("{name}: {error}; name a rigging file beside the list"))?;
            rigging::read(&text).map_err(|faults| {
                let first = faults.iter().next().map(ToString::to_string).unwrap_or_default();
                format!("{name}: {first}")
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
fn place_of(text: &str) -> Result<GridRef, String> {
    let degrees: Vec<&str> = text.split([',', ' ']).map(str::trim).filter(|part| !part.is_empty()).collect();
    if let [latitude, longitude] = degrees.as_slice()
        && let (Ok(latitude), Ok(longitude)) = (latitude.parse::<f64>(), longitude.parse::<f64>())
    {
        let degrees = |value| Degrees::new(value).map_err(|_| format!("{text} is no place; write degrees"));
        return GridRef::of(degrees(latitude)?, degrees(longitude)?, GridPrecision::M10)
            .map_err(|error| error.to_string());
    }
    GridRef::new(text).map_err(|error| error.to_string())
}

fn parts<T>(text: &str, most: usize, read: fn(&str) -> Result<T, String>) -> Result<Vec<T>, String> {
    let parts: Vec<&str> = text.split(';').map(str::trim).filter(|part| !part.is_empty()).collect();
    if parts.len() > most {
        return Err(format!("{} are more than fit on a tag; keep {most} at most", parts.len()));
    }
    parts.into_iter().map(read).collect()
}

/// `KIND | SERIAL | RATING | SOURCE | NEXT INSPECTION`, the last three optional.
fn piece(text: &str) -> Result<Equipment, String> {
    const MEND: &str = "write kind | serial | rating | source of the rating | next inspection";
    let fields: Vec<&str> = text.split('|').map(str::trim).collect();
    let field = |at: usize| fields.get(at).copied().filter(|text| !text.is_empty());
    let (Some(kind), Some(serial)) = (field(0), field(1)) else {
        return Err(format!("\"{text}\" has no kind and serial number; {MEND}"));
    };
    if fields.len() > 5 {
        return Err(format!("\"{text}\" has more than five parts; {MEND}"));
    }
    let rating = match (field(2), field(3)) {
        (None, _) => None,
        (Some(_), None) => return Err(format!("the rating of {serial} has no source; {MEND}")),
        (Some(value), Some(source)) => Some(EquipmentRating {
            value: Quantity::parse(value)
                .ok()
                .filter(|value| value.newtons().is_some() && value.thousandths() > 0)
                .ok_or_else(|| {
                    format!("\"{value}\" is no rating; write a number with lb, kg, t, kN or lbf")
                })?,
            source: Source::new(source).map_err(|error| error.to_string())?,
        }),
    };
    let due = field(4).map(Time::parse).transpose().map_err(|error| error.to_string())?;
    let day = |time: Time| Time::parse(&time.date()).ok();
    Ok(Equipment {
        kind: Name::new(kind).map_err(|error| error.to_string())?,
        serial: Serial::new(serial).map_err(|error| error.to_string())?,
        rating,
        next_inspection: due.and_then(day),
    })
}

/// `LEG:SERIAL`.
fn leg_serial(text: &str) -> Result<LegSerial, String> {
    let wrong = || format!("\"{text}\" is no leg with its serial; write 1:SL-0091; 2:SL-0092 and so on");
    let (leg, serial) = text.split_once(':').ok_or_else(wrong)?;
    let leg = Name::new(leg).map_err(|error| error.to_string())?;
    Ok(LegSerial { leg, serial: Serial::new(serial).map_err(|error| error.to_string())? })
}

/// `TITLE | EDITION`.
fn manual(text: &str) -> Result<Manual, String> {
    let wrong = || format!("\"{text}\" is no manual with its edition; write title | edition");
    let (title, edition) = text.split_once('|').ok_or_else(wrong)?;
    let title = Source::new(title).map_err(|error| error.to_string())?;
    Ok(Manual { title, edition: Name::new(edition).map_err(|error| error.to_string())? })
}

/// `LIMIT | SOURCE`.
fn airspeed(text: &str) -> Result<AirspeedLimit, String> {
    const MEND: &str = "write limit | source, such as 80 kt | the manual's row";
    let (limit, source) = text.split_once('|').ok_or_else(|| format!("\"{text}\" has no source; {MEND}"))?;
    let limit = Quantity::parse_as(limit, Dimension::Speed).map_err(|error| format!("{error}; {MEND}"))?;
    if limit.thousandths() <= 0 {
        return Err(format!("the limit is not above nought; {MEND}"));
    }
    Ok(AirspeedLimit { limit, source: Source::new(source).map_err(|error| error.to_string())? })
}

/// Names, `;` between; `none` where none of the procedure's conditions holds.
fn conditions(text: &str) -> Result<std::collections::BTreeSet<Condition>, String> {
    if text.eq_ignore_ascii_case("none") {
        return Ok(std::collections::BTreeSet::new());
    }
    Ok(parts(text, MOST_CONDITIONS, Condition::new)?.into_iter().collect())
}

/// `LEG:LINK`.
fn link(text: &str) -> Result<LinkCount, String> {
    let wrong = || format!("\"{text}\" is no leg with its link; write 1:3; 2:3 and so on");
    let (leg, link) = text.split_once(':').ok_or_else(wrong)?;
    let link = link.trim().parse::<u16>().ok().filter(|link| (1..=2_000).contains(link)).ok_or_else(wrong)?;
    Ok(LinkCount { leg: Name::new(leg).map_err(|error| error.to_string())?, link })
}
