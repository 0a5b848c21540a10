//! Inspections of what is no load: begun by a name, walked as a load's, signed by the inspector.

use slingseal_app::{CodeView, InspectionView, KeptInspection, Stamp, Subject, WalkView};

use crate::{Answer, Handheld};

#[uniffi::remote(Record)]
pub struct InspectionView {
    pub digest: String,
    pub subject: Subject,
    pub name: String,
    pub procedure: String,
    pub version: u32,
    pub inspector: String,
    pub fit: bool,
    pub issued: Stamp,
    pub fit_until: Option<Stamp>,
    pub why: Option<String>,
    pub record: String,
    pub whole: bool,
    pub code: CodeView,
}

#[uniffi::remote(Record)]
pub struct KeptInspection {
    pub walk: String,
    pub subject: Subject,
    pub name: String,
    pub procedure: String,
    pub version: u32,
    pub inspector: String,
    pub fit: bool,
    pub at: Stamp,
    pub fit_until: Option<Stamp>,
    pub signed: Option<String>,
}

#[uniffi::export]
impl Handheld {
    /// Begins an inspection of what is no load, or goes on with the one in hand.
    ///
    /// # Errors
    /// A procedure that is not known or that inspects a load; a name that cannot stand; no holder's name on this device.
    pub fn begin_inspection(&self, procedure: &str, name: &str) -> Answer<WalkView> {
        Ok(self.app.begin_inspection(procedure, name)?)
    }

    /// What was inspected and is no load, the newest first.
    ///
    /// # Errors
    /// Storage.
    pub fn kept_inspections(&self) -> Answer<Vec<KeptInspection>> {
        Ok(self.app.kept_inspections()?)
    }

    /// Signs a decided inspection of what is no load. Slow: the PIN is stretched.
    ///
    /// # Errors
    /// A walk of a load, not decided, or signed already; no inspector's credential; a wrong PIN.
    pub fn sign_inspection(&self, walk: &str, pin: &str) -> Answer<InspectionView> {
        Ok(self.app.sign_inspection(walk, pin)?)
    }

    /// A signed inspection, to be shown again.
    ///
    /// # Errors
    /// No such inspection here.
    pub fn inspection(&self, digest: &str) -> Answer<InspectionView> {
        Ok(self.app.inspection(digest)?)
    }
}
