use maud::{Markup, html};
use slingseal_app::catalogue::Saying;
use slingseal_app::catalogue::{board, closing, page as words};
use slingseal_app::{
    EditionState, FlowState, Language, LoadView, MomentView, PhotoView, RecordState, RecordView, TagView,
};

use super::board::shape;
use super::chart::encoded;
use super::records::{lines, walked};

fn fact(name: &str, value: &str) -> Markup {
    html! { @if !value.is_empty() { div { dt { (name) } dd { (value) } } } }
}

/// A load's whole story; `acts`: whether something may be signed here.
pub(in crate::serve) fn load(
    view: &LoadView,
    photos: &[PhotoView],
    acts: bool,
    language: Language,
) -> Markup {
    let newest = view.inspections.first();
    html! {
        p class={ "stamp " (view.state.word()) } {
            (shape(view.state)) strong { (view.state_title) }
            @if !view.reported.is_empty() { " " span.note { (view.reported) } }
            @if let Some(record) = newest {
                @let line = &record.line;
                @match view.state {
                    FlowState::Fit => span { (words::UntilBy { until: &line.valid_until.dtg, by: &line.inspector }.say(language)) },
                    FlowState::Expired => span { (words::RanOut { at: &line.valid_until.dtg }.say(language)) },
                    _ => span { (words::SealedBy { at: &line.issued.dtg, by: &line.inspector }.say(language)) },
                }
            }
        }
        p.papers {
            @if let Some(record) = newest { a href={ "/record/" (record.line.record) ".pdf" } { (words::RecordPdf.say(language)) } }
            @if let Some(tag) = &view.tag { a href={ "/sheet.pdf?tag=" (tag.digest) } { (words::SheetPdf.say(language)) } }
        }
        div.story {
            div {
                section.time aria-label=(words::WhatHappened.say(language)) {
                    h2 { (words::WhatHappened.say(language)) }
                    @for walk in &view.walks {
                        p.note { (words::IsAtIt { inspector: &walk.inspector, state: walk.state.saying(), begun: &walk.begun.dtg }.say(language)) }
                    }
                    ol.moments { @for moment in &view.moments { (told(moment)) } }
                }
                @if let Some(record) = newest { (seal(record, acts, language)) }
            }
            div {
                @if let Some(tag) = &view.tag { (tag_facts(view, tag, language)) }
            }
        }
        @if !photos.is_empty() { (photographs(photos, language)) }
        @if view.inspections.iter().any(|record| !record.findings.is_empty()) { (findings(view, language)) }
        @if view.inspections.len() > 1 { (inspections(view, language)) }
    }
}

fn tag_facts(view: &LoadView, tag: &TagView, language: Language) -> Markup {
    let zone = |zone: &slingseal_app::ZoneView| match &zone.grid {
        Some(grid) => format!("{}, {grid}", zone.name),
        None => zone.name.clone(),
    };
    let links: Vec<String> = tag
        .links
        .iter()
        .map(|link| words::LegLink { leg: &link.leg, link: &link.link }.say(language))
        .collect();
    html! {
        section.tag {
            h2 { (tag.description) }
            dl.facts {
                (fact(&words::GrossWeight.say(language), &tag.gross))
                (fact(&words::Allowable.say(language), &tag.allowable))
                (fact(&words::Aircraft.say(language), &tag.aircraft))
                (fact(&words::Rigger.say(language), tag.rigger.as_ref().unwrap_or(&words::NotNamed.say(language))))
                (fact(&words::LabelFrom.say(language), &zone(&tag.pickup)))
                (fact(&words::LabelTo.say(language), &zone(&tag.destination)))
                (fact(&words::Procedure.say(language), tag.procedure_title.as_deref().unwrap_or(&tag.procedure)))
                (fact(&words::TagSignedBy.say(language), &tag.signed_by(language)))
                (fact(&board::LabelCheckByVoice.say(language), &tag.check))
                (fact(&words::Links.say(language), &links.join(" · ")))
                @for line in &tag.basis.lines { (fact(&line.label, &line.text)) }
            }
            @if !tag.warnings.is_empty() { ul.warnings { @for warning in &tag.warnings { li { (warning) } } } }
            @if !tag.equipment.is_empty() {
                div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                    thead { tr { th { (words::Serial.say(language)) } th { (words::Equipment.say(language)) } th { (words::RatingAndSource.say(language)) } th { (words::InspectBy.say(language)) } } }
                    tbody {
                        @for piece in &tag.equipment {
                            tr {
                                td { a href={ "/equipment/" (encoded(&piece.serial)) } { (piece.serial) } }
                                td { (piece.kind) }
                                td { (piece.rating.as_ref().unwrap_or(&words::NoneGiven.say(language)))
                                    @if let Some(source) = &piece.source { ", " (source) } }
                                td.bad[piece.overdue] { (piece.next_inspection.as_deref().unwrap_or("–")) }
                            }
                        }
                    }
                } }
            }
            @if let Some(rigging) = &tag.rigging {
                figure.rigging {
                    img src={ "/load/" (encoded(&view.load)) "/rigging.svg" } alt=(words::HowItHangs { summary: &rigging.summary }.say(language));
                    figcaption { (rigging.summary)
                        @if let Some(beyond) = &rigging.beyond { br; strong.wait { (beyond) } } }
                }
            }
        }
    }
}

/// What is to be said of a list that an inspector walked by.
pub(super) fn edition_words(state: EditionState, language: Language) -> String {
    let said: Saying = match state {
        EditionState::Approved => words::EditionApproved.into(),
        EditionState::Withdrawn => words::EditionWithdrawn.into(),
        EditionState::NotApproved | EditionState::Missing => words::EditionNotApproved.into(),
    };
    said.say(language)
}

fn seal(record: &RecordView, acts: bool, language: Language) -> Markup {
    let line = &record.line;
    html! {
        section.seal {
            h2 { (words::Seal.say(language)) }
            p.state.bad[line.state != RecordState::Fit] { b { (record.banner) } @if let Some(why) = record.reasons.first() { ": " (why) } }
            img.code src={ "/record/" (line.record) "/seal.svg" } alt=(words::SealAsCode.say(language));
            dl.facts {
                (fact(&words::Sealed.say(language), &line.issued.dtg))
                (fact(&words::Inspector.say(language), &line.inspector))
                @if line.fit { (fact(&words::HoldsUntil.say(language), &line.valid_until.dtg)) }
                (fact(&words::WalkedBy.say(language), &words::VersionOf { procedure: &line.procedure, version: &line.version }.say(language)))
                @if line.edition != EditionState::Approved {
                    (fact(&words::ThatList.say(language), &edition_words(line.edition, language)))
                }
                (fact(&words::FoundCorrected.say(language), &format!("{}, {}", line.found, line.corrected)))
                @if line.walk_seconds.is_some() {
                    div { dt { (closing::LabelWalkedIn.say(language)) } dd { (walked(line, language)) } }
                }
            }
            p { (words::CheckOfSeal.say(language)) " " span.digest { (record.check) } ", " (words::ToCompareByVoice.say(language)) }
            p.digest { (words::RecordDigest { digest: &line.record }.say(language)) }
            @if !line.whole { p.note { (words::OnlySealHere.say(language)) } }
            @if acts && line.state != RecordState::Voided { p { a href={ "/act/void?record=" (line.record) } { (words::ActVoid.say(language)) } } }
        }
    }
}

fn told(moment: &MomentView) -> Markup {
    html! {
        li class=(moment.kind.word()) {
            time datetime=(moment.at.rfc3339) { (moment.at.dtg) }
            span { (moment.what) }
        }
    }
}

/// What was photographed; the picture as large as it came is behind each.
fn photographs(photos: &[PhotoView], language: Language) -> Markup {
    html! {
        section {
            h2 { (words::Photographs.say(language)) }
            div.photos {
                @for photo in photos {
                    @let at = &photo.at.dtg;
                    figure {
                        @if photo.here {
                            a href={ "/photo/" (photo.digest) } {
                                img src={ "/photo/" (photo.digest) } loading="lazy"
                                    alt=(words::PhotographOf { of: &photo.of, at }.say(language));
                            }
                        } @else {
                            p.note { (words::PhotographAway.say(language)) }
                        }
                        figcaption { (photo.of) ", " (at) }
                    }
                }
            }
        }
    }
}

fn findings(view: &LoadView, language: Language) -> Markup {
    html! {
        section {
            h2 { (words::Deficiencies.say(language)) }
            div.wide tabindex="0" role="group" aria-label=(words::Table.say(language)) { table {
                thead { tr { th { (words::Found.say(language)) } th { (words::Card.say(language)) } th { (words::Where.say(language)) } th { (words::What.say(language)) } th { (words::WhatBecameOfIt.say(language)) } } }
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
                                td { @if finding.story.is_empty() { strong.bad { (words::Open.say(language)) } }
                                    @for line in &finding.story { div { (line) } } }
                            }
                        }
                    }
                }
            } }
        }
    }
}

fn inspections(view: &LoadView, language: Language) -> Markup {
    html! {
        section {
            h2 { (words::EveryInspection.say(language)) }
            (lines(view.inspections.iter().map(|record| &record.line), language))
        }
    }
}
