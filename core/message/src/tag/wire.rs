use super::basis::{Basis, FIRST_KEY, MOST_LEGS};
use super::noun::{Equipment, EquipmentRating, LinkCount, MOST_EQUIPMENT, Tag, Zone};
use super::rigging_wire;
use crate::envelope::{
    Claims, Kind, Limits, Reader, ShapeError, Sign1, Sign1Error, StrictError, Writer, check,
};
use slingseal_catalogue::{Saying, faults as words};
use slingseal_rigging::RiggingError;
use slingseal_words::{
    CallSign, Description, Digest, GridRef, LoadNumber, Name, PlaceName, ProcedureId, Quantity, Seconds,
    Serial, Source, Time,
};

/// Why bytes are not a tag.
#[derive(Debug, Clone, PartialEq)]
pub enum TagError {
    /// Not deterministic CBOR.
    Strict(StrictError),
    /// Not built as a tag.
    Shape(ShapeError),
    /// The rigging on it cannot be.
    Rigging(RiggingError),
    /// More than the largest code holds.
    TooLarge(usize),
    /// The letters in front of its text are another form's.
    OtherForm {
        /// What the text began with.
        shown: Kind,
        /// What it says.
        found: Kind,
    },
}

impl TagError {
    /// One line: what is wrong; what to do.
    pub fn saying(&self) -> Saying {
        match self {
            Self::Strict(error) => error.saying(),
            Self::Shape(error) => error.saying(),
            Self::Rigging(error) => words::TagErrorRigging { error }.into(),
            Self::OtherForm { shown, found } => {
                words::TagErrorOtherForm { shown: shown.front(), found: found.front() }.into()
            }
            Self::TooLarge(count) => words::TagErrorTooLarge { count, most: Limits::CODE.bytes }.into(),
        }
    }
}

slingseal_catalogue::error_by_saying!(TagError);

impl From<StrictError> for TagError {
    fn from(error: StrictError) -> Self {
        Self::Strict(error)
    }
}

impl From<ShapeError> for TagError {
    fn from(error: ShapeError) -> Self {
        Self::Shape(error)
    }
}

impl From<RiggingError> for TagError {
    fn from(error: RiggingError) -> Self {
        Self::Rigging(error)
    }
}

impl From<Sign1Error> for TagError {
    fn from(error: Sign1Error) -> Self {
        match error {
            Sign1Error::Strict(error) => Self::Strict(error),
            Sign1Error::Shape(error) => Self::Shape(error),
        }
    }
}

/// A tag as received: the bytes stay, since a seal names their digest. Whether the planner's signature holds is for
/// trust to say.
///
/// ```cddl
/// tag     = message / claims                ; signed by a planner, or marked unsigned by being bare
/// claims  = { 2: load number, 6: planned, -65537: content }
/// content = { 1: description, 2: procedure id, 3: [quantity], 4: aircraft, 5: [quantity], 6: zone, 7: zone,
///             ? 8: rigger, ? 9: [+ equipment], ? 10: [+ [leg, link]], ? 11: rigging }
/// zone      = [name, grid / null]
/// equipment = [kind, serial, [quantity, source] / null, due / null]   ; due: days since 1970-01-01
/// quantity  = number, unit                                            ; two items
/// ```
///
/// `LT2` has more pairs, at least one of them; `LT1` has none of them.
///
/// ```cddl
/// content-2 = { as above,
///               ? 12: [manual, its edition], ? 13: [1*8 [leg, serial]], ? 14: weight-source, ? 15: [quantity, source],
///               ? 16: [version, thumbprint: bstr .size 16], ? 17: [*12 condition] }
/// weight-source = 1 / 2 / 3 / 4        ; weighed, data plate, added up, estimated
///                                      ; 13: no leg twice; 15: a speed above zero; 16: of the procedure in 2;
///                                      ; 17: ascending, none twice; empty: none of the procedure's conditions holds
/// ```
#[derive(Clone, Debug)]
pub struct ReceivedTag<'b> {
    /// What it says.
    pub tag: Tag,
    /// `LT1` or `LT2`, as its content tells; what a signature binds.
    pub kind: Kind,
    /// SHA-256 of the bytes as received.
    pub digest: Digest,
    /// The signed message around it; `None` for a tag that is marked unsigned.
    pub message: Option<Sign1<'b>>,
}

impl<'b> ReceivedTag<'b> {
    /// Reads a tag.
    ///
    /// # Errors
    /// Bytes that are not a tag in its only spelling.
    pub fn open(bytes: &'b [u8]) -> Result<Self, TagError> {
        check(bytes, Limits::CODE)?;
        let message = Sign1::parse_signed(bytes, Limits::CODE)?;
        let tag = parse(message.as_ref().map_or(bytes, |message| message.payload))?;
        Ok(Self { kind: tag.kind(), tag, digest: Digest::of(bytes), message })
    }

    /// Reads a tag that came under the letters of `shown`.
    ///
    /// # Errors
    /// Those of [`Self::open`]; a tag of the other form.
    pub fn open_as(shown: Kind, bytes: &'b [u8]) -> Result<Self, TagError> {
        let received = Self::open(bytes)?;
        match received.kind {
            found if found == shown => Ok(received),
            found => Err(TagError::OtherForm { shown, found }),
        }
    }
}

/// Which form of tag the bytes are, as their content tells; `LT1` where they are none, for the reader to refuse.
pub fn kind_of_tag(bytes: &[u8]) -> Kind {
    if peek(bytes).unwrap_or(false) { Kind::TagWithBasis } else { Kind::Tag }
}

/// Whether the content has a pair that only an `LT2` has.
fn peek(bytes: &[u8]) -> Result<bool, TagError> {
    check(bytes, Limits::CODE)?;
    let message = Sign1::parse_signed(bytes, Limits::CODE)?;
    let claims = Claims::parse(message.as_ref().map_or(bytes, |message| message.payload))?;
    let mut of_basis = false;
    Reader::new(claims.ours.ok_or(ShapeError("content of a tag"))?).map(
        "content of a tag",
        |key, reader| {
            of_basis |= key >= FIRST_KEY;
            reader.raw("content of a tag").map(|_| true)
        },
    )?;
    Ok(of_basis)
}

impl Tag {
    /// The tag's content, to be wrapped in claims.
    pub fn content(&self) -> Vec<u8> {
        let optional = [
            self.rigger.is_some(),
            !self.equipment.is_empty(),
            !self.links.is_empty(),
            self.rigging.is_some(),
        ];
        let mut out = Writer::new();
        out.map(7 + optional.into_iter().filter(|there| *there).count() + self.basis.pairs());
        out.int(1).text(self.description.as_str());
        out.int(2).text(self.procedure.as_str());
        out.int(3).array(2).quantity(self.gross);
        out.int(4).text(self.aircraft.as_str());
        out.int(5).array(2).quantity(self.allowable);
        for (key, zone) in [(6, &self.pickup), (7, &self.destination)] {
            out.int(key).array(2).text(zone.name.as_str());
            out.maybe(zone.grid.as_ref(), |out, grid| out.text(grid.as_str()));
        }
        if let Some(rigger) = &self.rigger {
            out.int(8).text(rigger.as_str());
        }
        if !self.equipment.is_empty() {
            out.int(9).array(self.equipment.len());
            self.equipment.iter().for_each(|equipment| write_equipment(&mut out, equipment));
        }
        if !self.links.is_empty() {
            out.int(10).array(self.links.len());
            for count in &self.links {
                out.array(2).text(count.leg.as_str()).int(count.link.into());
            }
        }
        if let Some(rigging) = &self.rigging {
            out.int(11);
            rigging_wire::write(&mut out, rigging);
        }
        self.basis.write(&mut out);
        out.into_bytes()
    }

    /// The claims around the content; signed, they are a signed tag; bare, a tag that is marked unsigned.
    pub fn claims<'c>(&'c self, content: &'c [u8]) -> Claims<'c> {
        Claims {
            subject: Some(self.load.as_str()),
            issued: Some(self.planned),
            ours: Some(content),
            ..Claims::default()
        }
    }
}

fn write_equipment(out: &mut Writer, equipment: &Equipment) {
    out.array(4).text(equipment.kind.as_str()).text(equipment.serial.as_str());
    out.maybe(equipment.rating.as_ref(), |out, rating| {
        out.array(3).quantity(rating.value).text(rating.source.as_str())
    });
    out.maybe(equipment.next_inspection, |out, due| out.int(due.unix().div_euclid(DAY)));
}

const DAY: i64 = Seconds::days(1).0;

fn parse(payload: &[u8]) -> Result<Tag, TagError> {
    let Claims {
        subject: Some(load),
        expires: None,
        issued: Some(planned),
        key: None,
        scope: None,
        ours: Some(content),
    } = Claims::parse(payload)?
    else {
        return Err(ShapeError("claims of a tag").into());
    };
    let mut fields = Fields::default();
    let mut rigging = None;
    let mut basis = Basis::default();
    Reader::new(content).map("content of a tag", |key, reader| {
        match key {
            1 => fields.description = Some(reader.line("description", Description::received)?),
            2 => fields.procedure = Some(reader.line("procedure", ProcedureId::new)?),
            3 => fields.gross = Some(mass(reader, "gross mass")?),
            4 => fields.aircraft = Some(reader.line("aircraft", Name::received)?),
            5 => fields.allowable = Some(mass(reader, "allowable load")?),
            6 => fields.pickup = Some(zone(reader)?),
            7 => fields.destination = Some(zone(reader)?),
            8 => fields.rigger = Some(reader.line("rigger", CallSign::received)?),
            9 => fields.equipment = some(reader.list(MOST_EQUIPMENT, "equipment", equipment)?)?,
            10 => fields.links = some(reader.list(MOST_LEGS, "link counts", link_count)?)?,
            11 => rigging = Some(reader.raw("rigging")?),
            key => return basis.read(key, fields.procedure.as_ref(), reader),
        }
        Ok(true)
    })?;
    let missing = || ShapeError("content of a tag");
    let (gross, allowable) = (fields.gross.ok_or_else(missing)?, fields.allowable.ok_or_else(missing)?);
    let rigging = match rigging {
        None => None,
        Some(bytes) => {
            let rigging = rigging_wire::read(bytes, gross, allowable)?;
            rigging.check()?;
            Some(rigging)
        }
    };
    Ok(Tag {
        load: Reader::line_of(load, "load number", LoadNumber::new)?,
        planned,
        description: fields.description.ok_or_else(missing)?,
        procedure: fields.procedure.ok_or_else(missing)?,
        gross,
        aircraft: fields.aircraft.ok_or_else(missing)?,
        allowable,
        pickup: fields.pickup.ok_or_else(missing)?,
        destination: fields.destination.ok_or_else(missing)?,
        rigger: fields.rigger,
        equipment: fields.equipment,
        links: fields.links,
        rigging,
        basis,
    })
}

#[derive(Default)]
struct Fields {
    description: Option<Description>,
    procedure: Option<ProcedureId>,
    gross: Option<Quantity>,
    aircraft: Option<Name>,
    allowable: Option<Quantity>,
    pickup: Option<Zone>,
    destination: Option<Zone>,
    rigger: Option<CallSign>,
    equipment: Vec<Equipment>,
    links: Vec<LinkCount>,
}

/// An empty list is left out by our writer; written, it would be a second spelling.
fn some<T>(list: Vec<T>) -> Result<Vec<T>, ShapeError> {
    if list.is_empty() { Err(ShapeError("empty list")) } else { Ok(list) }
}

fn mass(reader: &mut Reader<'_>, part: &'static str) -> Result<Quantity, ShapeError> {
    reader.array(2, part)?;
    reader.mass(part)
}

fn zone(reader: &mut Reader<'_>) -> Result<Zone, ShapeError> {
    reader.array(2, "zone")?;
    Ok(Zone {
        name: reader.line("zone", PlaceName::received)?,
        grid: reader.maybe("grid", |reader| reader.line("grid", GridRef::new))?,
    })
}

fn equipment(reader: &mut Reader<'_>) -> Result<Equipment, ShapeError> {
    reader.array(4, "equipment")?;
    Ok(Equipment {
        kind: reader.line("kind of equipment", Name::received)?,
        serial: reader.line("serial number", Serial::received)?,
        rating: reader.maybe("rating", |reader| {
            reader.array(3, "rating")?;
            let value = reader.quantity("rating")?;
            if value.newtons().is_none_or(|force| force.value() <= 0.0) {
                return Err(ShapeError("rating"));
            }
            Ok(EquipmentRating { value, source: reader.line("source of the rating", Source::received)? })
        })?,
        next_inspection: reader.maybe("next inspection", |reader| {
            let days: i32 = reader.small("next inspection")?;
            Ok(Time::from_unix(i64::from(days) * DAY))
        })?,
    })
}

fn link_count(reader: &mut Reader<'_>) -> Result<LinkCount, ShapeError> {
    reader.array(2, "link count")?;
    Ok(LinkCount { leg: reader.line("leg", Name::received)?, link: reader.small("link")? })
}
