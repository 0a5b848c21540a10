//! A load weighed in the field, and the rigging of a walk beside its plan.

use slingseal_app::{FieldFault, FieldWeighed, FieldWeighing, LinkBesidePlan, ScaleReading, TagDraft};

use crate::{Answer, Handheld};

#[uniffi::remote(Record)]
pub struct ScaleReading {
    pub name: String,
    pub forward: String,
    pub left: String,
    pub up: String,
    pub reads: String,
    pub tare: String,
    pub tilted: String,
}

#[uniffi::remote(Record)]
pub struct FieldWeighing {
    pub points: Vec<ScaleReading>,
    pub scales: String,
    pub tolerance: String,
    pub height: String,
    pub height_tolerance: String,
    pub raised: String,
    pub over: String,
    pub angle_tolerance: String,
    pub held: Vec<String>,
    pub length_unit: String,
    pub mass_unit: String,
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
    pub beside: Vec<String>,
    pub report: String,
    pub good: bool,
    pub taken: Option<TagDraft>,
}

#[uniffi::remote(Record)]
pub struct LinkBesidePlan {
    pub leg: String,
    pub planned: u32,
    pub counted: Option<u32>,
}

#[uniffi::export]
impl Handheld {
    /// A weighing that begins: four corners, in the units of the draft.
    ///
    /// # Errors
    /// The draft's tag is none.
    pub fn begin_weighing(&self, draft: TagDraft) -> Answer<FieldWeighing> {
        Ok(self.app.begin_weighing(&draft)?)
    }

    /// Weighs a load in the field beside its draft. What is wrong with the entries stands in the answer, by field. Slow.
    ///
    /// # Errors
    /// The draft's tag is none.
    pub fn weigh_draft(&self, draft: TagDraft, entered: FieldWeighing) -> Answer<FieldWeighed> {
        Ok(self.app.weigh_draft(&draft, &entered)?)
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
