//! The rigging editor: fields, the drawing as they change, points that are dragged or moved by arrow keys, links by plus and
//! minus. The desk computes all of it; the browser sends what was done and shows what came back.

use maud::{Markup, PreEscaped, html};
use slingseal_app::catalogue::{page as page_words, rigging as words};
use slingseal_app::{Language, PlanPoint, rigging_rules};

use super::rig::{Rig, field, lines, place};
use super::weighing::weighing_fields;

/// The whole page.
pub(in crate::serve) fn rigging(rig: &Rig, language: Language) -> Markup {
    html! {
        p { (words::EditorIntro.say(language)) }
        div.rig {
            form #rig method="post" action="/rigging" autocomplete="off" {
                // Enter in a field looks, and moves no link.
                button.first { (words::EditorLook.say(language)) }
                (weighing_fields(rig, language))
                (load_fields(rig, language))
                (hook_fields(rig, language))
                @for at in 0..8 { (leg_fields(rig, at, language)) }
                p.row {
                    button name="do" value="level" { (words::EditorLevel.say(language)) } " "
                    button name="do" value="leg" data-page { (words::EditorAddLeg.say(language)) } " "
                    button formaction="/rigging/file" { (words::EditorSave.say(language)) }
                }
            }
            div #hangs aria-live="polite" data-gone=(page_words::DeskGone.say(language)) { (hangs(rig, language)) }
        }
        section {
            h2 { (words::EditorOpen.say(language)) }
            form.plan method="post" action="/rigging/open" autocomplete="off" {
                label.whole { span { (words::EditorFile.say(language)) } input type="file" accept=".toml" data-into="toml"; }
                label.whole { span { (words::EditorText.say(language)) } textarea #toml name="text" rows="4" required spellcheck="false" {} }
                button { (words::EditorOpen.say(language)) }
            }
        }
    }
}

/// What the desk says of it: faults, or the drawing with what governs.
pub(in crate::serve) fn hangs(rig: &Rig, language: Language) -> Markup {
    html! {
        @if let Some(note) = &rig.note { div.note role="status" { @for line in note.lines() { p { (line) } } } }
        @match &rig.sheet {
            Err(faults) => div.fault role="alert" {
                p { b { (words::EditorFaults.say(language)) } }
                @for (at, fault) in faults.iter().enumerate() {
                    p id={ "rig-fault-" (at) } { @if !fault.field.is_empty() { (fault.field) ": " } (fault.words) }
                }
            },
            Ok(sheet) => {
                @let view = sheet.view(language);
                h2 { (view.paper.state) @if !view.paper.attitude.is_empty() { ": " (view.paper.attitude) } }
                p { (view.summary) }
                @if let Some(beyond) = &view.beyond { p { strong.wait { (beyond) } } }
                (plan(&sheet.points(), Side::Top, language))
                (plan(&sheet.points(), Side::Side, language))
                figure.rigging { (PreEscaped(sheet.svg())) }
                details open { summary { (words::EditorReport.say(language)) } pre.report { (view.report) } }
            }
        }
    }
}

fn load_fields(rig: &Rig, language: Language) -> Markup {
    let rules = std::iter::once("").chain(rigging_rules());
    html! {
        fieldset { legend { (words::EditorLoad.say(language)) }
            (field(rig, "mass", &words::FactMass.say(language), "5000 lb"))
            (place(rig, "centre", language))
            (field(rig, "allowable", &words::EditorAllowable.say(language), "7000 lb"))
            (field(rig, "allowable.source", &words::ColumnSource.say(language), ""))
            label { span { (words::EditorRule.say(language)) }
                select name="rule" { @for rule in rules { option value=(rule) selected[rule == rig.get("rule")] { (if rule.is_empty() { "–" } else { rule }) } } } }
            (lines(rig, "parts", &words::EditorParts.say(language)))
        }
    }
}

fn hook_fields(rig: &Rig, language: Language) -> Markup {
    html! {
        @for at in 0..2_usize {
            @let of = |name: &str| format!("hook.{at}.{name}");
            details open[at == 0 || !rig.get(&of("name")).is_empty()] {
                summary { (words::ColumnHook.say(language)) " " (at + 1) }
                fieldset { legend { (words::ColumnHook.say(language)) " " (at + 1) }
                    (field(rig, &of("name"), &words::EditorName.say(language), "main"))
                    (place(rig, &format!("hook.{at}"), language))
                    (field(rig, &of("limit"), &words::ColumnRated.say(language), "9000 lb"))
                    (field(rig, &of("source"), &words::ColumnSource.say(language), ""))
                }
            }
        }
    }
}

fn leg_fields(rig: &Rig, at: usize, language: Language) -> Markup {
    let of = |name: &str| format!("leg.{at}.{name}");
    if rig.get(&of("name")).is_empty() {
        return html! {};
    }
    let name = rig.get(&of("name"));
    let leg = format!("{} {name}", words::ColumnLeg.say(language));
    let chained = !rig.get(&of("links")).is_empty();
    html! {
        fieldset { legend { (leg) }
            @if chained {
                p.whole.links {
                    button name="do" value={ "less." (at) } aria-label={ (leg) ": " (words::EditorLess.say(language)) } { "−" }
                    output { (words::ColumnLink.say(language)) " " (rig.get(&of("seated"))) }
                    button name="do" value={ "more." (at) } aria-label={ (leg) ": " (words::EditorMore.say(language)) } { "+" }
                }
            }
            (field(rig, &of("name"), &words::EditorName.say(language), "1"))
            (field(rig, &of("hook"), &words::ColumnHook.say(language), "main"))
            (place(rig, &format!("leg.{at}"), language))
            (field(rig, &of("rope"), &words::ColumnRope.say(language), "12 ft"))
            (field(rig, &of("links"), &words::EditorLinks.say(language), "110"))
            (field(rig, &of("seated"), &words::EditorSeated.say(language), "3"))
            (field(rig, &of("pitch"), &words::EditorPitch.say(language), "1.09 in"))
            label { span { (words::EditorReeved.say(language)) }
                select name=(of("reeved")) { @for way in ["loop", "single"] { option value=(way) selected[way == rig.get(&of("reeved"))] { (way) } } } }
            (field(rig, &of("stretch"), &words::EditorStretch.say(language), "2 %"))
            (field(rig, &of("rated"), &words::ColumnRated.say(language), "2500 lb"))
            (field(rig, &of("source"), &words::ColumnSource.say(language), ""))
            (lines(rig, &of("parts"), &words::EditorLegParts.say(language)))
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Side {
    Top,
    Side,
}

/// The room that a plan is drawn in, and what is left about it.
const WIDE: f64 = 640.0;
const TALL: f64 = 360.0;
const EDGE: f64 = 56.0;

/// The load's points from above or from its right side, each a handle: forward is to the right.
fn plan(points: &[PlanPoint], side: Side, language: Language) -> Markup {
    let flat = |point: &PlanPoint| {
        let [x, y, z] = point.metres;
        (x, if side == Side::Top { y } else { z })
    };
    let extent = |values: Vec<f64>| {
        let (low, high) = values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(*value), high.max(*value))
        });
        (low, (high - low).max(0.5))
    };
    let (left, wide) = extent(points.iter().map(|point| flat(point).0).collect());
    let (low, tall) = extent(points.iter().map(|point| flat(point).1).collect());
    let scale = ((WIDE - 2.0 * EDGE) / wide).min((TALL - 2.0 * EDGE) / tall);
    let at = |point: &PlanPoint| {
        let (x, y) = flat(point);
        (EDGE + (x - left) * scale, TALL - EDGE - (y - low) * scale)
    };
    let (view, title) = match side {
        Side::Top => ("top", words::EditorTop.say(language)),
        Side::Side => ("side", words::EditorSide.say(language)),
    };
    html! {
        figure.points {
            figcaption { (title) }
            svg viewBox={ "0 0 " (WIDE) " " (TALL) } data-view=(view) data-scale=(format!("{scale:.6}")) role="group" aria-label=(title) {
                @for point in points {
                    @let (x, y) = at(point);
                    @let what = match &point.leg {
                        Some(leg) => words::EditorPoint { leg, place: point.place.join(", ") }.say(language),
                        None => words::EditorCentre { place: point.place.join(", ") }.say(language),
                    };
                    g.handle id={ "at-" (view) "-" (point.handle) } data-handle=(point.handle) tabindex="0" role="button" aria-label=(what)
                        transform=(format!("translate({x:.1} {y:.1})")) {
                        circle r="23" {}
                        text y="8" text-anchor="middle" { (point.leg.as_deref().map_or_else(|| "CG".to_owned(), |leg| leg.chars().take(3).collect())) }
                    }
                }
            }
        }
    }
}
