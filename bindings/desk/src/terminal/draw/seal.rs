//! The seal full screen: the code in half blocks, and the facts that the hookup team checks aloud.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::{Color, Style};
use ratatui::text::Line;
use ratatui::widgets::Paragraph;
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{CodeView, SealView};

use super::foot::hint_lines;
use crate::terminal::look::{Tone, wrap};
use crate::terminal::model::Desk;

/// Modules of quiet zone on each side (ISO/IEC 18004 §7.3.7).
const QUIET: u32 = 4;

pub(super) fn draw(frame: &mut Frame<'_>, seal: &SealView, code: bool, desk: &Desk) {
    let area = frame.area();
    let side = seal.code.size + 2 * QUIET;
    let (columns, rows) = (small(side), small(side.div_ceil(2)));
    let mut foot = desk.flash_lines(usize::from(area.width));
    foot.extend(hint_lines(
        desk.look,
        [
            vec![
                ("+".into(), words::WritePictures.say(desk.language)),
                (".".into(), words::CodeFacts.say(desk.language)),
                ("0".into(), words::OtherLoadsLeave.say(desk.language)),
            ],
            Vec::new(),
        ],
        usize::from(area.width),
    ));
    let under = u16::try_from(foot.len()).unwrap_or(3);
    let below = Rect { y: area.y + area.height.saturating_sub(under), height: under, ..area };
    frame.render_widget(Paragraph::new(foot), below);
    let above = Rect { height: area.height.saturating_sub(under), ..area };
    let beside = above.width > columns + 34;
    if code && above.height >= rows {
        let place = Rect { width: columns, height: rows, ..above };
        frame.render_widget(Paragraph::new(half_blocks(&seal.code)).style(ink()), place);
        if beside {
            let place = Rect { x: columns + 2, width: above.width - columns - 2, ..above };
            frame.render_widget(Paragraph::new(facts(seal, desk, usize::from(place.width))), place);
        }
        return;
    }
    let mut lines = facts(seal, desk, usize::from(area.width).saturating_sub(2));
    if code {
        lines.push(Line::default());
        let need = words::WindowTooSmallForCode {
            columns: &columns,
            rows: rows + under,
            width: &area.width,
            height: &area.height,
        }
        .say(desk.language);
        lines.extend(
            wrap(&need, usize::from(area.width).saturating_sub(2))
                .into_iter()
                .map(|line| Line::styled(format!(" {line}"), desk.look.words(Tone::Wait))),
        );
    }
    frame.render_widget(Paragraph::new(lines), above);
}

/// A code must be dark on light whatever the terminal's own colours are: this is a picture, not decoration. Where a
/// terminal shows no colours at all, light modules are the drawn ones, as on a dark screen.
fn ink() -> Style {
    Style::new().fg(Color::White).bg(Color::Black)
}

fn half_blocks(code: &CodeView) -> Vec<Line<'static>> {
    let side = code.size + 2 * QUIET;
    let dark = |x: u32, y: u32| {
        let (Some(x), Some(y)) = (x.checked_sub(QUIET), y.checked_sub(QUIET)) else { return false };
        if x >= code.size || y >= code.size {
            return false;
        }
        let at = usize::try_from(y * code.size + x).unwrap_or(usize::MAX);
        code.modules.get(at).is_some_and(|module| *module == 1)
    };
    (0..side)
        .step_by(2)
        .map(|y| {
            let row: String = (0..side)
                .map(|x| match (dark(x, y), y + 1 < side && dark(x, y + 1)) {
                    (false, false) => '█',
                    (true, false) => '▄',
                    (false, true) => '▀',
                    (true, true) => ' ',
                })
                .collect();
            Line::from(row)
        })
        .collect()
}

fn facts(seal: &SealView, desk: &Desk, width: usize) -> Vec<Line<'static>> {
    let facts = &seal.facts;
    let (word, tone) = if facts.fit {
        (words::FitSealed.say(desk.language), Tone::Good)
    } else {
        (words::NotFitSealed.say(desk.language), Tone::Bad)
    };
    let mut lines = Vec::new();
    if desk.practice {
        lines.push(Line::styled(
            words::PracticeSealHoldsNowhere.say(desk.language),
            desk.look.bar(Tone::Practice),
        ));
    }
    lines
        .push(Line::styled(format!(" {word:<width$}", width = width.saturating_sub(1)), desk.look.bar(tone)));
    lines.push(Line::default());
    let none = String::new();
    // What is not fit holds until nothing.
    let until = words::FactHoldsTo.say(desk.language);
    let rows = [
        (words::FactLoad.say(desk.language), &facts.load),
        (words::FactWhat.say(desk.language), &seal.description),
        (words::FactGross.say(desk.language), &facts.mass),
        (words::FactUnder.say(desk.language), &seal.aircraft),
        (words::FactInspector.say(desk.language), facts.inspector.as_ref().unwrap_or(&none)),
        (words::FactAuthority.say(desk.language), facts.authority.as_ref().unwrap_or(&none)),
        (words::FactSealed.say(desk.language), &facts.issued.dtg),
        (until.clone(), &facts.valid_until.dtg),
        (words::FactProcedure.say(desk.language), &facts.procedure),
        (words::FactCheck.say(desk.language), &facts.check),
    ];
    for (name, value) in rows.into_iter().filter(|(name, _)| facts.fit || *name != until) {
        for (at, line) in wrap(value, width.saturating_sub(13)).into_iter().enumerate() {
            let name = if at == 0 { name.as_str() } else { "" };
            lines.push(Line::from(format!(" {name:<10} {line}")));
        }
    }
    let found = words::CountCorrected { found: facts.found, corrected: facts.corrected }.say(desk.language);
    lines.push(Line::from(format!(" {:<10} {found}", words::FoundLabel.say(desk.language))));
    let record: String = facts.record.chars().take(16).collect();
    lines.push(Line::from(format!(" {:<10} {record}…", words::FactRecord.say(desk.language))));
    lines.push(Line::default());
    let verdict =
        words::AtTheHook { word: &seal.verdict.word, first: &seal.verdict.first }.say(desk.language);
    lines.extend(
        wrap(&verdict, width.saturating_sub(2))
            .into_iter()
            .map(|line| Line::styled(format!(" {line}"), desk.look.words(Tone::Strong))),
    );
    lines
}

fn small(number: u32) -> u16 {
    u16::try_from(number).unwrap_or(u16::MAX)
}
