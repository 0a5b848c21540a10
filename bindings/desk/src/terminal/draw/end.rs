//! An inspection without a card in hand: paused, at the decision, decided, abandoned.

use ratatui::text::Line;
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{FindingState, Subject, WalkStage, WalkView};

use super::{Lines, open_findings};
use crate::terminal::look::{Tone, wrap};
use crate::terminal::model::Desk;

impl Desk {
    /// Paused, at the decision, decided, abandoned.
    pub(super) fn end_lines(&self, view: &WalkView, width: usize) -> Lines {
        let mut lines = vec![Line::default()];
        let add = |lines: &mut Lines, words: &str, tone: Tone| {
            let wrapped = wrap(words, width);
            lines.extend(wrapped.into_iter().map(|line| Line::styled(line, self.look.words(tone))));
        };
        match &view.stage {
            WalkStage::Paused => {
                add(&mut lines, &words::InspectionPausedEveryAnswerKept.say(self.language), Tone::Strong);
                add(&mut lines, &words::MovedBeginAnew.say(self.language), Tone::Plain);
            }
            WalkStage::Abandoned { reason } => {
                add(&mut lines, &words::InspectionStoppedNoSealComes.say(self.language), Tone::Strong);
                add(&mut lines, reason, Tone::Plain);
            }
            WalkStage::Decided { fit } => {
                let words = if view.subject != Subject::Load {
                    words::DecidedSignatureCarriesIt.say(self.language)
                } else if *fit {
                    words::DecidedFitSealIt.say(self.language)
                } else {
                    words::DecidedNotFitSealIt.say(self.language)
                };
                add(&mut lines, &words, Tone::Strong);
            }
            WalkStage::Walking => {
                add(&mut lines, &words::WholeLoadInspected.say(self.language), Tone::Strong);
            }
        }
        lines.push(Line::default());
        let closed = view.findings.iter().filter(|finding| finding.state == FindingState::Closed).count();
        let found = words::FoundCorrectedReinspectedNotClosed {
            count: view.findings.len(),
            closed: &closed,
            open_findings: open_findings(view),
        }
        .say(self.language);
        add(&mut lines, &found, Tone::Plain);
        if view.blocks_fit.is_empty() {
            if view.stage == WalkStage::Walking {
                add(&mut lines, &words::NothingStandsWayFit.say(self.language), Tone::Good);
            }
        } else {
            lines.push(Line::default());
            add(&mut lines, &words::InWayOfFit.say(self.language), Tone::Strong);
            for block in &view.blocks_fit {
                add(&mut lines, &format!("[!] {block}"), Tone::Bad);
            }
        }
        lines
    }
}
