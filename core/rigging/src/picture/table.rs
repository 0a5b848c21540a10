//! Every part against its rating, as bars: the governing one first.

use slingseal_catalogue::rigging as words;
use slingseal_words::Newtons;

use crate::{Hang, Held};

use super::canvas::{Anchor, Canvas, Stroke, Style};
use super::sheet::{ALARM, FAINT, INK, MARGIN, Sheet, WIDTH};
use crate::report::by_rules;
use crate::shown::{force_in, percent};

const ROW: f64 = 62.0;
/// Where bars begin, and how long a full one is.
const BAR: f64 = 400.0;
const FULL: f64 = 300.0;
/// A bar that is over stops here, its number goes on.
const MOST: f64 = 1.25;
/// More rows than this nobody reads.
const ROWS: usize = 14;

pub(super) fn draw(canvas: &mut Canvas, sheet: &Sheet<'_>, hang: &Hang, top: f64) -> f64 {
    let head = Style::new(28.0, FAINT).bold();
    let mut y = top + 30.0;
    canvas.fitted((MARGIN, y), &sheet.say(words::PictureParts), head, BAR + FULL - MARGIN - 60.0);
    canvas.text((BAR + FULL, y), "100 %", head.at(Anchor::Middle));
    let carries = match sheet.assessment.factor.value() {
        factor if factor > 1.0 => sheet.say(words::PictureCarriesTimes { factor: factor.to_string() }),
        _ => sheet.say(words::ReportCarries),
    };
    canvas.text((WIDTH - MARGIN, y), &carries, head.at(Anchor::End));
    let rows = rows(hang);
    let first = y + 16.0;
    for (at, held) in rows.iter().enumerate() {
        row(canvas, sheet, held, (at == 0).then(|| sheet.accent(hang)), first + ROW * at as f64);
    }
    y = first + ROW * rows.len() as f64;
    let limit = BAR + FULL;
    canvas.line((limit, first), (limit, y), Stroke::new(4.0, INK).dashed(10.0, 8.0));
    let more = hang.held.len().saturating_sub(rows.len());
    y += 40.0;
    let factor = sheet.assessment.factor.value();
    // One leg has nobody to share with.
    if let Some((leg, share)) = hang.worst(factor).filter(|_| hang.legs.len() > 1) {
        let carries = leg.worst_case.map_or(0.0, |worst| worst.value() * factor);
        let force = sheet.force(Newtons::new(carries).unwrap_or_default());
        let (leg, percent, rules) = (&leg.name, percent(share), by_rules(hang, false));
        let text = sheet.say(words::PictureShared { leg, force, percent, rules });
        let style = Style::new(32.0, INK);
        for line in canvas.wrapped(&text, style, WIDTH - 2.0 * MARGIN) {
            canvas.text((MARGIN, y), &line, style);
            y += 44.0;
        }
    }
    if more > 0 {
        canvas.text((MARGIN, y), &sheet.say(words::PictureNotShown { count: more }), Style::new(28.0, FAINT));
        y += 40.0;
    }
    y
}

/// All parts that are not a leg's, and the weakest part of each leg.
fn rows(hang: &Hang) -> Vec<&Held> {
    let mut seen = std::collections::BTreeSet::new();
    let weakest =
        hang.held.iter().filter(|held| held.leg.as_ref().is_none_or(|leg| seen.insert(leg.clone())));
    weakest.take(ROWS).collect()
}

fn row(canvas: &mut Canvas, sheet: &Sheet<'_>, held: &Held, governs: Option<&'static str>, y: f64) {
    let share = held.utilisation.value();
    let over = held.over().then_some(ALARM);
    let colour = governs.or(over).unwrap_or(INK);
    let style = Style::new(32.0, colour);
    let style = if governs.is_some() { style.bold() } else { style };
    let line = y + 42.0;
    let part = sheet.say(held.part.saying());
    let part = match held.leg.as_ref().map(|leg| (leg, sheet.mark_of(leg))) {
        Some((leg, mark)) if mark != leg.as_str() => format!("{mark}: {part}"),
        _ => part,
    };
    canvas.fitted((MARGIN, line), &part, style, BAR - MARGIN - 20.0);
    let long = (share.min(MOST) * FULL).max(3.0);
    let within = long.min(FULL);
    canvas.rect((BAR, y + 12.0), FULL, ROW - 24.0, "#e4e4e4", 3.0);
    canvas.rect((BAR, y + 12.0), within, ROW - 24.0, governs.or(over).unwrap_or("#444444"), 3.0);
    if long > FULL {
        canvas.rect((BAR + FULL, y + 6.0), long - FULL, ROW - 12.0, ALARM, 3.0);
    }
    canvas.text((BAR + FULL * MOST + 100.0, line), &percent(held.utilisation), style.bold().at(Anchor::End));
    let carries = force_in(held.carries, held.rated.unit()).to_string();
    canvas.fitted((WIDTH - MARGIN, line), &carries, style.at(Anchor::End), 170.0);
}
