//! A load weighed in the field, and the rigging of a walk beside its plan.

use slingseal_app::{FieldFault, FieldWeighed, FieldWeighing, LinkBesidePlan, ScaleReading};

use crate::{Answer, Handheld};

#[uniffi::remote(Record)]
pub struct ScaleReading {
    pub name: String,
    pub forward: String,
    pub left: String,
    pub up: String,
    pub reads: String,
    pub tare: String,
    pub tolerance: String,
}

#[uniffi::remote(Record)]
pub struct FieldWeighing {
    pub level: Vec<ScaleReading>,
    pub height: String,
    pub height_tolerance: String,
    pub nose_up: String,
    pub angle_tolerance: String,
    pub tilted: Vec<ScaleReading>,
    pub rest_at: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct FieldFault {
    pub field: String,
    pub words: String,
}

#[uniffi::remote(Record)]
pub struct FieldWeighed {
    pub faults: Vec<FieldFault>,
    pub mass: String,
    pub centre: Vec<String>,
    pub beside_the_tag: Vec<String>,
    pub report: String,
    pub good: bool,
}

#[uniffi::remote(Record)]
pub struct LinkBesidePlan {
    pub leg: String,
    pub planned: u32,
    pub counted: Option<u32>,
}

#[uniffi::export]
impl Handheld {
    /// Weighs a load in the field and holds it beside its tag. What is wrong with the entries stands in the answer, by field.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn weigh_tag(&self, tag: &str, entered: FieldWeighing) -> Answer<FieldWeighed> {
        Ok(self.app.weigh_tag(tag, &entered)?)
    }

    /// The picture of the rigging as a walk's tag plans it, as PNG: what is expected.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_planned_picture(&self, walk: &str) -> Answer<Option<Vec<u8>>> {
        Ok(self.app.walk_planned_picture(walk)?)
    }

    /// The link of each leg that the tag names, as planned and as counted.
    ///
    /// # Errors
    /// No such walk.
    pub fn walk_links(&self, walk: &str) -> Answer<Vec<LinkBesidePlan>> {
        Ok(self.app.walk_links(walk)?)
    }
}
