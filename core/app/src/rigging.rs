//! The statics of a rigging file, for a desk: no home is needed.

use slingseal_rigging::{self as rigging, Assessment, Options, RiggedLoad, SeatedLink, Verdict};

use super::AppError;

/// What a rigging file is asked.
#[derive(Clone, Debug, Default)]
pub struct RiggingRequest {
    /// The file's text, TOML.
    pub text: String,
    /// Other links in the grab hooks, each `LEG=N`.
    pub links: Vec<String>,
    /// A load factor, 1 to 10; `None` is one.
    pub factor: Option<f64>,
}

/// A rigging file, assessed.
#[derive(Clone, Debug)]
pub struct RiggingSheet {
    load: RiggedLoad,
    assessment: Assessment,
    /// Whether the load hangs and every part carries at most its rating.
    pub within_limits: bool,
    /// `within_limits`, `over_limit` or `infeasible`.
    pub verdict: String,
    /// The report in the units of the file, for a terminal or paper.
    pub report: String,
    /// The stable answer for machines, in SI.
    pub json: String,
}

impl RiggingSheet {
    /// Side, front and top to one scale, as SVG.
    pub fn svg(&self) -> String {
        rigging::svg(&self.load, &self.assessment)
    }

    /// The same as PNG.
    ///
    /// # Errors
    /// [`AppError::Internal`] where it cannot be drawn.
    pub fn png(&self) -> Result<Vec<u8>, AppError> {
        rigging::png(&self.load, &self.assessment).map_err(AppError::internal)
    }
}

/// Assesses a rigging file.
///
/// # Errors
/// [`AppError::BadInput`]: faults of the file, each on a line with its place; a link count or factor that does not fit.
pub fn assess_rigging(request: &RiggingRequest) -> Result<RiggingSheet, AppError> {
    let planned = rigging::read(&request.text).map_err(AppError::bad_input)?;
    let links = request.links.iter().map(|text| SeatedLink::parse(text)).collect::<Result<Vec<_>, _>>();
    let load = links.and_then(|links| planned.with_links(&links)).map_err(AppError::bad_input)?;
    let options = match request.factor {
        Some(factor) => Options::default().with_factor(factor).map_err(AppError::bad_input)?,
        None => Options::default(),
    };
    let assessment = rigging::assess_with(&load, &options);
    let effects = rigging::link_effects(&load, &options);
    Ok(RiggingSheet {
        within_limits: assessment.verdict == Verdict::WithinLimits,
        verdict: assessment.verdict.as_str().into(),
        report: rigging::report(&load, &assessment, &effects),
        json: rigging::json(&assessment, &effects),
        load,
        assessment,
    })
}
