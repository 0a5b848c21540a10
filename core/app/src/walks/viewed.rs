//! A walk as its view says it: the card in front, each point and deficiency, what comes next.

use super::view::{
    CardState, CardView, ChoiceView, DeficiencyView, FindingState, FindingView, NextStep, PointKind,
    PointState, PointView, ProgressView, RefusedView, StationView, WalkStage, WalkView,
};
use crate::walks::counted_links;
use crate::walks::entries::id_text;
use crate::{AppError, Inner};
use slingseal_catalogue::walk as words;
use slingseal_journal::WalkId;
use slingseal_walk::procedure::{Card, Fate, Kind, Point, Subject};
use slingseal_walk::walk::{
    self, At, Block, CardStatus, Caution, Finding, Look, PointStatus, Refusal, Stage, Walk,
};
use slingseal_words::{Language, Quantity, Saying};

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

impl Inner {
    pub(crate) fn walk_view(
        &self,
        id: WalkId,
        walk: &Walk,
        refused: Option<RefusedView>,
    ) -> Result<WalkView, AppError> {
        let ground = walk.ground();
        let plan = &ground.plan;
        let language = self.language();
        let progress = walk.progress();
        let stage = match walk.stage() {
            Stage::Ready | Stage::Walking => WalkStage::Walking,
            Stage::Paused { .. } => WalkStage::Paused,
            Stage::Decided { outcome, .. } => WalkStage::Decided { fit: *outcome == walk::Outcome::Fit },
            Stage::Abandoned { reason, .. } => WalkStage::Abandoned { reason: reason.to_string() },
        };
        let walking = stage == WalkStage::Walking;
        let rigging = self.rigging_said(id, walk)?;
        let next = match (&stage, walk.at()) {
            (WalkStage::Walking, At::Card(_)) => NextStep::AnswerCard,
            (WalkStage::Walking, At::Decision) if walk.tally().open > 0 && !walk.findings().is_empty() => {
                NextStep::LookAgain
            }
            (WalkStage::Walking, At::Decision) => NextStep::Decide,
            (WalkStage::Paused, _) => NextStep::Resume,
            (WalkStage::Decided { .. }, _) if plan.subject != Subject::Load => NextStep::Nothing,
            (WalkStage::Decided { .. }, _) => NextStep::Seal,
            (WalkStage::Abandoned { .. }, _) => NextStep::Nothing,
        };
        Ok(WalkView {
            walk: id_text(id),
            load: ground.facts.load.to_string(),
            subject: plan.subject,
            procedure: plan.id.to_string(),
            title: plan.title.clone(),
            inspector: ground.inspector.to_string(),
            stations: plan
                .stations
                .iter()
                .map(|station| StationView {
                    title: station.title.clone(),
                    first: station.first.number(),
                    last: station.last.number(),
                })
                .collect(),
            card: walk.current_card().filter(|_| walking).map(|card| card_view(walk, card, self.language())),
            cards: plan.cards.iter().map(|card| card_state(walk.card_status(card.number))).collect(),
            progress: ProgressView {
                cards_done: count(progress.cards_done),
                cards: count(progress.cards),
                points_done: count(progress.points_done),
                points: count(progress.points),
            },
            findings: walk.findings().iter().map(|finding| finding_view(walk, finding, language)).collect(),
            tag_faults: walk.tag_faults().iter().map(|fault| fault.say(language)).collect(),
            blocks_fit: if walking {
                let said = |block| self.shown_block(walk, block, rigging.as_deref()).say(language);
                walk.blocks_fit(self.now()).iter().map(said).collect()
            } else {
                Vec::new()
            },
            cautions: self.cautions_said(id, walk)?,
            rigging,
            rigging_within_limits: walk.rigging().is_none_or(|finding| finding.within_limits),
            link_change: self.link_change(id, walk)?,
            rigger: walk.ground().facts.rigger.as_ref().map(ToString::to_string),
            undo: walk.last_answer().filter(|_| walking),
            next,
            refused,
            stage,
        })
    }

    /// What should be known before a decision. That a load holds at rest alone is told until it is decided, and not only where its
    /// tag is read.
    fn cautions_said(&self, id: WalkId, walk: &Walk) -> Result<Vec<String>, AppError> {
        let language = self.language();
        let mut said: Vec<String> =
            walk.cautions().into_iter().map(|caution| caution_text(caution, language)).collect();
        if walk.rigging().is_some_and(|finding| finding.within_limits)
            && let Some(load) = self.rigging_as_counted(id, walk)?
            && let Some(beyond) = slingseal_rigging::assess(&load).beyond
        {
            said.push(slingseal_rigging::beyond_saying(&beyond).say(language));
        }
        Ok(said)
    }

    /// A refusal with what stands in the way as the reader's procedure calls it.
    pub(crate) fn shown_refusal(
        &self,
        id: WalkId,
        walk: &Walk,
        refusal: Refusal,
    ) -> Result<RefusedView, AppError> {
        let refusal = match refusal {
            Refusal::NotFit { blocks } => {
                let rigging = self.rigging_said(id, walk)?;
                let shown = |block| self.shown_block(walk, block, rigging.as_deref());
                Refusal::NotFit { blocks: blocks.iter().map(shown).collect() }
            }
            other => other,
        };
        Ok(RefusedView::of(&refusal, self.language()))
    }

    /// What stands in the way of fit, with the deficiency as the reader's procedure calls it.
    fn shown_block(&self, walk: &Walk, block: &Block, rigging: Option<&str>) -> Block {
        let language = self.language();
        let named = |finding: &walk::FindingNo| {
            walk.finding(*finding).map(|finding| finding_view(walk, finding, language).shown)
        };
        match block {
            Block::Open { finding, card, name } => {
                let name = named(finding).unwrap_or_else(|| name.clone());
                Block::Open { finding: *finding, card: *card, name }
            }
            Block::AwaitsSecondLook { finding, card, name } => {
                let name = named(finding).unwrap_or_else(|| name.clone());
                Block::AwaitsSecondLook { finding: *finding, card: *card, name }
            }
            Block::Rigging { summary } => {
                Block::Rigging { summary: rigging.map_or_else(|| summary.clone(), str::to_owned) }
            }
            other => other.clone(),
        }
    }

    /// How the load hangs, as the reader reads it: what a journal keeps of it is English. What an older program worked out
    /// otherwise stands as it was kept.
    fn rigging_said(&self, id: WalkId, walk: &Walk) -> Result<Option<String>, AppError> {
        let Some(finding) = walk.rigging() else { return Ok(None) };
        let load = match self.language() {
            Language::English => None,
            _ => self.rigging_as_counted(id, walk)?,
        };
        Ok(Some(super::finding_said(finding, load.as_slice()).say(self.language())))
    }

    /// What the counted links do to the load, where they differ from the plan.
    fn link_change(&self, id: WalkId, walk: &Walk) -> Result<Option<String>, AppError> {
        let planned = &walk.ground().facts.links;
        let differing: Vec<_> = counted_links(walk)
            .into_iter()
            .filter(|seated| {
                planned.get(seated.leg.as_str()).is_some_and(|link| *link != u32::from(seated.link))
            })
            .collect();
        let Some(first) = differing.first() else { return Ok(None) };
        let Some(rigging) = self.planned_rigging(id)? else { return Ok(None) };
        let language = self.language();
        let link = planned.get(first.leg.as_str()).copied().unwrap_or_default();
        let what = words::LinkSitsElsewhere {
            leg: first.leg.as_str(),
            link: first.link.to_string(),
            planned: link.to_string(),
        };
        let so = match rigging.with_links(&differing) {
            Ok(changed) => {
                let planned = crate::tags::statics::summary(&rigging, &slingseal_rigging::assess(&rigging));
                let now = crate::tags::statics::summary(&changed, &slingseal_rigging::assess(&changed));
                words::PlannedAndNow { planned, now }.saying()
            }
            Err(error) => error.saying(),
        };
        Ok(Some(Saying::joined([what.saying(), so], " ").say(language)))
    }
}

fn card_state(status: CardStatus) -> CardState {
    match status {
        CardStatus::Unanswered => CardState::Unanswered,
        CardStatus::Partly => CardState::Partly,
        CardStatus::Good => CardState::Good,
        CardStatus::Deficient => CardState::Deficient,
        CardStatus::AwaitsSecondLook => CardState::AwaitsSecondLook,
    }
}

fn card_view(walk: &Walk, card: &Card, language: Language) -> CardView {
    let plan = &walk.ground().plan;
    let needing: Vec<_> = walk.needing_values().into_iter().map(|point| &point.id).collect();
    let points: Vec<PointView> = walk
        .counting(card)
        .map(|point| point_view(walk, point, needing.contains(&&point.id), language))
        .collect();
    let spoken = std::iter::once(format!("{}. {}", card.title, card.motion))
        .chain(card.caution.clone())
        .chain(points.iter().map(|point| point.spoken.clone()))
        .collect::<Vec<_>>()
        .join(" ");
    CardView {
        number: card.number.number(),
        of: count(plan.cards.len()),
        station: plan.stations.get(card.station).map(|station| station.title.clone()).unwrap_or_default(),
        title: card.title.clone(),
        motion: card.motion.clone(),
        caution: card.caution.clone(),
        good_enabled: needing.is_empty(),
        points,
        spoken,
        state: card_state(walk.card_status(card.number)),
    }
}

fn point_view(walk: &Walk, point: &Point, needs_value: bool, language: Language) -> PointView {
    let (state, answer) = match walk.point_status(&point.id) {
        PointStatus::Unanswered => (PointState::Unanswered, None),
        PointStatus::Good(answer) => (PointState::Good, answer.value),
        PointStatus::Deficient(number) => (PointState::Deficient, value_of(walk, number)),
        PointStatus::AwaitsSecondLook(number) => (PointState::AwaitsSecondLook, value_of(walk, number)),
    };
    PointView {
        id: point.id.to_string(),
        prompt: point.prompt.clone(),
        spoken: point.speak.clone(),
        kind: kind_view(walk, point, state != PointState::Unanswered),
        state,
        answer: answer
            .filter(|value| *value != walk::Value::Good)
            .map(|value| super::told::value_said(walk, &point.id, &value).say(language)),
        deficiencies: point
            .deficiencies
            .iter()
            .map(|deficiency| DeficiencyView {
                name: deficiency.name.clone(),
                shown: deficiency.shown.clone(),
                in_place: deficiency.fate == Fate::InPlace,
                fate: deficiency.fate.into(),
            })
            .collect(),
        source: point.mark.saying().say(language),
        needs_value,
        may_not_apply: walk.ground().facts.may_not_apply(point),
    }
}

fn value_of(walk: &Walk, number: walk::FindingNo) -> Option<walk::Value> {
    walk.finding(number)?.value.clone()
}

/// How a point is answered. What is wanted is told once something was answered: who knows the number counts to it.
fn kind_view(walk: &Walk, point: &Point, answered: bool) -> PointKind {
    match &point.kind {
        Kind::Look => PointKind::Look,
        Kind::Count(_) => PointKind::Count { expected: walk.expected_count(point).filter(|_| answered) },
        Kind::Choice(choices) => PointKind::Choice {
            options: choices
                .iter()
                .map(|choice| ChoiceView { name: choice.name.clone(), shown: choice.shown.clone() })
                .collect(),
        },
        Kind::Measure { least, most, unit } => {
            let unit = least.or(*most).map(Quantity::unit).or(*unit);
            let unit = unit.map(|unit| unit.to_string()).unwrap_or_default();
            let range = match (least.filter(|_| answered), most.filter(|_| answered)) {
                (Some(least), Some(most)) => format!("{least} – {most}"),
                (Some(least), None) => format!("≥ {least}"),
                (None, Some(most)) => format!("≤ {most}"),
                (None, None) => String::new(),
            };
            PointKind::Measure { range, unit }
        }
        Kind::Serial { .. } => PointKind::Serial,
        Kind::Text { .. } => PointKind::Text,
    }
}

fn finding_view(walk: &Walk, finding: &Finding, language: Language) -> FindingView {
    let point = walk.ground().plan.point(&finding.point).map(|(_, point)| point);
    let shown = point
        .and_then(|point| point.deficiencies.iter().find(|known| known.name == finding.name))
        .map_or_else(|| finding.name.clone(), |known| known.shown.clone());
    FindingView {
        number: finding.number.0,
        card: finding.card.number(),
        point: finding.point.to_string(),
        prompt: point.map(|point| point.prompt.clone()).unwrap_or_default(),
        shown,
        value: finding
            .value
            .as_ref()
            .map(|value| super::told::value_said(walk, &finding.point, value).say(language)),
        note: finding.note.as_ref().map(ToString::to_string),
        photos: finding.photos.iter().map(ToString::to_string).collect(),
        in_place: finding.in_place(),
        fate: finding.fate.into(),
        piece: finding.piece.as_ref().map(ToString::to_string),
        needs_value: point.is_some_and(|point| !matches!(point.kind, Kind::Look | Kind::Text { .. })),
        kind: point.map_or(PointKind::Look, |point| kind_view(walk, point, true)),
        found: finding.found.into(),
        state: match finding.state {
            walk::FindingState::Open => FindingState::Open,
            walk::FindingState::PutRight => FindingState::PutRight,
            walk::FindingState::Closed => FindingState::Closed,
        },
        story: finding.looks.iter().map(|look| look_text(look, language)).collect(),
    }
}

fn look_text(look: &Look, language: Language) -> String {
    let (look, note) = match look {
        Look::PutRight { at, by: Some(who), note, .. } => {
            (words::LookCorrectedBy { at: at.dtg(), who }.saying(), note)
        }
        Look::PutRight { at, by: None, note, .. } => (words::LookCorrected { at: at.dtg() }.saying(), note),
        Look::Again { at, again: walk::Again::Good, note, .. } => {
            (words::LookGood { at: at.dtg() }.saying(), note)
        }
        Look::Again { at, again: walk::Again::StillDeficient, note, .. } => {
            (words::LookStillDeficient { at: at.dtg() }.saying(), note)
        }
    };
    match note {
        Some(note) => words::LookWithNote { look, note }.say(language),
        None => look.say(language),
    }
}

fn caution_text(caution: Caution, language: Language) -> String {
    match caution {
        Caution::NoRiggerNamed => words::CautionNoRigger.say(language),
        Caution::NoAllowable => words::CautionNoAllowable.say(language),
        Caution::RiggingNotAssessed => words::CautionNoRigging.say(language),
        Caution::ClockJumped => words::CautionClockJumped.say(language),
    }
}
