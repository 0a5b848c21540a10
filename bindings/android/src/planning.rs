//! A load that is planned on the phone, like one whose tag is here.

use slingseal_app::{DraftLink, DraftPiece, DraftView, RiggingView, TagDraft, TagMade, TagView};

use crate::{Answer, Handheld};

#[uniffi::remote(Record)]
pub struct DraftPiece {
    pub kind: String,
    pub serial: String,
}

#[uniffi::remote(Record)]
pub struct DraftLink {
    pub leg: String,
    pub link: u32,
}

#[uniffi::remote(Record)]
pub struct TagDraft {
    pub like: String,
    pub load: String,
    pub description: String,
    pub gross: String,
    pub weight_source: String,
    pub aircraft: String,
    pub allowable: String,
    pub pickup: String,
    pub destination: String,
    pub grid: String,
    pub rigger: String,
    pub equipment: Vec<DraftPiece>,
    pub links: Vec<DraftLink>,
    pub centre: Vec<String>,
}

#[uniffi::remote(Record)]
pub struct DraftView {
    pub faults: Vec<String>,
    pub rigging: Option<RiggingView>,
    pub picture: Option<Vec<u8>>,
}

#[uniffi::export]
impl Handheld {
    /// The tags that this device knows, the last received first.
    ///
    /// # Errors
    /// Storage.
    pub fn tags(&self, most: u32) -> Answer<Vec<TagView>> {
        Ok(self.app.tags(most)?)
    }

    /// A new load like the one of a tag.
    ///
    /// # Errors
    /// A text that is no tag.
    pub fn draft_like(&self, tag: &str) -> Answer<TagDraft> {
        Ok(self.app.draft_like(tag)?)
    }

    /// A new load by a list alone, where no tag of one like it is here.
    ///
    /// # Errors
    /// No such list is here.
    pub fn draft_by(&self, procedure: &str) -> Answer<TagDraft> {
        Ok(self.app.draft_by(procedure)?)
    }

    /// What a draft lacks, and how it would hang.
    ///
    /// # Errors
    /// Its tag is none; storage.
    pub fn check_draft(&self, draft: TagDraft) -> Answer<DraftView> {
        Ok(self.app.check_draft(&draft)?)
    }

    /// Makes the tag of a draft, signed by this phone's planner. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// What keeps it from being signed; no planner's credential; a wrong PIN.
    pub fn write_draft(&self, draft: TagDraft, pin: &str) -> Answer<TagMade> {
        Ok(self.app.write_draft(&draft, pin)?)
    }
}
