//! What a leader asks: what stands on the zone, a load's whole story, what is found again and again, who, with what; and
//! the account for other programs.

mod aside;
mod board;
mod board_line;
mod deficiencies;
mod editions;
mod equipment;
mod export;
mod list;
mod lives;
mod manifest;
mod people;
mod photos;
mod pieces;
mod placed;
mod second_look;
mod share;
mod shelf;
pub(crate) mod sorting;
pub(crate) mod story;
mod tables;
mod weeks;
mod withdrawal;
mod zones;

pub use aside::AsideView;
pub(crate) use board::day_of;
pub use board::{BoardColumn, BoardLoad, BoardRequest, BoardView};
pub use deficiencies::{DeficienciesView, GroupShare, PointShare};
pub use editions::{EditionWalked, EditionsView};
pub use equipment::{PieceLine, PieceMoment, PieceStanding, PieceView};
pub use export::{EXPORT_SCHEMA, ExportTable};
pub use list::{ListRequest, RecordOrder, RecordsView};
pub use manifest::{ManifestLine, ManifestView};
pub use people::{PeopleView, PersonStanding, PersonView};
pub use photos::PhotoView;
pub use pieces::{PieceFilter, PieceGroup, PieceLifeState, PieceLifeView, PieceOrder, PiecesView};
pub use second_look::{DrawnLook, InAllView, InspectorLooks, PointLooks, SecondLookView};
pub use share::ShareView;
pub use shelf::BoardOrder;
pub use slingseal_account::report::{AccountCell, AccountTable, ColumnType, TableWriter};
pub use sorting::{Sorting, arrange, as_sorted};
pub use story::{LoadView, MomentView};
pub use weeks::{WeekShare, WeeksRequest};
pub use zones::ZoneCount;
