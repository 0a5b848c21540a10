//! The lines that a program reads: their words are a part of the interface and the same in every language. Only what follows
//! `why=` and `title=` is for a person, and in the person's language.

use slingseal_app::{CardView, FindingState, NextStep, PointState, RunView, SealView, WalkStage, WalkView};

/// The line that ends an inspection.
pub(super) fn sealed_line(seal: &SealView) -> String {
    format!(
        "sealed load={} outcome={} verdict={} record={} seal={}",
        seal.facts.load,
        if seal.facts.fit { "fit" } else { "notfit" },
        seal.verdict.word,
        seal.record,
        seal.code.text
    )
}

/// The stable line of a run.
pub(super) fn run_status(run: &RunView, why: Option<&str>) -> String {
    let view = &run.walk;
    let (number, state) = view.card.as_ref().map_or((0, "-"), |card| (card.number, word(card)));
    let last = match why {
        Some(why) => format!("why={}", why.replace('\n', "; ")),
        None => format!("title={}", view.card.as_ref().map_or("-", |card| card.title.as_str())),
    };
    format!(
        "{} load={} stage={} card={number}/{} state={state} cards={}/{} called={} seconds={}/{} jumped={} sheet={} undo={} {last}",
        if why.is_some() { "refused" } else { "ok" },
        view.load,
        if run.ended { "ended" } else { "running" },
        view.cards.len(),
        view.progress.cards_done,
        view.progress.cards,
        view.findings.len(),
        run.elapsed_s,
        run.within_s,
        if run.clock_jumped { "yes" } else { "no" },
        run.sheet.as_deref().unwrap_or("-"),
        view.undo.unwrap_or_default(),
    )
}

/// The stable line.
pub(super) fn status(view: &WalkView, why: Option<&str>) -> String {
    let stage = match view.stage {
        WalkStage::Walking => "walking",
        WalkStage::Paused => "paused",
        WalkStage::Decided { .. } => "decided",
        WalkStage::Abandoned { .. } => "abandoned",
    };
    let next = match view.next {
        NextStep::AnswerCard => "answer_card",
        NextStep::LookAgain => "look_again",
        NextStep::Decide => "decide",
        NextStep::Seal => "seal",
        NextStep::Resume => "resume",
        NextStep::Nothing => "nothing",
    };
    let (number, state) = match &view.card {
        Some(card) => (card.number, word(card)),
        None => (0, "-"),
    };
    let open: Vec<String> = view
        .findings
        .iter()
        .filter_map(|finding| match finding.state {
            FindingState::Open => Some(format!("{}!", finding.number)),
            FindingState::PutRight => Some(format!("{}?", finding.number)),
            FindingState::Closed => None,
        })
        .collect();
    let findings = if open.is_empty() { "-".to_owned() } else { open.join(",") };
    let last = match why {
        Some(why) => format!("why={}", why.replace('\n', "; ")),
        None => format!("title={}", view.card.as_ref().map_or("-", |card| card.title.as_str())),
    };
    format!(
        "{} load={} stage={stage} card={number}/{} state={state} cards={}/{} points={}/{} open={} findings={findings} next={next} undo={} {last}",
        if why.is_some() { "refused" } else { "ok" },
        view.load,
        view.cards.len(),
        view.progress.cards_done,
        view.progress.cards,
        view.progress.points_done,
        view.progress.points,
        open.len(),
        view.undo.unwrap_or_default(),
    )
}

fn word(card: &CardView) -> &'static str {
    use slingseal_app::CardState;
    match card.state {
        CardState::Unanswered if card.points.iter().any(|point| point.state != PointState::Unanswered) => {
            "partly"
        }
        CardState::Unanswered => "unanswered",
        CardState::Partly => "partly",
        CardState::Good => "good",
        CardState::Deficient => "deficient",
        CardState::AwaitsSecondLook => "awaits_second_look",
    }
}
