//! What a person holds in the hand: the load sheet and the one-page record, as PDF/A-2a and PDF/UA-1: tagged, and read aloud in the order of the page. The
//! same input gives the same bytes: no clock, no random id.

mod canvas;
mod checklist;
mod closing;
mod code;
mod copy;
mod document;
mod fonts;
mod from_views;
mod manifest;
mod record;
mod rigging;
mod sheet;
#[cfg(test)]
mod tests;

pub use checklist::checklist_pdf;
pub use closing::closing_pdf;
pub use copy::copy_pdf;
pub use document::{Paper, PrintError};
pub use fonts::faces;
pub use from_views::{record_pdf, sheets_pdf};
pub use manifest::manifest_pdf;
pub use rigging::{Head, aircrew_pdf, rigging_pdf};
