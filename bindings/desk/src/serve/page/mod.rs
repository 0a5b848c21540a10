//! The pages. Every value goes through the template, which escapes it; no page says more than the facade's views do.

mod acts;
mod board;
mod chart;
mod class;
mod close;
mod equipment;
mod export;
mod frame;
mod load;
mod manifest;
mod order;
mod plan;
mod procedures;
mod receive;
mod rigging;
mod tables;
mod weighing;
mod work;

pub(super) use acts::{ActForm, Choices, Signing, act_done, act_form, act_signing};
pub(super) use board::board;
pub(super) use chart::encoded;
pub(super) use class::{class, result};
pub(super) use close::close;
pub(super) use equipment::{equipment, piece};
pub(super) use export::{export, hook_check, moving};
pub(super) use frame::{Here, PinAsked, failed, frame, opened, turned_away};
pub(super) use load::load;
pub(super) use manifest::manifest;
pub(super) use order::Order;
pub(super) use plan::{Entered, FIELDS, Fault, made, plan};
pub(super) use procedures::procedures;
pub(super) use receive::receive;
pub(super) use rigging::{Rig, hangs, rigging};
pub(super) use tables::{Stretch, deficiencies, people, search, weeks};
pub(super) use weighing::is_free;
pub(super) use work::works;

/// The style of every page, and of paper.
pub(super) const STYLE: &str = include_str!("desk.css");
/// The little script: dropped files, the scanner's field, the camera, the moving code.
pub(super) const SCRIPT: &str = include_str!("desk.js");
/// The mark.
pub(super) const MARK: &str = include_str!("mark.svg");
