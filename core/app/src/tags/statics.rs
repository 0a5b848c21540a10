//! The statics of a rigging file, for a desk: no home is needed.

use slingseal_catalogue::{Saying, rigging as words};
use slingseal_rigging::{self as rigging, Assessment, Options, Reach, RiggedLoad, SeatedLink, Verdict};

use slingseal_words::{Newtons, Ratio, Unit};

use crate::tags::rigging::{RiggingHook, RiggingLeg, RiggingPaper, RiggingPart, RiggingView};
use crate::{AppError, Language};

/// What a rigging file is asked.
#[derive(Clone, Debug, Default)]
pub struct RiggingRequest {
    /// The file's text, TOML.
    pub text: String,
    /// Other links in the grab hooks, each `LEG=N`.
    pub links: Vec<String>,
    /// A load factor, 1 to 10; `None` is one.
    pub factor: Option<f64>,
    /// The language of the report and of what stands in the picture.
    pub language: Language,
}

/// A rigging file, assessed.
#[derive(Clone, Debug)]
pub struct RiggingSheet {
    load: RiggedLoad,
    assessment: Assessment,
    language: Language,
    /// Whether the load hangs and every part carries at most its rating.
    pub within_limits: bool,
    /// Whether the load may hang, at rest.
    pub verdict: Verdict,
    /// Whether it is over by the rule that the file names, though within limits at rest.
    pub over_by_rule: bool,
    /// The report in the units of the file, for a terminal or paper.
    pub report: String,
    /// The stable answer for machines, in SI.
    pub json: String,
}

impl RiggingSheet {
    pub(crate) fn of(load: RiggedLoad, options: &Options, language: Language) -> Self {
        let assessment = rigging::assess_with(&load, options);
        let effects = rigging::link_effects(&load, options);
        Self {
            within_limits: assessment.verdict == Verdict::WithinLimits,
            verdict: assessment.verdict,
            over_by_rule: assessment.beyond.as_ref().is_some_and(|beyond| beyond.chosen),
            report: format!(
                "{}\n{}\n",
                rigging::report(&load, &assessment, &effects, language),
                rigging_caution(language)
            ),
            json: rigging::json(&assessment, &effects),
            load,
            assessment,
            language,
        }
    }

    pub(crate) fn load(&self) -> &RiggedLoad {
        &self.load
    }

    /// The load as a view, in the reader's language: report, picture and what stands on paper.
    pub fn view(&self, language: Language) -> RiggingView {
        rigging_view(&self.load, language)
    }

    /// The load as a rigging file.
    pub fn toml(&self) -> String {
        rigging::write(&self.load)
    }

    /// Side, front and top to one scale, as SVG.
    pub fn svg(&self) -> String {
        rigging::svg(&self.load, &self.assessment, self.language)
    }

    /// The same as PNG.
    ///
    /// # Errors
    /// [`AppError::Internal`] where it cannot be drawn.
    pub fn png(&self) -> Result<Vec<u8>, AppError> {
        rigging::png(&self.load, &self.assessment, self.language).map_err(AppError::internal)
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
    Ok(RiggingSheet::of(load, &options, request.language))
}

/// What stands below a report that stands alone: that the manual rules, and whose the ratings are.
pub fn rigging_caution(language: Language) -> String {
    rigging::caution(language)
}

/// The statics as a record keeps them.
pub(crate) fn rigging_json(load: &RiggedLoad) -> String {
    rigging::json(&rigging::assess(load), &rigging::link_effects(load, &Options::default()))
}

/// The rigging drawn, as PNG.
pub(crate) fn rigging_png(load: &RiggedLoad, language: Language) -> Result<Vec<u8>, AppError> {
    rigging::png(load, &rigging::assess(load), language).map_err(AppError::internal)
}

pub(crate) fn rigging_view(load: &RiggedLoad, language: Language) -> RiggingView {
    let assessment = rigging::assess(load);
    let effects = rigging::link_effects(load, &Options::default());
    let hang = assessment.hang.as_ref();
    RiggingView {
        verdict: assessment.verdict,
        state: assessment.state(),
        beyond: assessment.beyond.as_ref().map(|beyond| rigging::beyond_saying(beyond).say(language)),
        summary: summary(load, &assessment).say(language),
        report: rigging::report(load, &assessment, &effects, language),
        pitch_deg: hang.map(|hang| hang.pitch.value()),
        roll_deg: hang.map(|hang| hang.roll.value()),
        utilisation: hang.and_then(|hang| hang.held.first()).map(|held| held.utilisation.value()),
        picture_svg: Some(rigging::svg(load, &assessment, language)),
        paper: paper(load, &assessment, language),
    }
}

fn paper(load: &RiggedLoad, assessment: &Assessment, language: Language) -> RiggingPaper {
    let hang = assessment.hang.as_ref();
    let carries = |newtons: Newtons| rigging::force_in(newtons, rigging::force_unit(load)).to_string();
    let legs = load.legs.iter().enumerate().map(|(at, leg)| {
        let found = hang.and_then(|hang| hang.legs.get(at));
        let hook = load.hook_of(leg).and_then(|at| load.hooks.get(at));
        let rope = match &leg.reach {
            Reach::Length(rope) | Reach::RopeAndChain(rope, _) => rope.to_string(),
            Reach::Chain(_) => String::new(),
        };
        RiggingLeg {
            leg: leg.name.to_string(),
            hook: hook.map(|hook| hook.name.to_string()).unwrap_or_default(),
            point: leg.lift_point.iter().map(ToString::to_string).collect(),
            rope,
            link: leg.reach.chain().map(|chain| chain.seated),
            links: leg.reach.chain().map(|chain| chain.links),
            carries: found.map(|leg| carries(leg.tension)).unwrap_or_default(),
            share: found.map(|leg| rigging::percent(leg.utilisation)).unwrap_or_default(),
        }
    });
    let parts = hang.into_iter().flat_map(|hang| &hang.held).map(|held| RiggingPart {
        part: held.part.saying().say(language),
        carries: rigging::force_in(held.carries, held.rated.unit()).to_string(),
        rated: held.rated.to_string(),
        source: held.source.as_ref().map(ToString::to_string).unwrap_or_default(),
        share: rigging::percent(held.utilisation),
    });
    let hooks = hang.into_iter().flat_map(|hang| &hang.hooks);
    RiggingPaper {
        state: rigging::state_saying(assessment.state()).say(language),
        attitude: hang
            .map(|hang| rigging::attitude_saying(hang.pitch, hang.roll).say(language))
            .unwrap_or_default(),
        mass: load.mass.to_string(),
        centre: load.centre.iter().map(ToString::to_string).collect(),
        legs: legs.collect(),
        parts: parts.collect(),
        hooks: hooks
            .map(|hook| RiggingHook { hook: hook.name.to_string(), carries: carries(hook.load) })
            .collect(),
    }
}

/// A share of what is allowed, 1 being all of it, as every page and paper shows it: rounded up, so that what is over never
/// reads as 100 %.
pub fn rigging_percent(share: f64) -> String {
    Ratio::new(share).map(rigging::percent).unwrap_or_default()
}

/// The one line of what governs. What a walk keeps of it is the English.
pub(crate) fn summary(load: &RiggedLoad, assessment: &Assessment) -> Saying {
    summary_with(load, assessment, rigging::percent)
}

/// The same line as walks kept it while the share was rounded to the nearest: to know it again, never to show.
pub(crate) fn summary_once_kept(load: &RiggedLoad, assessment: &Assessment) -> Saying {
    summary_with(load, assessment, |share| format!("{:.0} %", share.value() * 100.0))
}

fn summary_with(load: &RiggedLoad, assessment: &Assessment, percent: impl Fn(Ratio) -> String) -> Saying {
    let unit = load.mass.unit();
    if let Some(reason) = &assessment.reason {
        return words::SummaryDoesNotHangBecause { reason: reason.saying() }.into();
    }
    let Some(hang) = &assessment.hang else { return words::SummaryDoesNotHang.into() };
    let angle = |degrees: f64| format!("{degrees:+.1}°");
    let lean: Saying =
        words::SummaryLean { pitch: angle(hang.pitch.value()), roll: angle(hang.roll.value()) }.into();
    let pulled = hang.legs.iter().max_by(|a, b| a.tension.value().total_cmp(&b.tension.value()));
    let lean = match pulled {
        Some(leg) => {
            let force = in_unit(leg.tension, unit);
            words::SummaryPullsMost { lean, leg: leg.name.to_string(), force }.into()
        }
        None => lean,
    };
    match hang.held.first() {
        Some(held) => {
            let percent = percent(held.utilisation);
            let (part, rated) = (held.part.saying(), held.rated.to_string());
            words::SummaryGoverns { part, percent, rated, lean }.into()
        }
        None => lean,
    }
}

/// A force in the unit that the load's mass was written in, to the nearest ten pounds or hundred newtons.
fn in_unit(force: Newtons, mass: Unit) -> String {
    match mass {
        Unit::Lb => format!("{:.0} lbf", (force.value() / Unit::Lbf.si() / 10.0).round() * 10.0),
        _ => format!("{:.1} kN", force.value() / Unit::Kn.si()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::walks::{finding_of, finding_said, rigging_finding};

    /// 5000 lb under what the aircraft may carry.
    fn sheet(allowable: &str) -> RiggingSheet {
        let text = format!(
            r#"[load]
mass = "5000 lb"
centre = ["0 in", "0 in", "0 in"]
[[hook]]
name = "main"
at = ["0 m", "0 m", "0 m"]
[aircraft]
allowable = "{allowable}"
[[leg]]
name = "1"
lift_point = ["0 in", "0 in", "30 in"]
length = "12 ft"
stretch = "2 %"
rated = "9000 lb"
"#
        );
        let language = Language::English;
        assess_rigging(&RiggingRequest { text, language, ..RiggingRequest::default() }).unwrap()
    }

    /// At 100.3 % no line and no cell says 100 %; at 99.6 % all say it, and none says more.
    #[test]
    fn what_is_over_is_never_told_as_the_limit() {
        for (allowable, told) in [("4985 lb", "101 %"), ("5000 lb", "100 %"), ("5020 lb", "100 %")] {
            let load = sheet(allowable).load;
            let view = rigging_view(&load, Language::English);
            assert!(
                view.summary.starts_with(&format!("aircraft allowable at {told} of")),
                "{}",
                view.summary
            );
            assert_eq!(view.paper.parts[0].share, told);
            assert!(view.report.contains(&format!("at {told}.")), "{}", view.report);
            assert_eq!(view.verdict == Verdict::OverLimit, told == "101 %");
            assert_eq!(rigging_percent(view.utilisation.unwrap()), told);
        }
    }

    /// A walk that was kept before shares were rounded up is told anew by its load, in the reader's language.
    #[test]
    fn a_finding_kept_with_the_nearest_share_is_known_again() {
        let load = sheet("4985 lb").load;
        let assessment = rigging::assess(&load);
        let now = rigging_finding(&load);
        let kept = finding_of(&assessment, &summary_once_kept(&load, &assessment));
        assert!(kept.summary.to_string().contains("at 100 % of 4985 lb"), "{}", kept.summary);
        for finding in [&kept, &now] {
            let said = finding_said(finding, std::slice::from_ref(&load)).say(Language::Spanish);
            assert!(said.contains("101 %") && !said.contains("pulls most"), "{said}");
            // Without its load the words stay as they were kept.
            assert_eq!(finding_said(finding, &[]).to_string(), finding.summary.to_string());
        }
    }
}
