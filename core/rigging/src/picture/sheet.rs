//! The paper that the picture is drawn on: its size, its colours, and what every part of it says alike.

use slingseal_catalogue::{Language, Saying};
use slingseal_words::{Newtons, Unit};

use super::canvas::{Anchor, Canvas, Style};
use crate::shown::force_in;
use crate::{Assessment, Hang, Held, RiggedLoad};

/// Pixels from left to right.
pub(super) const WIDTH: f64 = 1080.0;
pub(super) const MARGIN: f64 = 44.0;
pub(super) const INK: &str = "#111111";
pub(super) const FAINT: &str = "#4a4a4a";
pub(super) const PAPER: &str = "#ffffff";
pub(super) const GOOD: &str = "#0a5522";
/// The colour of what is within limits at rest alone; ink on it is 10:1.
pub(super) const AMBER: &str = "#ffb000";
/// The colour of what is over; 7:1 on white, like the others.
pub(super) const ALARM: &str = "#a30015";
/// The colour of what governs and is not over.
pub(super) const GOVERNS: &str = "#0b3d91";

pub(super) struct Sheet<'a> {
    pub(super) load: &'a RiggedLoad,
    pub(super) assessment: &'a Assessment,
    pub(super) unit: Unit,
    pub(super) language: Language,
}

impl Sheet<'_> {
    pub(super) fn say(&self, saying: impl Into<Saying>) -> String {
        saying.into().say(self.language)
    }

    pub(super) fn force(&self, newtons: Newtons) -> String {
        force_in(newtons, self.unit).to_string()
    }

    /// What a leg's badge says: its name, or its number where names are too long for badges.
    pub(super) fn mark_of(&self, leg: &slingseal_words::Name) -> String {
        let short = self.load.legs.iter().all(|leg| leg.name.as_str().chars().count() <= 3);
        let place = self.load.legs.iter().position(|other| other.name == *leg).unwrap_or(0);
        if short { leg.to_string() } else { (place + 1).to_string() }
    }

    pub(super) fn accent(&self, hang: &Hang) -> &'static str {
        if hang.held.first().is_some_and(Held::over) { ALARM } else { GOVERNS }
    }

    /// Whether the governing part is this leg's.
    pub(super) fn governs(&self, hang: &Hang, leg: &slingseal_words::Name) -> bool {
        hang.held.first().is_some_and(|held| held.leg.as_ref() == Some(leg))
    }
}

/// A leg's name in a disc, where it meets the load.
pub(super) fn badge(canvas: &mut Canvas, at: (f64, f64), name: &str, fill: &'static str) {
    let style = Style::new(28.0, PAPER).bold().at(Anchor::Middle);
    let width = (canvas.width(name, style) + 22.0).max(42.0);
    canvas.rect((at.0 - width / 2.0 - 3.0, at.1 - 24.0), width + 6.0, 48.0, PAPER, 24.0);
    canvas.rect((at.0 - width / 2.0, at.1 - 21.0), width, 42.0, fill, 21.0);
    canvas.text((at.0, at.1 + 10.0), name, style);
}
