//! A load's line on the board.

use super::board::BoardLoad;
use super::placed::Placed;
use crate::account::Knowledge;
use crate::movements::arrival::{event_of_word, reported};
use crate::{AppError, Inner, VerdictWord};
use slingseal_account::report::walked_too_fast;
use slingseal_catalogue::{board as words, closing as closing_words};
use slingseal_judgement::FlowState;
use slingseal_message::movement::{MovementEvent, MovementKind};
use slingseal_store::{FlowRow, WalkState};
use slingseal_words::{Language, LoadNumber, Quantity, Saying, Seconds, Time, Unit};

/// The mass in pounds, as the trade says it, from a column in grams.
pub(super) fn pounds(grams: Option<i64>) -> String {
    let quantity = grams.and_then(|grams| Quantity::nearest(grams as f64 / 1_000.0, Unit::Lb));
    quantity.map(|mass| format!("{:.0} lb", mass.thousandths() as f64 / 1_000.0)).unwrap_or_default()
}

impl Inner {
    /// The lines of loads of one state.
    pub(super) fn listed(
        &self,
        state: FlowState,
        rows: &[Placed],
        knowledge: &mut Knowledge,
    ) -> Result<Vec<BoardLoad>, AppError> {
        let (now, language) = (self.now(), self.language());
        let read = self.store.read();
        let least = self.least_a_card()?;
        let walks = if state == FlowState::Walking { read.walks_in_hand()? } else { Vec::new() };
        let mut loads = Vec::new();
        for Placed { flow, sealed, .. } in rows {
            let row =
                sealed.as_ref().map(|sealed| read.record_with_words(sealed.latest)).transpose()?.flatten();
            let mut one = BoardLoad {
                load: flow.load.clone(),
                description: flow.description.clone(),
                gross: flow.gross.clone(),
                aircraft: flow.aircraft.clone(),
                who: row.as_ref().map(|(row, _)| row.inspector.clone()).unwrap_or_default(),
                detail: String::new(),
                soon: false,
                reported: reported(flow, self.language()),
                walk: String::new(),
                zone: flow.zone.clone(),
                destination: flow.destination.clone(),
                at: flow.touched.into(),
            };
            if let Some((row, words)) = &row {
                if one.description.is_empty() {
                    one.description.clone_from(words);
                }
                if row.mass_g.is_some() {
                    one.gross = pounds(row.mass_g);
                }
                one.at = row.issued.into();
            }
            let row = row.map(|(row, _)| row);
            let walked = row.as_ref().map(|row| read.walk_facts_of(row.seal)).transpose()?.flatten();
            let hasty =
                walked.zip(least).filter(|(facts, least)| walked_too_fast(facts.took, facts.cards, *least));
            if let Some((facts, _)) = &hasty {
                let (took, cards) = (facts.took.to_string(), facts.cards);
                one.walk = closing_words::WalkTooFastTold { took, cards }.say(language);
            }
            let detail: Saying = match (state, &row) {
                (FlowState::Planned, _) => {
                    let (at, rigger) = (flow.touched.dtg(), &flow.rigger);
                    one.who = match flow.planner.as_str() {
                        "" => words::Unsigned.say(language),
                        planner => planner.to_owned(),
                    };
                    match rigger.as_str() {
                        "" => words::PlannedNoRigger { at }.into(),
                        rigger => words::PlannedRigger { at, rigger }.into(),
                    }
                }
                (FlowState::Walking, _) => {
                    let walk =
                        walks.iter().filter(|walk| walk.load == flow.load).max_by_key(|walk| walk.updated);
                    walk.map(|walk| {
                        one.who.clone_from(&walk.inspector);
                        one.at = walk.updated.into();
                        let at = walk.updated.dtg();
                        match walk.state {
                            WalkState::Paused => words::PausedAt { at }.saying(),
                            WalkState::Decided => words::DecidedNotSealed { at }.into(),
                            _ => words::LastAnswer { at }.into(),
                        }
                    })
                    .unwrap_or_else(|| Saying::verbatim(""))
                }
                (FlowState::Lifted | FlowState::SetDown | FlowState::Lost, _) => {
                    let shown = VerdictWord::of_word(&flow.verdict);
                    one.soon =
                        state == FlowState::Lifted && shown.is_some_and(|shown| shown != VerdictWord::Go);
                    moved(flow, language)
                }
                (FlowState::Refused, _) if flow.event.parse() == Ok(MovementKind::Refused) => {
                    moved(flow, language)
                }
                (FlowState::Fit, Some(row)) => {
                    let left = row.valid_until.since(now);
                    one.soon = left < Seconds::hours(1);
                    let until = row.valid_until.dtg();
                    match row.corrected {
                        0 => words::UntilLeft { until, left }.into(),
                        count => words::UntilLeftCorrected { until, left, count }.into(),
                    }
                }
                (FlowState::NotFit, Some(row)) => {
                    let (at, found, corrected) = (row.issued.dtg(), row.found, row.corrected);
                    words::SealedFoundCorrected { at, found, corrected }.into()
                }
                (FlowState::Expired, Some(row)) => {
                    one.at = row.valid_until.into();
                    let (at, ago) = (row.valid_until.dtg(), now.since(row.valid_until));
                    words::RanOutAgo { at, ago }.into()
                }
                (FlowState::Voided, Some(row)) => words::SealedTakenBack { at: row.issued.dtg() }.into(),
                _ => {
                    let judged = knowledge.judge(&read, &LoadNumber::new(&flow.load)?)?;
                    let why = judged.reasons.first().map(|reason| reason.saying());
                    why.unwrap_or_else(|| Saying::verbatim(""))
                }
            };
            one.detail = detail.say(language);
            one.soon |= hasty.is_some();
            loads.push(one);
        }
        Ok(loads)
    }
}

/// What the report that counts says of a load that moved, in one line.
fn moved(flow: &FlowRow, language: Language) -> Saying {
    let who = match flow.who.as_str() {
        "" => words::ByThisDevice.saying(),
        who => Saying::verbatim(who),
    };
    let at = flow.happened.map(Time::dtg).unwrap_or_default();
    let event = match event_of_word(&flow.event) {
        Some(MovementEvent::Refused(_)) => slingseal_catalogue::movement::MovementRefusedPlain.say(language),
        Some(known) => known.say(language),
        None => flow.event.replace('-', " "),
    };
    match VerdictWord::of_word(&flow.verdict) {
        None => words::Moved { event, at, who }.into(),
        Some(verdict) => words::MovedShown { event, at, who, verdict: verdict.word() }.into(),
    }
}
