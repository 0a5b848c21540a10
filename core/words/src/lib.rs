//! The nouns that every room speaks: units, ids, time, digests, places in a file. Knows no other room.
#![forbid(unsafe_code)]

#[cfg(feature = "columns")]
mod columns;
mod digest;
mod faults;
mod grid;
mod ids;
mod outside;
mod person;
mod quantity;
mod time;
mod toml_file;
mod units;

pub use digest::{Digest, Digesting};
pub use faults::{Fault, Faults, Spot};
pub use grid::{GridError, GridPrecision, GridRef};
pub use ids::{
    CallSign, Description, KeyId, LineError, LoadNumber, Name, Note, PlaceName, PointId, ProcedureId, Serial,
    Source,
};
pub use outside::{Clock, Entropy};
pub use person::{person_key, same_name, same_person};
pub use quantity::{Dimension, Quantity, QuantityError, Unit};
pub use slingseal_catalogue::{
    Argument, Language, Saying, ToArgument, UnknownLanguage, argument_by_display, is_invisible, visibly,
};
pub use time::{Seconds, Time, TimeError};
pub use toml_file::{Part, TomlFile, nearest};
pub use units::{Degrees, Kilograms, Metres, Newtons, NotFinite, Ratio, STANDARD_GRAVITY};

// Names, numbers and times are the same in every language.
slingseal_catalogue::argument_by_display!(
    CallSign,
    Description,
    Digest,
    GridRef,
    KeyId,
    LoadNumber,
    Name,
    Note,
    PlaceName,
    PointId,
    ProcedureId,
    Quantity,
    Seconds,
    Serial,
    Source,
    Unit,
);
