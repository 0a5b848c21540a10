//! The account for other programs; `core/account/EXPORT.md` documents the schema. The same records give the same bytes,
//! whenever, wherever and in whatever order they came.

use slingseal_catalogue::refusals as words;
use std::io::Write;

use serde::Serialize;

use crate::account::records::standing_word;
use crate::error::said_by_system;
use crate::view::hex;
use crate::walks::record::entry_digest;
use crate::{App, AppError, Inner};
use slingseal_account::report::{Cell, line};
use slingseal_message::seal::{ReceivedSeal, Record};
use slingseal_message::tag::{ReceivedTag, Tag};
use slingseal_store::{DeficiencyRow, Outcome, RecordRow};
use slingseal_words::{GridRef, Quantity, Time, Unit};

/// What every JSON export says first. A field may be added; none is renamed, moved or removed under this name.
pub const EXPORT_SCHEMA: &str = "slingseal.account/1";

/// Which table, for CSV.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ExportTable {
    /// One line a record.
    #[default]
    Records,
    /// One line a deficiency.
    Deficiencies,
    /// One line a piece of equipment on a record.
    Equipment,
}

#[derive(Serialize)]
struct Exported {
    record: String,
    load: String,
    description: Option<String>,
    outcome: &'static str,
    standing: &'static str,
    issued: Moment,
    valid_until: Moment,
    inspector: String,
    rigger: Option<String>,
    procedure: String,
    procedure_version: u32,
    procedure_thumbprint: String,
    edition: Option<&'static str>,
    aircraft: Option<String>,
    gross: Mass,
    allowable: Option<Mass>,
    pickup: Option<Place>,
    destination: Option<Place>,
    walked_at: Option<Place>,
    found: u32,
    corrected: u32,
    deficiencies: Vec<Deficiency>,
    equipment: Vec<Piece>,
    links: Vec<Link>,
    tag: Option<String>,
    tag_signed: bool,
    device: Option<String>,
    whole: bool,
    photos: Vec<String>,
    seal: String,
    weight_source: Option<&'static str>,
    manual: Option<String>,
    manual_edition: Option<String>,
    airspeed: Option<String>,
    airspeed_source: Option<String>,
    edition_ordered: Option<Ordered>,
    leg_serials: Vec<Leg>,
    conditions: Option<Vec<String>>,
    walk_seconds: Option<u32>,
    walk_cards: Option<u32>,
}

#[derive(Serialize)]
struct Ordered {
    procedure: String,
    version: u32,
    thumbprint: String,
}

#[derive(Serialize)]
struct Leg {
    leg: String,
    serial: String,
}

#[derive(Serialize)]
struct Moment {
    utc: String,
    dtg: String,
}

#[derive(Serialize)]
struct Mass {
    written: String,
    kg: Option<f64>,
    lb: Option<f64>,
}

#[derive(Serialize)]
struct Place {
    name: Option<String>,
    mgrs: Option<String>,
    latitude: Option<f64>,
    longitude: Option<f64>,
}

#[derive(Serialize)]
struct Deficiency {
    point: String,
    name: String,
    corrected: bool,
}

#[derive(Serialize)]
struct Piece {
    serial: String,
    kind: String,
    rating: Option<String>,
    rating_newtons: Option<f64>,
    rating_source: Option<String>,
    next_inspection: Option<String>,
}

#[derive(Serialize)]
struct Link {
    leg: String,
    link: u16,
}

impl From<Time> for Moment {
    fn from(time: Time) -> Self {
        Self { utc: time.rfc3339(), dtg: time.dtg() }
    }
}

/// To so many decimals: what stands behind them differs between machines or was never measured.
fn round(value: f64, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    (value * scale).round() / scale
}

impl From<Quantity> for Mass {
    fn from(written: Quantity) -> Self {
        let kg = written.kilograms().map(|mass| mass.value());
        let lb = kg.map(|kg| round(kg / Unit::Lb.si(), 3));
        Self { written: written.to_string(), kg: kg.map(|kg| round(kg, 3)), lb }
    }
}

impl Place {
    fn of(name: Option<String>, grid: Option<&GridRef>) -> Self {
        let middle = grid.map(GridRef::middle);
        Self {
            name,
            mgrs: grid.map(ToString::to_string),
            latitude: middle.map(|(latitude, _)| round(latitude.value(), 5)),
            longitude: middle.map(|(_, longitude)| round(longitude.value(), 5)),
        }
    }

    fn cells(place: Option<&Self>) -> [Cell; 4] {
        let Some(place) = place else { return [Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty] };
        let degrees =
            |value: Option<f64>| value.map_or(Cell::Empty, |value| Cell::plain(format!("{value:.5}")));
        let name = Cell::text(place.name.as_deref().unwrap_or_default());
        let mgrs = place.mgrs.as_ref().map_or(Cell::Empty, Cell::plain);
        [name, mgrs, degrees(place.latitude), degrees(place.longitude)]
    }
}

impl Mass {
    fn cells(mass: Option<&Self>) -> [Cell; 3] {
        let Some(mass) = mass else { return [Cell::Empty, Cell::Empty, Cell::Empty] };
        let number =
            |value: Option<f64>| value.map_or(Cell::Empty, |value| Cell::plain(format!("{value:.3}")));
        [Cell::text(&mass.written), number(mass.kg), number(mass.lb)]
    }
}

const RECORDS: &str = "record,load,description,outcome,standing,issued_utc,issued_dtg,valid_until_utc,valid_until_dtg,\
    inspector,rigger,procedure,procedure_version,aircraft,gross,gross_kg,gross_lb,allowable,allowable_kg,allowable_lb,\
    pickup,pickup_mgrs,pickup_latitude,pickup_longitude,destination,destination_mgrs,destination_latitude,\
    destination_longitude,walked_mgrs,found,corrected,tag,tag_signed,device,whole,seal,\
    weight_source,manual,manual_edition,airspeed,airspeed_source,edition_ordered,leg_serials,conditions,procedure_thumbprint,edition,walk_seconds,walk_cards\r\n";
const DEFICIENCIES: &str =
    "record,load,issued_utc,issued_dtg,inspector,rigger,procedure,point,deficiency,corrected\r\n";
const EQUIPMENT: &str = "record,load,issued_utc,issued_dtg,inspector,pickup,aircraft,serial,kind,rating,\
    rating_newtons,rating_source,next_inspection\r\n";

impl Exported {
    fn text(value: Option<&String>) -> Cell {
        Cell::text(value.map(String::as_str).unwrap_or_default())
    }

    fn lines(&self, table: ExportTable) -> Vec<String> {
        match table {
            ExportTable::Records => vec![line(&self.record_cells())],
            ExportTable::Deficiencies => self.deficiencies.iter().map(|one| line(&self.with(one))).collect(),
            ExportTable::Equipment => self.equipment.iter().map(|one| line(&self.piece(one))).collect(),
        }
    }

    fn head(&self) -> Vec<Cell> {
        vec![
            Cell::plain(&self.record),
            Cell::text(&self.load),
            Cell::plain(&self.issued.utc),
            Cell::plain(&self.issued.dtg),
            Cell::text(&self.inspector),
        ]
    }

    fn with(&self, one: &Deficiency) -> Vec<Cell> {
        let mut cells = self.head();
        cells.extend([
            Self::text(self.rigger.as_ref()),
            Cell::text(&self.procedure),
            Cell::text(&one.point),
            Cell::text(&one.name),
            Cell::plain(one.corrected),
        ]);
        cells
    }

    fn piece(&self, one: &Piece) -> Vec<Cell> {
        let mut cells = self.head();
        let newtons = one.rating_newtons.map_or(Cell::Empty, |newtons| Cell::plain(format!("{newtons:.1}")));
        cells.extend([
            Self::text(self.pickup.as_ref().and_then(|place| place.name.as_ref())),
            Self::text(self.aircraft.as_ref()),
            Cell::text(&one.serial),
            Cell::text(&one.kind),
            Self::text(one.rating.as_ref()),
            newtons,
            Self::text(one.rating_source.as_ref()),
            one.next_inspection.as_ref().map_or(Cell::Empty, Cell::plain),
        ]);
        cells
    }

    /// As a load list writes them.
    fn joined_legs(&self) -> String {
        let legs: Vec<String> =
            self.leg_serials.iter().map(|one| format!("{}:{}", one.leg, one.serial)).collect();
        legs.join("; ")
    }

    fn record_cells(&self) -> Vec<Cell> {
        let mut cells = vec![
            Cell::plain(&self.record),
            Cell::text(&self.load),
            Self::text(self.description.as_ref()),
            Cell::plain(self.outcome),
            Cell::plain(self.standing),
            Cell::plain(&self.issued.utc),
            Cell::plain(&self.issued.dtg),
            Cell::plain(&self.valid_until.utc),
            Cell::plain(&self.valid_until.dtg),
            Cell::text(&self.inspector),
            Self::text(self.rigger.as_ref()),
            Cell::text(&self.procedure),
            Cell::plain(self.procedure_version),
            Self::text(self.aircraft.as_ref()),
        ];
        cells.extend(Mass::cells(Some(&self.gross)));
        cells.extend(Mass::cells(self.allowable.as_ref()));
        cells.extend(Place::cells(self.pickup.as_ref()));
        cells.extend(Place::cells(self.destination.as_ref()));
        let walked = self.walked_at.as_ref().and_then(|place| place.mgrs.as_ref());
        cells.extend([
            walked.map_or(Cell::Empty, Cell::plain),
            Cell::plain(self.found),
            Cell::plain(self.corrected),
            self.tag.as_ref().map_or(Cell::Empty, Cell::plain),
            Cell::plain(self.tag_signed),
            self.device.as_ref().map_or(Cell::Empty, Cell::plain),
            Cell::plain(self.whole),
            Cell::text(&self.seal),
            self.weight_source.map_or(Cell::Empty, Cell::plain),
            Self::text(self.manual.as_ref()),
            Self::text(self.manual_edition.as_ref()),
            Self::text(self.airspeed.as_ref()),
            Self::text(self.airspeed_source.as_ref()),
            self.edition_ordered.as_ref().map_or(Cell::Empty, |one| {
                Cell::text(&format!("{} {} {}", one.procedure, one.version, one.thumbprint))
            }),
            Cell::text(&self.joined_legs()),
            self.conditions.as_ref().map_or(Cell::Empty, |list| {
                Cell::text(&if list.is_empty() { "none".to_owned() } else { list.join("; ") })
            }),
            Cell::plain(&self.procedure_thumbprint),
            self.edition.map_or(Cell::Empty, Cell::plain),
            self.walk_seconds.map_or(Cell::Empty, Cell::plain),
            self.walk_cards.map_or(Cell::Empty, Cell::plain),
        ]);
        cells
    }
}

impl App {
    /// Writes a table of the account as CSV: RFC 4180, UTF-8, CR LF, the first sealed first. A text that a spreadsheet would
    /// take for a formula begins with an apostrophe. Answers how many lines follow the head.
    ///
    /// # Errors
    /// What the writer meets; storage.
    pub fn export_csv(&self, table: ExportTable, out: &mut dyn Write) -> Result<u64, AppError> {
        let head = match table {
            ExportTable::Records => RECORDS,
            ExportTable::Deficiencies => DEFICIENCIES,
            ExportTable::Equipment => EQUIPMENT,
        };
        out.write_all(head.as_bytes()).map_err(io)?;
        let mut lines = 0;
        let mut inner = self.lock();
        inner.learn_walk_facts()?;
        inner.each_exported(|exported| {
            for line in exported.lines(table) {
                out.write_all(line.as_bytes()).map_err(io)?;
                lines += 1;
            }
            Ok(())
        })?;
        Ok(lines)
    }

    /// Writes the account as one JSON document, `{"schema": …, "records": [ … ]}`, a record a line, the first sealed first.
    /// Answers how many records.
    ///
    /// # Errors
    /// What the writer meets; storage.
    pub fn export_json(&self, out: &mut dyn Write) -> Result<u64, AppError> {
        write!(out, "{{\"schema\":\"{EXPORT_SCHEMA}\",\"records\":[").map_err(io)?;
        let mut records = 0;
        let mut inner = self.lock();
        inner.learn_walk_facts()?;
        inner.each_exported(|exported| {
            let text = serde_json::to_string(&exported).map_err(AppError::internal)?;
            write!(out, "{}\n{text}", if records == 0 { "" } else { "," }).map_err(io)?;
            records += 1;
            Ok(())
        })?;
        out.write_all(b"\n]}\n").map_err(io)?;
        Ok(records)
    }
}

pub(crate) fn io(error: std::io::Error) -> AppError {
    AppError::bad_input(words::ExportCannotWrittenNameAnother { error: said_by_system(&error) })
}

impl Inner {
    fn each_exported(&self, mut take: impl FnMut(Exported) -> Result<(), AppError>) -> Result<(), AppError> {
        let read = self.store.read();
        let trusted = self.trusted()?;
        read.each_in_order(|row| -> Result<(), AppError> {
            let missing = || AppError::StorageDamaged {
                message: words::RecordHasNoBytes { digest: row.digest.short() }.into(),
            };
            let bytes = read.record_bytes(row.seal)?.ok_or_else(missing)?;
            let deficiencies = read.deficiencies_of(row.seal)?;
            let seal = ReceivedSeal::open(&bytes.seal)?.seal;
            let record = bytes.body.as_deref().map(|body| Record::parse(body, &entry_digest)).transpose()?;
            let known = match (&record, row.tag) {
                (Some(record), _) => Some(record.tag.clone()),
                (None, Some(digest)) => read.tag(digest)?.map(|row| row.bytes),
                (None, None) => None,
            };
            let tag = known.as_deref().map(ReceivedTag::open).transpose()?.map(|received| received.tag);
            let text =
                slingseal_message::envelope::wrap(slingseal_message::envelope::Kind::Seal, &bytes.seal);
            let edition = self.walked_by(&row, &trusted)?.map(|by| by.state.word());
            let mut exported =
                exported(&row, &seal, record.as_ref(), tag.as_ref(), &deficiencies, edition, text);
            if let Some(walked) = read.walk_facts_of(row.seal)? {
                exported.walk_seconds = u32::try_from(walked.took.0).ok();
                exported.walk_cards = Some(walked.cards);
            }
            take(exported)
        })
    }
}

fn some(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| text.to_owned())
}

fn exported(
    row: &RecordRow,
    seal: &slingseal_message::seal::Seal,
    record: Option<&Record>,
    tag: Option<&Tag>,
    deficiencies: &[DeficiencyRow],
    edition: Option<&'static str>,
    text: String,
) -> Exported {
    let place =
        |zone: &slingseal_message::tag::Zone| Place::of(Some(zone.name.to_string()), zone.grid.as_ref());
    let basis = tag.map(|tag| tag.basis.clone()).unwrap_or_default();
    Exported {
        record: row.digest.to_string(),
        load: row.load.clone(),
        description: tag.map(|tag| tag.description.to_string()),
        outcome: if row.outcome == Outcome::Fit { "fit" } else { "not_fit" },
        standing: standing_word(row.standing()),
        issued: row.issued.into(),
        valid_until: row.valid_until.into(),
        inspector: row.inspector.clone(),
        rigger: some(&row.rigger),
        procedure: row.procedure.clone(),
        procedure_version: seal.version,
        procedure_thumbprint: hex(&seal.procedure_print),
        edition,
        aircraft: some(&row.aircraft),
        gross: seal.mass.into(),
        allowable: tag.map(|tag| tag.allowable.into()),
        pickup: tag.map(|tag| place(&tag.pickup)),
        destination: tag.map(|tag| place(&tag.destination)),
        walked_at: record.and_then(|record| record.place.as_ref()).map(|grid| Place::of(None, Some(grid))),
        found: row.found,
        corrected: row.corrected,
        deficiencies: deficiencies
            .iter()
            .map(|one| Deficiency {
                point: one.point.clone(),
                name: one.name.clone(),
                corrected: one.corrected,
            })
            .collect(),
        equipment: tag.map(pieces).unwrap_or_default(),
        links: tag
            .iter()
            .flat_map(|tag| &tag.links)
            .map(|count| Link { leg: count.leg.to_string(), link: count.link })
            .collect(),
        tag: row.tag.map(|digest| digest.to_string()),
        tag_signed: seal.tag_signed,
        device: row.device.map(|device| hex(&device.0)),
        whole: record.is_some(),
        photos: record
            .map(|record| record.photos.iter().map(ToString::to_string).collect())
            .unwrap_or_default(),
        seal: text,
        weight_source: basis.weight_source.map(slingseal_message::tag::WeightSource::word),
        manual: basis.manual.as_ref().map(|one| one.title.to_string()),
        manual_edition: basis.manual.as_ref().map(|one| one.edition.to_string()),
        airspeed: basis.airspeed.as_ref().map(|one| one.limit.to_string()),
        airspeed_source: basis.airspeed.as_ref().map(|one| one.source.to_string()),
        edition_ordered: basis.edition.as_ref().map(|one| Ordered {
            procedure: one.procedure.to_string(),
            version: one.version,
            thumbprint: hex(&one.thumbprint),
        }),
        leg_serials: basis
            .leg_serials
            .iter()
            .map(|one| Leg { leg: one.leg.to_string(), serial: one.serial.to_string() })
            .collect(),
        conditions: basis.conditions.as_ref().map(|set| set.iter().map(ToString::to_string).collect()),
        walk_seconds: None,
        walk_cards: None,
    }
}

fn pieces(tag: &Tag) -> Vec<Piece> {
    let pieces = tag.equipment.iter().map(|piece| Piece {
        serial: piece.serial.to_string(),
        kind: piece.kind.to_string(),
        rating: piece.rating.as_ref().map(|rating| rating.value.to_string()),
        rating_newtons: piece
            .rating
            .as_ref()
            .and_then(|rating| rating.value.newtons())
            .map(|newtons| round(newtons.value(), 1)),
        rating_source: piece.rating.as_ref().map(|rating| rating.source.to_string()),
        next_inspection: piece.next_inspection.map(Time::date),
    });
    pieces.collect()
}
