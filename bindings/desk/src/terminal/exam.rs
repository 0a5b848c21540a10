//! A run of an examination on the full screen: the same cards and keys, a clock, and nothing that gives anything away.

use ratatui::text::Line;
use slingseal_app::catalogue::terminal as words;
use slingseal_app::{AppError, ExamBegin, Language, RunView, WalkRequest};

use super::look::{Look, Tone, wrap};
use super::model::{Action, Desk, Item, Page};
use super::questions::pick;

impl Desk {
    /// Shows a run and takes its walk for the one on the screen.
    pub(super) fn show_run(&mut self, run: RunView) {
        self.view = Some(run.walk.clone());
        self.run = Some(run);
    }

    /// Waits at the load for the student to start the clock.
    pub(super) fn ask_start(&mut self, begin: ExamBegin) {
        let lead = vec![
            words::StandAtLoad { student: &begin.student }.say(self.language),
            words::CallWhatYouFind.say(self.language),
        ];
        let items = vec![
            Item::new(words::StartClock.say(self.language), Action::BeginRun(Box::new(begin))),
            Item::new(words::LeaveNothingBegun.say(self.language), Action::Leave),
        ];
        self.page = pick(words::Examination.say(self.language), lead, items, Action::Leave);
    }

    /// Takes up a run that was begun.
    pub(super) fn take_up_run(&mut self, run: &str) -> Result<(), AppError> {
        let run = self.app.exam_run(run)?;
        let words = if run.elapsed_s < 2 {
            words::ClockRunsCallWhatYou.say(self.language)
        } else {
            words::RunGoesClockNeverStopped.say(self.language)
        };
        self.show_run(run);
        self.page = Page::Walk;
        self.tell(Tone::Plain, words);
        Ok(())
    }

    /// Moves the clock on the screen; `false` where there is none.
    pub(super) fn tick(&mut self) -> bool {
        let Some(run) = self.run.as_ref().filter(|run| !run.ended).map(|run| run.run.clone()) else {
            return false;
        };
        // A disk that cannot be written shows with the next answer.
        if let Ok(run) = self.app.exam_run(&run) {
            self.run = Some(run);
        }
        true
    }

    /// As `perform`, in a run.
    pub(super) fn perform_in_run(&mut self, request: &WalkRequest, said: String) -> Result<(), AppError> {
        let Some(id) = self.run.as_ref().map(|run| run.run.clone()) else { return Ok(()) };
        let mut run = self.app.exam_do(&id, request)?;
        let refused = run.walk.refused.take();
        let called = run.walk.findings.len();
        let before = self.view.as_ref().map_or(0, |view| view.findings.len());
        self.show_run(run);
        match refused {
            Some(refused) => {
                // What was typed stays, to be mended.
                if !matches!(self.page, Page::Entry(_)) {
                    self.page = Page::Walk;
                }
                self.tell(Tone::Bad, refused.message);
            }
            None => {
                self.page = Page::Walk;
                let words = if called > before {
                    words::CallRecordedWhenRestCard { called: &called }.say(self.language)
                } else {
                    said
                };
                self.tell(Tone::Plain, words);
            }
        }
        Ok(())
    }

    pub(super) fn ask_end(&mut self) {
        let Some(view) = &self.view else { return };
        let left = view.progress.cards.saturating_sub(view.progress.cards_done);
        let lead = match left {
            0 => words::EveryCardAnswered.say(self.language),
            1 => words::CardNotAnsweredWhatPlanted.say(self.language),
            left => words::CardsNotAnsweredWhatPlanted { left: &left }.say(self.language),
        };
        let items = vec![
            Item::new(words::EndRunClockStops.say(self.language), Action::EndRun),
            Item::new(words::GoOnBack.say(self.language), Action::Walk),
        ];
        self.page = pick(words::AskEndRun.say(self.language), vec![lead], items, Action::Walk);
    }

    pub(super) fn end_run(&mut self) -> Result<(), AppError> {
        let Some(id) = self.run.as_ref().map(|run| run.run.clone()) else { return Ok(()) };
        let run = self.app.exam_end(&id)?;
        self.show_run(run);
        self.page = Page::Walk;
        self.tell(Tone::Plain, words::RunEndedGiveDeviceInstructor.say(self.language));
        Ok(())
    }

    pub(super) fn run_menu(&mut self) {
        let ended = self.run.as_ref().is_none_or(|run| run.ended);
        let mut items = Vec::new();
        if !ended {
            items.push(Item::new(words::EndRunTitle.say(self.language), Action::AskEnd));
        }
        items.push(Item::new(words::AllKeys.say(self.language), Action::Keys));
        let leave = if ended {
            words::LeaveProgram.say(self.language)
        } else {
            words::LeaveProgramClockRuns.say(self.language)
        };
        items.push(Item::new(leave, Action::Leave));
        self.page = pick(words::MoreTitle.say(self.language), Vec::new(), items, Action::Walk);
    }

    /// What was called, to be looked at; nothing is put right in a run.
    pub(super) fn show_calls(&mut self) {
        let Some(view) = &self.view else { return };
        if view.findings.is_empty() {
            self.tell(Tone::Plain, words::NothingCalledSoFar.say(self.language));
            return;
        }
        let items = view.findings.iter().map(|finding| {
            let words = words::CalledAtCard { shown: &finding.shown, card: &finding.card }.say(self.language);
            let request = WalkRequest::GoTo { card: finding.card };
            let said = words::HereIsCard { card: &finding.card }.say(self.language);
            let ended = self.run.as_ref().is_none_or(|run| run.ended);
            Item::new(words, if ended { Action::Walk } else { Action::Do { request, said } })
        });
        self.page =
            pick(words::CalledSoFarGoCard.say(self.language), Vec::new(), items.collect(), Action::Walk);
    }

    /// Four rows at the foot: a rule, what is called, the clock, a word.
    pub(super) fn run_status(&self, run: &RunView, width: usize) -> Vec<Line<'static>> {
        let calls = run.walk.findings.len();
        let tone = if run.over { Tone::Bad } else { Tone::Strong };
        let over = if run.over { words::OverTime.say(self.language) } else { String::new() };
        let jumped =
            if run.clock_jumped { words::DeviceClockJumped.say(self.language) } else { String::new() };
        let training = words::ExaminationTrainingNoInspectionGoverning.say(self.language);
        // A caution that is cut is none.
        vec![
            Line::from("─".repeat(width)),
            Line::from(words::CalledKey { calls: &calls, key: &run.key }.say(self.language)),
            Line::styled(
                words::ClockLine { clock: &run.clock, over: &over, jumped: &jumped }.say(self.language),
                self.look.words(tone),
            ),
            Line::from(if training.chars().count() > width {
                words::ExaminationNoInspection.say(self.language)
            } else {
                training
            }),
        ]
    }

    /// Behind the last card, and after the end.
    pub(super) fn run_lines(&self, run: &RunView, width: usize) -> Vec<Line<'static>> {
        let mut lines = vec![Line::default()];
        let mut add = |look: Look, words: String, tone: Tone| {
            lines.extend(wrap(&words, width).into_iter().map(|line| Line::styled(line, look.words(tone))));
        };
        if run.ended {
            add(self.look, words::RunEnded { clock: &run.clock }.say(self.language), Tone::Strong);
            add(self.look, words::NoSealComesInstructorScores.say(self.language), Tone::Plain);
            let sheet: String = run.sheet.clone().unwrap_or_default().chars().take(8).collect();
            add(
                self.look,
                words::DeviceSlingsealExamResult { sheet: &sheet }.say(self.language),
                Tone::Plain,
            );
            add(
                self.look,
                words::AnotherSlingsealExamSheetOut { sheet: &sheet }.say(self.language),
                Tone::Plain,
            );
        } else {
            add(self.look, words::EveryCardAnswered.say(self.language), Tone::Strong);
            add(self.look, words::EndsRunGoesBackCard.say(self.language), Tone::Plain);
        }
        lines
    }

    /// What to say once the screen is given back.
    pub(super) fn run_farewell(run: &RunView, language: Language) -> String {
        if run.ended {
            let sheet: String = run.sheet.clone().unwrap_or_default().chars().take(8).collect();
            return words::RunLoadEndedScoreSlingseal {
                student: &run.student,
                load: &run.walk.load,
                clock: &run.clock,
                sheet: &sheet,
            }
            .say(language);
        }
        let id: String = run.run.chars().take(8).collect();
        words::RunLoadGoesClockBack { student: &run.student, load: &run.walk.load, id: &id }.say(language)
    }
}
