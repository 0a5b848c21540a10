use maud::{Markup, html};
use slingseal_app::{EditionState, LoadView, MomentView, RecordState, RecordView, TagView};

use super::board::shape;
use super::chart::encoded;

fn fact(name: &str, value: &str) -> Markup {
    html! { @if !value.is_empty() { div { dt { (name) } dd { (value) } } } }
}

/// A load's whole story.
pub(in crate::serve) fn load(view: &LoadView) -> Markup {
    let newest = view.inspections.first();
    html! {
        p class={ "stamp " (view.state) } {
            (shape(&view.state)) strong { (view.state_title) }
            @if !view.reported.is_empty() { " " span.note { (view.reported) } }
            @if let Some(record) = newest {
                @let line = &record.line;
                @match view.state.as_str() {
                    "fit" => span { "until " (line.valid_until.dtg) ", by " (line.inspector) },
                    "expired" => span { "ran out " (line.valid_until.dtg) },
                    _ => span { "sealed " (line.issued.dtg) " by " (line.inspector) },
                }
            }
        }
        p.papers {
            @if let Some(record) = newest { a href={ "/record/" (record.line.record) ".pdf" } { "One-page record (PDF)" } }
            @if let Some(tag) = &view.tag { a href={ "/sheet.pdf?tag=" (tag.digest) } { "Load sheet (PDF)" } }
        }
        div.story {
            div {
                section.time aria-label="What happened" {
                    h2 { "What happened" }
                    @for walk in &view.walks {
                        p.note { (walk.inspector) " is at it: " (walk.state) ", begun " (walk.begun.dtg) }
                    }
                    ol.moments { @for moment in &view.moments { (told(moment)) } }
                }
                @if let Some(record) = newest { (seal(record)) }
            }
            div {
                @if let Some(tag) = &view.tag { (tag_facts(view, tag)) }
            }
        }
        @if view.inspections.iter().any(|record| !record.findings.is_empty()) { (findings(view)) }
        @if view.inspections.len() > 1 { (inspections(view)) }
    }
}

fn tag_facts(view: &LoadView, tag: &TagView) -> Markup {
    let zone = |zone: &slingseal_app::ZoneView| match &zone.grid {
        Some(grid) => format!("{}, {grid}", zone.name),
        None => zone.name.clone(),
    };
    let links: Vec<String> =
        tag.links.iter().map(|link| format!("leg {}: {}", link.leg, link.link)).collect();
    html! {
        section.tag {
            h2 { (tag.description) }
            dl.facts {
                (fact("Gross weight", &tag.gross))
                (fact("Allowable", &tag.allowable))
                (fact("Aircraft", &tag.aircraft))
                (fact("Rigger", tag.rigger.as_deref().unwrap_or("not named")))
                (fact("From", &zone(&tag.pickup)))
                (fact("To", &zone(&tag.destination)))
                (fact("Procedure", tag.procedure_title.as_deref().unwrap_or(&tag.procedure)))
                (fact("Tag signed by", tag.signed_by()))
                (fact("Links", &links.join(" · ")))
                @for line in &tag.basis.lines { (fact(&line.label, &line.text)) }
            }
            @if !tag.warnings.is_empty() { ul.warnings { @for warning in &tag.warnings { li { (warning) } } } }
            @if !tag.equipment.is_empty() {
                div.wide tabindex="0" role="group" aria-label="Table" { table {
                    thead { tr { th { "Serial" } th { "Equipment" } th { "Rating, source" } th { "Inspect by" } } }
                    tbody {
                        @for piece in &tag.equipment {
                            tr {
                                td { a href={ "/equipment/" (encoded(&piece.serial)) } { (piece.serial) } }
                                td { (piece.kind) }
                                td { (piece.rating.as_deref().unwrap_or("none given"))
                                    @if let Some(source) = &piece.source { ", " (source) } }
                                td.bad[piece.overdue] { (piece.next_inspection.as_deref().unwrap_or("–")) }
                            }
                        }
                    }
                } }
            }
            @if let Some(rigging) = &tag.rigging {
                figure.rigging {
                    img src={ "/load/" (encoded(&view.load)) "/rigging.svg" } alt={ "How it hangs: side, front and top. " (rigging.summary) };
                    figcaption { (rigging.summary)
                        @if let Some(beyond) = &rigging.beyond { br; strong.wait { (beyond) } } }
                }
            }
        }
    }
}

/// What is to be said of a list that an inspector walked by.
pub(super) fn edition_words(state: EditionState) -> &'static str {
    match state {
        EditionState::Approved => "approved",
        EditionState::Withdrawn => "withdrawn before this inspection",
        EditionState::NotApproved | EditionState::Missing => "not approved by the inspector's authority",
    }
}

fn seal(record: &RecordView) -> Markup {
    let line = &record.line;
    html! {
        section.seal {
            h2 { "Seal" }
            p.state.bad[line.state != RecordState::Fit] { b { (record.banner) } @if let Some(why) = record.reasons.first() { ": " (why) } }
            img.code src={ "/record/" (line.record) "/seal.svg" } alt="The seal as a code, to be scanned at the hook";
            dl.facts {
                (fact("Sealed", &line.issued.dtg))
                (fact("Inspector", &line.inspector))
                @if line.fit { (fact("Holds until", &line.valid_until.dtg)) }
                (fact("Walked by", &format!("{} version {}", line.procedure, line.version)))
                @if line.edition != EditionState::Approved {
                    (fact("That list", edition_words(line.edition)))
                }
                (fact("Found, corrected", &format!("{}, {}", line.found, line.corrected)))
            }
            p { "Check of the seal " span.digest { (record.check) } ", to compare by voice" }
            p.digest { "Record " (line.record) }
            @if !line.whole { p.note { "Only the seal is here, not the full record: receive the inspector's bundle." } }
        }
    }
}

fn told(moment: &MomentView) -> Markup {
    html! {
        li class=(moment.kind) {
            time datetime=(moment.at.rfc3339) { (moment.at.dtg) }
            span { (moment.what) }
        }
    }
}

fn findings(view: &LoadView) -> Markup {
    html! {
        section {
            h2 { "Deficiencies" }
            div.wide tabindex="0" role="group" aria-label="Table" { table {
                thead { tr { th { "Found" } th { "Card" } th { "Where" } th { "What" } th { "What became of it" } } }
                tbody {
                    @for record in &view.inspections {
                        @for finding in &record.findings {
                            tr {
                                td { (finding.found.dtg) }
                                td { (finding.card) }
                                td { (finding.prompt) }
                                td { (finding.shown)
                                    @if let Some(value) = &finding.value { " (" (value) ")" }
                                    @if let Some(note) = &finding.note { ": " (note) } }
                                td { @if finding.story.is_empty() { strong.bad { "open" } }
                                    @for line in &finding.story { div { (line) } } }
                            }
                        }
                    }
                }
            } }
        }
    }
}

fn inspections(view: &LoadView) -> Markup {
    html! {
        section {
            h2 { "Every inspection" }
            (super::tables::lines(view.inspections.iter().map(|record| &record.line)))
        }
    }
}
