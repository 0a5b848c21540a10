//! Planning a lift: weighing, which link in which hook, what statics say of the flight. No home is needed.

use slingseal_rigging::{
    self as rigging, Asked, Between, Options, RiggedLoad, State, Wanted, Weighed, WeighedPlace, Weighing,
};

use super::statics::RiggingSheet;
use crate::{AppError, Language};

/// What a lift is planned by.
#[derive(Clone, Debug, Default)]
pub struct LiftRequest {
    /// The rigging file's text, TOML.
    pub text: String,
    /// A load factor, 1 to 10; `None` is one.
    pub factor: Option<f64>,
    /// The language of the report.
    pub language: Language,
}

/// The hang that is wanted.
#[derive(Clone, Debug, Default)]
pub struct SolveRequest {
    /// The file and how it is looked at.
    pub lift: LiftRequest,
    /// Nose up is positive, degrees; `None` is level, or as far down as the nose is to hang.
    pub pitch_deg: Option<f64>,
    /// Left side up is positive, degrees; `None` is level.
    pub roll_deg: Option<f64>,
    /// The nose is to hang at least this far down, degrees.
    pub nose_down_at_least: Option<f64>,
    /// How many proposals, one to twenty; `None` is five.
    pub most: Option<u32>,
    /// Links that a leg is held to, each `LEG=A-B`.
    pub between: Vec<String>,
}

/// What came of it.
#[derive(Clone, Debug)]
pub struct LiftSheet {
    /// The report in the units of the file.
    pub report: String,
    /// The stable answer for machines, in SI.
    pub json: String,
    /// Whether the load may hang so: all of what was looked at, or the best that was found.
    pub good: bool,
    /// Whether it is within limits as read, and not within all that the tolerances leave; or over by the rule that governs.
    pub wait: bool,
    /// The load as the best proposal rigs it.
    pub best: Option<RiggingSheet>,
}

fn options(factor: Option<f64>) -> Result<Options, AppError> {
    factor.map_or_else(
        || Ok(Options::default()),
        |factor| Options::default().with_factor(factor).map_err(AppError::bad_input),
    )
}

/// Mass and centre of gravity as weighed, and how the load may hang within the tolerances.
///
/// # Errors
/// Faults of the file; a file that weighs nothing.
pub fn weigh_lift(request: &LiftRequest) -> Result<LiftSheet, AppError> {
    let file = rigging::read_file(&request.text).map_err(AppError::bad_input)?;
    let (weighing, weighed) = file.weighed().map_err(AppError::bad_input)?;
    let options = options(request.factor)?;
    let load = file.load.as_ref();
    Ok(weighed_sheet(weighing, weighed, WeighedPlace::Whole, load, &options, request.language))
}

/// A weighing told, with so much of its centre of gravity; `load` is what hangs by it, where anything does.
pub(super) fn weighed_sheet(
    weighing: &Weighing,
    weighed: &Weighed,
    told: WeighedPlace,
    load: Option<&RiggedLoad>,
    options: &Options,
    language: Language,
) -> LiftSheet {
    let carried = load.map(|load| (load, rigging::carry(load, weighed, options)));
    let within = |state: State| state == State::WithinLimits;
    let (read, worst) =
        carried.as_ref().map_or((State::WithinLimits, State::WithinLimits), |(_, carried)| {
            (carried.read.state(), carried.worst)
        });
    LiftSheet {
        report: rigging::weigh_report(
            weighing,
            weighed,
            told,
            carried.as_ref().map(|(load, carried)| (*load, carried)),
            language,
        ),
        json: rigging::weigh_json(weighed, carried.as_ref().map(|(_, carried)| carried)),
        good: within(worst),
        wait: !within(worst) && matches!(read, State::WithinLimits | State::AtRestOnly),
        best: None,
    }
}

/// Which link in which hook, so that the load hangs as wanted.
///
/// # Errors
/// Faults of the file; what cannot be sought.
pub fn solve_lift(request: &SolveRequest) -> Result<LiftSheet, AppError> {
    let file = rigging::read_file(&request.lift.text).map_err(AppError::bad_input)?;
    let load = file.rigged().map_err(AppError::bad_input)?;
    let options = options(request.lift.factor)?;
    let down = request.nose_down_at_least;
    let pitch = request.pitch_deg.unwrap_or_else(|| down.map_or(0.0, |down| -down));
    let wanted = Wanted::new(pitch, request.roll_deg.unwrap_or(0.0), down).map_err(AppError::bad_input)?;
    let between = request.between.iter().map(|text| Between::parse(text)).collect::<Result<_, _>>();
    let asked = Asked {
        wanted,
        most: request.most.map_or(5, |most| usize::try_from(most.clamp(1, 20)).unwrap_or(5)),
        between: between.map_err(AppError::bad_input)?,
        ..Asked::default()
    };
    let found = rigging::solve(load, &file.stock, &asked, &options).map_err(AppError::bad_input)?;
    let slips: Vec<_> = found.best.iter().map(|one| rigging::what_if(&one.load, &options)).collect();
    let best = found.best.first();
    let state = best.map(|best| best.assessment.state());
    Ok(LiftSheet {
        report: rigging::solve_report(&found, &slips, &wanted, request.lift.language),
        json: rigging::solve_json(&found, &slips),
        good: state == Some(State::WithinLimits),
        wait: state == Some(State::AtRestOnly),
        best: best.map(|best| RiggingSheet::of(best.load.clone(), &options, request.lift.language)),
    })
}

/// What statics say of the flight that the file tells of.
///
/// # Errors
/// Faults of the file; a file that tells nothing of a flight and has one hook.
pub fn fly_lift(request: &LiftRequest) -> Result<LiftSheet, AppError> {
    let file = rigging::read_file(&request.text).map_err(AppError::bad_input)?;
    let load = file.rigged().map_err(AppError::bad_input)?;
    let flight = match &file.flight {
        Some(flight) => flight.clone(),
        None if load.hooks.len() > 1 => rigging::Flight::nothing(),
        None => return Err(AppError::bad_input(slingseal_catalogue::rigging::NoFlight)),
    };
    let sheet = rigging::fly(load, &flight).map_err(AppError::bad_input)?;
    let factored = sheet.factored.as_ref().map(|one| one.assessment.state());
    let holds = factored.is_none_or(|state| matches!(state, State::WithinLimits | State::AtRestOnly));
    let events = sheet.drag.as_ref().is_some_and(|curve| !curve.events.is_empty());
    let falls = sheet.failed.iter().any(|one| one.assessment.state() != State::WithinLimits);
    let only_rest = factored == Some(State::AtRestOnly);
    Ok(LiftSheet {
        report: rigging::flight_report(load, &flight, &sheet, request.language),
        json: rigging::flight_json(&sheet),
        good: holds && !events && !falls && !only_rest,
        wait: holds && (events || falls || only_rest),
        best: None,
    })
}
