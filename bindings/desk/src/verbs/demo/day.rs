//! A day of twelve loads with three devices that never meet, and what the leader is told of it in the evening.

use std::collections::BTreeSet;

use slingseal_app::catalogue::demo as words;
use slingseal_app::{
    App, AppError, BundleRequest, CloseRequest, CloseView, MovementKind, PieceReport, RefusalCause,
    ReportRequest, Role, WalkRequest,
};

use super::{Demo, PIN};
use crate::output::write;
use crate::verbs::account::text;
use crate::{output, platform};
use slingseal_paper::{Paper, closing_pdf, manifest_pdf};

const LOADS: &str = include_str!("../../../demo/day.csv");
/// The load whose tag nobody signs.
const UNSIGNED: &str = "KM-103";
/// What went wrong, by sort and by what it is of. The demo fails where the account names anything else.
const WRONG: [(&str, &str); 6] = [
    ("refused_at_hook", "KM-101"),
    ("lifted_without_go", "KM-103"),
    ("lost", "KM-104"),
    ("lifted_without_go", "KM-105"),
    ("piece_out", "KM-107"),
    ("piece_out", "KM-108"),
];

/// One load of the day.
struct Load {
    number: String,
    tag: String,
    seal: String,
}

fn event(event: MovementKind, load: Option<&str>) -> ReportRequest {
    ReportRequest { load: load.map(str::to_owned), ..ReportRequest::of(event) }
}

fn went_otherwise(what: &str) -> AppError {
    AppError::Internal { message: words::DayWentOtherwise { what }.into() }
}

fn bundle(of: &App) -> Result<Vec<u8>, AppError> {
    let mut bytes = Vec::new();
    of.bundle_write(&BundleRequest { have: None, photos: true, ..BundleRequest::default() }, &mut bytes)?;
    Ok(bytes)
}

impl Demo<'_> {
    /// Plays the day in homes of its own.
    pub(super) fn day(&mut self, authority: &App) -> Result<(), AppError> {
        self.chapter(words::ChapterDay);
        self.say(words::DayBegins);
        let desk = self.day_home("desk", authority)?;
        self.credential(authority, &desk, "Lantern 2", &[Role::Planner, Role::Leader])?;
        let anvil = self.day_home("inspector", authority)?;
        self.credential(authority, &anvil, "Anvil 4", &[Role::Inspector])?;
        let (hook, far) = (self.day_home("hook", authority)?, self.day_home("far", authority)?);

        let loads = self.rigged(&desk, &anvil)?;
        self.say(words::DayInspected { count: loads.len() });
        self.lifted(&hook, &loads)?;
        self.set_down(&far, &loads)?;

        let bundles = [bundle(&anvil)?, bundle(&hook)?, bundle(&far)?];
        let second = self.day_home("second-desk", authority)?;
        let plans = bundle(&desk)?;
        for bytes in &bundles {
            desk.bundle_read(&mut bytes.as_slice(), &mut |_| {})?;
        }
        for bytes in bundles.iter().rev().chain([&plans]) {
            second.bundle_read(&mut bytes.as_slice(), &mut |_| {})?;
        }
        self.closed(&desk, &second)
    }

    fn day_home(&self, name: &str, authority: &App) -> Result<App, AppError> {
        let app = platform::open(&self.out.join("day").join(name), self.setting.language)?;
        let own = authority.authority()?;
        app.trust(&own.card.text, &own.fingerprint)?;
        app.receive(&own.roster.text)?;
        Ok(app)
    }

    /// Twelve tags, one of them unsigned, each load inspected and sealed.
    fn rigged(&self, desk: &App, anvil: &App) -> Result<Vec<Load>, AppError> {
        let none = |name: &str| Err(name.to_owned());
        let (head, rows) = LOADS.split_once('\n').ok_or_else(|| went_otherwise(LOADS))?;
        let (unsigned, signed): (Vec<&str>, Vec<&str>) =
            rows.lines().partition(|line| line.starts_with(UNSIGNED));
        let mut made = desk.write_tags(&format!("{head}\n{}\n", signed.join("\n")), &none, Some(PIN))?;
        made.extend(desk.write_tags(&format!("{head}\n{}\n", unsigned.join("\n")), &none, None)?);
        let mut loads = Vec::new();
        for made in made {
            let view = super::acts::walked_sound(anvil, anvil.begin_walk(&made.code.text)?)?;
            let view = anvil.do_walk(&view.walk, &WalkRequest::Decide { fit: true, reason: None })?;
            let seal = anvil.seal(&view.walk, PIN, None)?;
            loads.push(Load { number: made.tag.load, tag: made.code.text, seal: seal.code.text });
        }
        loads.sort_by(|one, other| one.number.cmp(&other.number));
        Ok(loads)
    }

    /// At the hook: what was shown, and what they did.
    fn lifted(&mut self, hook: &App, loads: &[Load]) -> Result<(), AppError> {
        for load in loads {
            let verdict = hook.check(Some(&load.seal), Some(&load.tag))?;
            let expected = if load.number == UNSIGNED { "WAIT" } else { "GO" };
            if verdict.word != expected {
                return Err(went_otherwise(&format!(
                    "{} is {} ({})",
                    load.number, verdict.word, verdict.first
                )));
            }
            let request = match load.number.as_str() {
                "KM-101" => {
                    ReportRequest { cause: Some(RefusalCause::Rigging), ..event(MovementKind::Refused, None) }
                }
                _ => event(MovementKind::Lifted, None),
            };
            hook.report(&request, None)?;
        }
        hook.report(&event(MovementKind::Lost, Some("KM-104")), None)?;
        self.say(words::DayAtHook);
        Ok(())
    }

    /// At the destination, without a key: set down, derigged, the equipment back, but for two sling sets.
    fn set_down(&mut self, far: &App, loads: &[Load]) -> Result<(), AppError> {
        let mut against = String::new();
        for load in loads.iter().filter(|load| !matches!(load.number.as_str(), "KM-101" | "KM-104")) {
            far.arrival(&load.tag)?;
            far.report(&event(MovementKind::SetDown, Some(&load.tag)), None)?;
            if load.number == "KM-105" {
                let verdict = far.check(Some(&load.seal), Some(&load.tag))?;
                against = format!("{}. {}", verdict.word, verdict.first);
                far.report(&event(MovementKind::Lifted, None), None)?;
                far.report(&event(MovementKind::SetDown, Some(&load.tag)), None)?;
            }
            far.report(&event(MovementKind::Derigged, Some(&load.tag)), None)?;
            if !matches!(load.number.as_str(), "KM-107" | "KM-108") {
                let serial = load.number.replace("KM", "SS");
                let pieces = vec![PieceReport { serial, back: true, damaged: false }];
                far.report(
                    &ReportRequest { pieces, ..event(MovementKind::Returned, Some(&load.tag)) },
                    None,
                )?;
            }
        }
        self.say(words::DayAtDestination { verdict: &against });
        Ok(())
    }

    /// What does not add up: exactly what went wrong, the same at two desks; explained, signed, and put on paper.
    fn closed(&mut self, desk: &App, second: &App) -> Result<(), AppError> {
        let name = words::DayName.say(self.setting.language);
        let request = CloseRequest { name: Some(name.clone()), ..CloseRequest::default() };
        let view = desk.close_account(&request)?;
        let told: BTreeSet<(&str, &str)> =
            view.points.iter().map(|point| (point.kind.word(), point.load.as_str())).collect();
        if told != BTreeSet::from(WRONG) || view.points.len() != WRONG.len() {
            return Err(went_otherwise(&format!("{told:?}")));
        }
        let same = |other: &CloseView| (&other.account, &other.points) == (&view.account, &view.points);
        if !same(&second.close_account(&request)?) {
            return Err(went_otherwise(&view.account));
        }
        let folder = self.out.join("day");
        write(&folder.join("close.txt"), text(&view, self.setting.language).as_bytes())?;
        self.say(words::DayDoesNotAddUp { points: view.points.len() });
        for point in &view.points {
            self.say(format!("    {}: {}", point.title, point.subject));
            desk.explain(&point.id, &words::DayExplained.say(self.setting.language))?;
        }
        let made = desk.sign_closing(&request, PIN)?;
        write(
            &folder.join(format!("closing-{}.pdf", output::file_name(&name))),
            &closing_pdf(&made.statement, Paper::A4, self.setting.language)?,
        )?;
        self.say(words::DaySigned { leader: &made.statement.by, check: &made.statement.check });
        let mut order: Vec<String> = desk.manifest(None)?.lines.into_iter().map(|line| line.load).collect();
        order.sort();
        desk.set_lift_order(None, &order)?;
        let manifest = desk.put_in_lift_order(None, "KM-109", 1)?;
        write(&folder.join("manifest.pdf"), &manifest_pdf(&manifest, Paper::A4, self.setting.language)?)?;
        write(&folder.join("manifest.csv"), desk.manifest_csv(Some(&manifest.day))?.as_bytes())?;
        self.say(words::DayManifest);
        Ok(())
    }
}
