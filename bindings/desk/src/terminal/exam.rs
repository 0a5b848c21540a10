//! A run of an examination on the full screen: the same cards and keys, a clock, and nothing that gives anything away.

use ratatui::text::Line;
use slingseal_app::{AppError, ExamBegin, RunView, WalkRequest};

use super::acts::pick;
use super::look::{Look, Tone, wrap};
use super::model::{Action, Desk, Item, Page};

impl Desk {
    /// Shows a run and takes its walk for the one on the screen.
    pub(super) fn show_run(&mut self, run: RunView) {
        self.view = Some(run.walk.clone());
        self.run = Some(run);
    }

    /// Waits at the load for the student to start the clock.
    pub(super) fn ask_start(&mut self, begin: ExamBegin) {
        let lead = vec![
            format!(
                "{}: stand at the load. The clock starts with this key and nothing stops it.",
                begin.student
            ),
            "Call what you find; nothing is corrected.".into(),
        ];
        let items = vec![
            Item::new("Start the clock", Action::BeginRun(Box::new(begin))),
            Item::new("Leave; nothing was begun", Action::Leave),
        ];
        self.page = pick("Examination", lead, items, Action::Leave);
    }

    /// Takes up a run that was begun.
    pub(super) fn take_up_run(&mut self, run: &str) -> Result<(), AppError> {
        let run = self.app.exam_run(run)?;
        let words = if run.elapsed_s < 2 {
            "The clock runs. Call what you find; nothing is corrected."
        } else {
            "The run goes on; its clock never stopped."
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
                    format!(
                        "Call {called} is recorded. + when the rest of the card is good; * takes it back."
                    )
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
            0 => "Every card is answered.".to_owned(),
            1 => "1 card is not answered; what is planted on it counts as missed.".to_owned(),
            left => format!("{left} cards are not answered; what is planted on them counts as missed."),
        };
        let items =
            vec![Item::new("End the run: the clock stops", Action::EndRun), Item::new("Go on", Action::Walk)];
        self.page = pick("End the run?", vec![lead], items, Action::Walk);
    }

    pub(super) fn end_run(&mut self) -> Result<(), AppError> {
        let Some(id) = self.run.as_ref().map(|run| run.run.clone()) else { return Ok(()) };
        let run = self.app.exam_end(&id)?;
        self.show_run(run);
        self.page = Page::Walk;
        self.tell(Tone::Plain, "The run is ended. Give the device to the instructor, or bring the sheet.");
        Ok(())
    }

    pub(super) fn run_menu(&mut self) {
        let ended = self.run.as_ref().is_none_or(|run| run.ended);
        let mut items = Vec::new();
        if !ended {
            items.push(Item::new("End the run", Action::AskEnd));
        }
        items.push(Item::new("All keys", Action::Keys));
        let leave = if ended { "Leave the program" } else { "Leave the program; the clock runs on" };
        items.push(Item::new(leave, Action::Leave));
        self.page = pick("More", Vec::new(), items, Action::Walk);
    }

    /// What was called, to be looked at; nothing is put right in a run.
    pub(super) fn show_calls(&mut self) {
        let Some(view) = &self.view else { return };
        if view.findings.is_empty() {
            self.tell(Tone::Plain, "Nothing is called so far.");
            return;
        }
        let items = view.findings.iter().map(|finding| {
            let words = format!("[!] {}  (card {})", finding.shown, finding.card);
            let request = WalkRequest::GoTo { card: finding.card };
            let said = format!("Here is card {}.", finding.card);
            let ended = self.run.as_ref().is_none_or(|run| run.ended);
            Item::new(words, if ended { Action::Walk } else { Action::Do { request, said } })
        });
        self.page = pick("Called so far: go to its card", Vec::new(), items.collect(), Action::Walk);
    }

    /// Four rows at the foot: a rule, what is called, the clock, a word.
    pub(super) fn run_status(&self, run: &RunView, width: usize) -> Vec<Line<'static>> {
        let calls = run.walk.findings.len();
        let tone = if run.over { Tone::Bad } else { Tone::Strong };
        let over = if run.over { "  [!] over the time" } else { "" };
        let jumped = if run.clock_jumped { "  [!] the device's clock jumped" } else { "" };
        vec![
            Line::from("─".repeat(width)),
            Line::from(format!(" Called {calls}.   Key {}", run.key)),
            Line::styled(format!(" Time {}{over}{jumped}", run.clock), self.look.words(tone)),
            Line::from(" Examination: training, and no inspection. The governing manual rules."),
        ]
    }

    /// Behind the last card, and after the end.
    pub(super) fn run_lines(&self, run: &RunView, width: usize) -> Vec<Line<'static>> {
        let mut lines = vec![Line::default()];
        let mut add = |look: Look, words: &str, tone: Tone| {
            lines.extend(wrap(words, width).into_iter().map(|line| Line::styled(line, look.words(tone))));
        };
        if run.ended {
            add(self.look, &format!("The run is ended: {}.", run.clock), Tone::Strong);
            add(self.look, "No seal comes of it. The instructor scores it:", Tone::Plain);
            let sheet: String = run.sheet.clone().unwrap_or_default().chars().take(8).collect();
            add(self.look, &format!("  on this device    slingseal exam result {sheet}"), Tone::Plain);
            add(
                self.look,
                &format!("  on another        slingseal exam sheet {sheet} --out FILE"),
                Tone::Plain,
            );
        } else {
            add(self.look, "Every card is answered.", Tone::Strong);
            add(self.look, "+ ends the run; . goes back to a card.", Tone::Plain);
        }
        lines
    }

    /// What to say once the screen is given back.
    pub(super) fn run_farewell(run: &RunView) -> String {
        if run.ended {
            let sheet: String = run.sheet.clone().unwrap_or_default().chars().take(8).collect();
            return format!(
                "The run of {} on load {} is ended: {}. Score it: slingseal exam result {sheet}",
                run.student, run.walk.load, run.clock
            );
        }
        let id: String = run.run.chars().take(8).collect();
        format!(
            "The run of {} on load {} goes on, and its clock with it. Back to it: slingseal exam run --run {id}",
            run.student, run.walk.load
        )
    }
}
