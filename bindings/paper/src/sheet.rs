use krilla::tagging::{TableHeaderScope, Tag};
use slingseal_app::Language;
use slingseal_app::RiggingView;
use slingseal_app::catalogue::{paper as words, rigging as rig_words};

use super::canvas::{Canvas, INK, PAPER, RULE, SOFT, Side, WASH, bold, plain};
use super::code::Code;
use super::document::{Draw, HEIGHT, Paper, PrintError, WIDTH, document};
use super::rigging::{Head, on_the_sheet};

/// One piece of equipment on the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct EquipmentLine {
    /// As on the data plate.
    pub serial: String,
    /// What it is.
    pub kind: String,
    /// Its rating with unit; nothing where none is given.
    pub rating: String,
    /// Where the rating comes from.
    pub source: String,
    /// When it must be inspected next.
    pub due: String,
}

/// What a load sheet says. Every value is a text that is ready to be read; an empty one is left out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LoadSheet {
    /// The load's number.
    pub load: String,
    /// What it is.
    pub description: String,
    /// Gross mass with unit.
    pub mass: String,
    /// The aircraft's type.
    pub aircraft: String,
    /// The mass that the aircrew allows for this lift.
    pub allowable: String,
    /// The pickup zone.
    pub zone: String,
    /// Its grid reference, spaced.
    pub grid: String,
    /// Where it goes.
    pub destination: String,
    /// Who built it.
    pub rigger: String,
    /// The procedure that it is inspected by.
    pub procedure: String,
    /// Slings, nets, bags, clevises.
    pub equipment: Vec<EquipmentLine>,
    /// Leg and link count, such as "1" and "3".
    pub links: Vec<(String, String)>,
    /// How the weight is known.
    pub weight_source: String,
    /// The airspeed limit, with its source.
    pub airspeed: String,
    /// The manual and its edition.
    pub rigged_to: String,
    /// The edition of the procedure that is ordered.
    pub edition: String,
    /// Whose credential signed the tag; nothing where it is unsigned.
    pub signed_by: Option<String>,
    /// What stands there where no planner signed: "UNSIGNED TAG", or whose signature is worth nothing.
    pub unsigned: String,
    /// What to look out for with this load, beside the standing cautions.
    pub cautions: Vec<String>,
    /// The tag's code.
    pub code: Code,
    /// The rigging, where the tag carries it.
    pub rigging: Option<RiggingView>,
}

/// The standing cautions. The voltage: TM 1-1520-240-10 §4-3-9.
fn standing(language: Language) -> [String; 3] {
    [
        words::CautionManualRules.say(language),
        words::CautionOnlyOnGo.say(language),
        words::CautionStaticOnHook.say(language),
    ]
}

/// One page a load: the upper half hangs on the load, the lower half goes with the aircrew. `dated` is RFC 3339 with `Z`.
///
/// # Errors
/// The page cannot be written.
pub(crate) fn load_sheets(
    sheets: &[LoadSheet],
    dated: &str,
    paper: Paper,
    language: Language,
) -> Result<Vec<u8>, PrintError> {
    let title = match sheets {
        [one] => words::LoadNumbered { load: &one.load }.say(language),
        _ => words::ManyLoadSheets { count: sheets.len() }.say(language),
    };
    let draws: Vec<_> = sheets
        .iter()
        .map(|sheet| {
            move |canvas: &mut Canvas<'_, '_>, (x, y): (f32, f32)| {
                on_the_load(canvas, x, y, sheet);
                cut(canvas, x, y + HEIGHT / 2.0);
                with_the_aircrew(canvas, x, y + HEIGHT / 2.0 + 16.0, sheet);
            }
        })
        .collect();
    // Behind the sheet of a load that carries its rigging: how it hangs, drawn.
    let rigged: Vec<_> = sheets
        .iter()
        .map(|sheet| {
            sheet.rigging.as_ref().map(|view| {
                move |canvas: &mut Canvas<'_, '_>, at: (f32, f32)| {
                    let head = Head { load: &sheet.load, description: &sheet.description, dated: None };
                    on_the_sheet(canvas, at, view, head, language);
                }
            })
        })
        .collect();
    let mut pages: Vec<(String, &Draw<'_>)> = Vec::new();
    for ((sheet, draw), rigged) in sheets.iter().zip(&draws).zip(&rigged) {
        pages.push((words::LoadNumbered { load: &sheet.load }.say(language), draw as _));
        if let Some(rigged) = rigged {
            pages.push((rig_words::SheetTitle { load: &sheet.load }.say(language), rigged as _));
        }
    }
    document(&title, dated, paper, language, &pages)
}

fn cut(canvas: &mut Canvas<'_, '_>, x: f32, y: f32) {
    canvas.dashes((x - 20.0, y), (x + WIDTH + 20.0, y), 0.8, SOFT);
    // Blades at both ends: where to put the scissors or the fold.
    for (at, way) in [(x - 20.0, 1.0), (x + WIDTH + 20.0, -1.0)] {
        canvas.polygon(&[(at, y - 4.0), (at + 9.0 * way, y), (at, y + 4.0)], INK);
    }
    let label = words::CutOrFold.say(canvas.language);
    let width = canvas.fonts.width(&label, super::fonts::Weight::Regular, 8.0);
    canvas.rect(x + WIDTH / 2.0 - width / 2.0 - 6.0, y - 5.0, width + 12.0, 10.0, PAPER);
    canvas.text(x + WIDTH / 2.0, y + 2.7, plain(8.0).grey(SOFT).side(Side::Middle), &label);
}

/// A small label with its value under it. Nothing where the value is empty.
fn fact(canvas: &mut Canvas<'_, '_>, place: (f32, f32), width: f32, size: f32, label: &str, value: &str) {
    if value.is_empty() {
        return;
    }
    canvas.together(|canvas| {
        canvas.text(place.0, place.1, bold(7.5).grey(SOFT), &label.to_uppercase());
        canvas.fit((place.0, place.1 + size + 1.0), width, bold(size), value);
    });
}

fn on_the_load(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, sheet: &LoadSheet) {
    const CODE: f32 = 236.0;
    canvas.rect(x, y, WIDTH, 26.0, INK);
    canvas.mark(x + 8.0, y + 4.0, 18.0, PAPER);
    canvas.text(x + 34.0, y + 17.5, bold(12.0).grey(PAPER), &words::SlingLoad.say(canvas.language));
    canvas.text(
        x + WIDTH - 10.0,
        y + 17.5,
        plain(10.0).grey(PAPER).side(Side::Right),
        &words::HangCodeOutward.say(canvas.language),
    );

    let top = y + 32.0;
    // The quiet zone belongs to the code; the frame stands outside it.
    canvas.code((x, top), CODE, &sheet.code, &words::TagAsCode.say(canvas.language));
    let right = x + CODE + 16.0;
    let width = WIDTH - CODE - 16.0;
    canvas.heading(1, &sheet.load, |canvas| canvas.fit((right, top + 48.0), width, bold(56.0), &sheet.load));
    canvas.block((right, top + 68.0), width, 2, plain(14.0), &sheet.description);
    canvas.line((right, top + 94.0), (x + WIDTH, top + 94.0), 1.5, INK);
    canvas.together(|canvas| {
        canvas.text(right, top + 107.0, bold(7.5).grey(SOFT), &gross_label(sheet, canvas.language));
        canvas.fit((right, top + 137.0), width, bold(31.0), &sheet.mass);
    });
    let half = (width - 12.0) / 2.0;
    let second = right + half + 12.0;
    fact(
        canvas,
        (right, top + 155.0),
        half,
        16.0,
        &words::LabelAircraft.say(canvas.language),
        &sheet.aircraft,
    );
    fact(
        canvas,
        (second, top + 155.0),
        half,
        16.0,
        &words::LabelAllowableFromAircrew.say(canvas.language),
        &sheet.allowable,
    );
    let third = (width - 24.0) / 3.0;
    if sheet.airspeed.is_empty() {
        fact(
            canvas,
            (right, top + 188.0),
            half,
            16.0,
            &words::LabelTo.say(canvas.language),
            &sheet.destination,
        );
        fact(
            canvas,
            (second, top + 188.0),
            half,
            16.0,
            &words::LabelRigger.say(canvas.language),
            &sheet.rigger,
        );
    } else {
        // What it rests on stands on the other half, where there is room.
        let airspeed = sheet.airspeed.split(" (").next().unwrap_or_default().to_owned();
        let columns = [
            (words::LabelTo.say(canvas.language), &sheet.destination),
            (words::LabelRigger.say(canvas.language), &sheet.rigger),
            (words::LabelAirspeedLimit.say(canvas.language), &airspeed),
        ];
        for (at, (label, value)) in columns.iter().enumerate() {
            fact(canvas, (right + at as f32 * (third + 12.0), top + 188.0), third, 13.0, label, value);
        }
    }
    let from = match (sheet.zone.as_str(), sheet.grid.as_str()) {
        (zone, "") => zone.to_owned(),
        (zone, grid) => format!("{zone}, {grid}"),
    };
    // The whole width: a grid reference that is cut is another place.
    fact(canvas, (right, top + 219.0), width, 13.0, &words::LabelFrom.say(canvas.language), &from);

    let strip = y + 274.0;
    signature(canvas, x, strip, sheet);
    let mut line = strip + 34.0;
    for caution in sheet.cautions.iter().take(1).cloned().chain(standing(canvas.language)) {
        canvas.polygon(&[(x, line), (x + 9.0, line), (x + 4.5, line - 8.0)], INK);
        canvas.fit((x + 15.0, line), WIDTH - 15.0, bold(10.0), &caution);
        line += 13.0;
    }
}

/// A weight and how it is known are read together.
fn gross_label(sheet: &LoadSheet, language: Language) -> String {
    match sheet.weight_source.as_str() {
        "" => words::GrossWeight.say(language).to_uppercase(),
        source => words::GrossWeightFrom { source }.say(language).to_uppercase(),
    }
}

/// Who stands for the tag; stripes where nobody does.
fn signature(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, sheet: &LoadSheet) {
    match &sheet.signed_by {
        Some(name) => {
            canvas.rect(x, y, WIDTH, 20.0, WASH);
            let text = match sheet.rigged_to.as_str() {
                "" => words::TagSignedBy { name }.say(canvas.language),
                manual => words::TagSignedByRiggedTo { name, manual }.say(canvas.language),
            };
            canvas.fit((x + 8.0, y + 14.0), WIDTH - 166.0, bold(11.0), &text);
            let check = words::CheckWord { check: &sheet.code.check }.say(canvas.language);
            canvas.text(x + WIDTH - 8.0, y + 14.0, bold(11.0).side(Side::Right), &check);
        }
        None => {
            canvas.stripes(x, y, 70.0, 20.0);
            canvas.stripes(x + WIDTH - 70.0, y, 70.0, 20.0);
            canvas.text(
                x + WIDTH / 2.0,
                y + 14.0,
                bold(11.0).side(Side::Middle),
                &words::UnsignedWaits { state: &sheet.unsigned, check: &sheet.code.check }
                    .say(canvas.language),
            );
        }
    }
}

fn with_the_aircrew(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, sheet: &LoadSheet) {
    const CODE: f32 = 176.0;
    let left = WIDTH - CODE - 14.0;
    canvas.mark(x, y, 16.0, INK);
    canvas.heading(2, &words::CopyForAircrew.say(canvas.language), |canvas| {
        canvas.text(x + 23.0, y + 13.0, bold(12.0), &words::CopyForAircrewHead.say(canvas.language));
    });
    canvas.line((x, y + 20.0), (x + left, y + 20.0), 1.5, INK);
    canvas.code((x + WIDTH - CODE, y - 4.0), CODE, &sheet.code, &words::SameTagAsCode.say(canvas.language));

    canvas.fit((x, y + 52.0), left * 0.48, bold(30.0), &sheet.load);
    canvas.together(|canvas| {
        canvas.text(x + left * 0.52, y + 32.0, bold(7.5).grey(SOFT), &gross_label(sheet, canvas.language));
        canvas.fit((x + left * 0.52, y + 53.0), left * 0.48, bold(21.0), &sheet.mass);
    });
    canvas.block((x, y + 67.0), left, 1, plain(11.0), &sheet.description);
    let facts = [
        (words::LabelAircraft.say(canvas.language), &sheet.aircraft),
        (words::LabelAllowableFromAircrew.say(canvas.language), &sheet.allowable),
        (words::LabelFrom.say(canvas.language), &sheet.zone),
        (words::LabelGrid.say(canvas.language), &sheet.grid),
        (words::LabelTo.say(canvas.language), &sheet.destination),
        (words::LabelRigger.say(canvas.language), &sheet.rigger),
        (words::LabelProcedure.say(canvas.language), &sheet.procedure),
        (words::LabelAirspeedLimit.say(canvas.language), &sheet.airspeed),
    ];
    let half = (left - 12.0) / 2.0;
    for (at, (label, value)) in facts.iter().filter(|(_, value)| !value.is_empty()).enumerate() {
        let column = x + (at % 2) as f32 * (half + 12.0);
        fact(canvas, (column, y + 82.0 + (at / 2) as f32 * 24.0), half, 11.0, label, value);
    }

    let mut line = y + 186.0;
    if !sheet.links.is_empty() {
        let links: Vec<String> = sheet
            .links
            .iter()
            .map(|(leg, count)| words::LegCounted { leg: &leg, count: &count }.say(canvas.language))
            .collect();
        canvas.together(|canvas| {
            canvas.text(x, line, bold(9.0), &words::LinkCounts.say(canvas.language));
            canvas.fit((x + 62.0, line), WIDTH - 62.0, plain(10.5), &links.join(" · "));
        });
        line += 14.0;
    }
    let rigged_to = [
        (words::RiggedTo.say(canvas.language), &sheet.rigged_to),
        (words::EditionOrdered.say(canvas.language), &sheet.edition),
    ];
    let half = WIDTH / 2.0;
    for (at, (label, value)) in rigged_to.iter().filter(|(_, value)| !value.is_empty()).enumerate() {
        let column = x + at as f32 * half;
        let room = canvas.fonts.width(label, super::fonts::Weight::Bold, 9.0) + 8.0;
        canvas.text(column, line, bold(9.0), label);
        canvas.fit((column + room, line), half - room - 6.0, plain(9.5), value);
    }
    if rigged_to.iter().any(|(_, value)| !value.is_empty()) {
        line += 14.0;
    }
    equipment(canvas, x, line, y + 280.0, &sheet.equipment);
    by_hand(canvas, x, y + 292.0);
    for (at, caution) in
        sheet.cautions.iter().skip(1).cloned().chain(standing(canvas.language)).take(4).enumerate()
    {
        canvas.fit((x, y + 313.0 + at as f32 * 9.6), WIDTH, plain(8.0), &caution);
    }
}

/// Lines for a pen: who saw the verdict, and when.
fn by_hand(canvas: &mut Canvas<'_, '_>, x: f32, y: f32) {
    for (at, width, label) in [
        (0.0, 170.0, &words::VerdictSeenBy.say(canvas.language)),
        (182.0, 110.0, &words::AtUtc.say(canvas.language)),
        (304.0, 219.0, &words::Remarks.say(canvas.language)),
    ] {
        canvas.line((x + at, y), (x + at + width, y), 0.6, SOFT);
        canvas.text(x + at, y + 8.0, bold(6.5).grey(SOFT), label);
    }
}

/// The equipment as a table from `y` to at most `bottom`.
fn equipment(canvas: &mut Canvas<'_, '_>, x: f32, y: f32, bottom: f32, lines: &[EquipmentLine]) {
    const ROW: f32 = 12.5;
    // Serial, kind, rating, source, due: where each begins.
    const AT: [f32; 6] = [0.0, 92.0, 222.0, 292.0, 451.0, WIDTH + 4.0];
    if lines.is_empty() {
        return;
    }
    let row = |canvas: &mut Canvas<'_, '_>, line: f32, cells: [&str; 5], head: bool| {
        canvas.group(Tag::TR, |canvas| {
            for (cell, at) in cells.iter().zip(AT.windows(2)) {
                let &[from, to] = at else { continue };
                let set = if head { bold(7.5).grey(SOFT) } else { plain(9.5) };
                let draw = |canvas: &mut Canvas<'_, '_>| match *cell {
                    // An empty cell is one, too: without it the row would be read as another.
                    "" => drop(canvas.text(x + from, line, set, " ")),
                    cell => canvas.fit((x + from, line), to - from - 6.0, set, cell),
                };
                if head {
                    canvas.group(Tag::TH(TableHeaderScope::Column), draw);
                } else {
                    canvas.group(Tag::TD, draw);
                }
            }
        });
    };
    let room = (((bottom - y - 3.0) / ROW).floor() as usize).max(1);
    let shown = if lines.len() > room { room - 1 } else { lines.len() };
    let mut line = y;
    canvas.group(Tag::Table, |canvas| {
        row(
            canvas,
            y,
            [
                &words::HeadSerial.say(canvas.language),
                &words::HeadEquipment.say(canvas.language),
                &words::HeadRating.say(canvas.language),
                &words::HeadRatingSource.say(canvas.language),
                &words::HeadInspectBy.say(canvas.language),
            ],
            true,
        );
        canvas.line((x, y + 3.0), (x + WIDTH, y + 3.0), 0.8, INK);
        for one in lines.iter().take(shown) {
            line += ROW;
            row(canvas, line, [&one.serial, &one.kind, &one.rating, &one.source, &one.due], false);
            canvas.line((x, line + 3.0), (x + WIDTH, line + 3.0), 0.4, RULE);
        }
    });
    if shown < lines.len() {
        let more = words::MoreInCode { count: &(lines.len() - shown) }.say(canvas.language);
        canvas.text(x, line + ROW, bold(9.0), &more);
    }
}
