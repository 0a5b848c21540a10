//! What a walk's tag plans of the rigging, beside what was counted: the picture that is expected, and each leg's link.

use serde::Serialize;
use slingseal_journal::WalkId;
use slingseal_rigging::{self as rigging, RiggedLoad};

use crate::tags::statics::rigging_png;
use crate::walks::counted_links;
use crate::walks::entries::walk_id;
use crate::{App, AppError, Language};

/// A leg's link as planned and as counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LinkBesidePlan {
    /// The leg.
    pub leg: String,
    /// The link that is planned in its grab hook.
    pub planned: u32,
    /// The link that was counted there; none before it is counted.
    pub counted: Option<u32>,
}

impl App {
    /// The picture of the rigging as its tag plans it, as PNG: what is expected. None where the tag carries no rigging.
    ///
    /// # Errors
    /// No such walk; [`AppError::Internal`] where it cannot be drawn.
    pub fn walk_planned_picture(&self, walk: &str) -> Result<Option<Vec<u8>>, AppError> {
        // the home is free while it is drawn
        let (planned, language) = self.planned(walk)?;
        planned.as_ref().map(|load| rigging_png(load, language)).transpose()
    }

    /// The same from its side, for a terminal: rows of at most so many cells. None where it does not hang.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_planned_cells(&self, walk: &str, columns: usize) -> Result<Option<Vec<String>>, AppError> {
        let (planned, _) = self.planned(walk)?;
        Ok(planned.and_then(|load| {
            let hang = rigging::assess(&load).hang?;
            Some(rigging::side_cells(&load, &hang, columns))
        }))
    }

    /// The link of each leg that the tag names, as planned and as counted.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_links(&self, walk: &str) -> Result<Vec<LinkBesidePlan>, AppError> {
        let mut inner = self.lock();
        let state = inner.walk_of(walk_id(walk)?)?;
        let counted = counted_links(&state);
        let links = state.ground().facts.links.iter().map(|(leg, planned)| {
            let found = counted.iter().find(|seated| seated.leg.as_str() == leg);
            let counted = found.map(|seated| u32::from(seated.link));
            LinkBesidePlan { leg: leg.clone(), planned: *planned, counted }
        });
        Ok(links.collect())
    }

    fn planned(&self, walk: &str) -> Result<(Option<RiggedLoad>, Language), AppError> {
        let mut inner = self.lock();
        let id: WalkId = walk_id(walk)?;
        inner.walk_of(id)?;
        Ok((inner.planned_rigging(id)?, inner.language()))
    }
}
