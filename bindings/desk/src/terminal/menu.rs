//! The menu of an inspection, and the report on how the load hangs.

use slingseal_app::catalogue::{rigging as rig_words, terminal as words};
use slingseal_app::{AppError, WalkRequest, WalkStage};

use super::model::{Action, Desk, Item, Page};
use super::questions::pick;

/// How wide the expected picture is, in cells: it fits the narrowest window.
const EXPECTED: usize = 36;

impl Desk {
    pub(super) fn show_menu(&mut self) {
        let mut items = Vec::new();
        let stage = self.view.as_ref().map(|view| view.stage.clone());
        match stage {
            Some(WalkStage::Walking) => {
                items.push(Item::new(words::PauseInspection.say(self.language), Action::AskPause))
            }
            Some(WalkStage::Paused) => items.push(Item::new(
                words::GoInspection.say(self.language),
                Action::Do {
                    request: WalkRequest::Resume,
                    said: words::InspectionGoesWhereStood.say(self.language),
                },
            )),
            _ => {}
        }
        items.push(Item::new(words::CautionsStaticsFull.say(self.language), Action::Report));
        items.push(Item::new(words::AllKeys.say(self.language), Action::Keys));
        if matches!(stage, Some(WalkStage::Walking | WalkStage::Paused)) {
            items.push(Item::new(words::StopInspection.say(self.language), Action::AskAbandon));
        }
        items.push(Item::new(words::OtherLoads.say(self.language), Action::Start));
        items.push(Item::new(words::LeaveProgramInspectionStaysWhere.say(self.language), Action::Leave));
        self.page = pick(words::MoreTitle.say(self.language), Vec::new(), items, Action::Walk);
    }

    pub(super) fn show_report(&mut self) -> Result<(), AppError> {
        let Some(view) = &self.view else { return Ok(()) };
        let mut text = String::new();
        let mut add = |line: &str| {
            text.push_str(line);
            text.push('\n');
        };
        for fault in &view.tag_faults {
            add(&words::TagFault { fault: &fault }.say(self.language));
        }
        for caution in &view.cautions {
            add(&format!("! {caution}"));
        }
        if let Some(change) = &view.link_change {
            add(&format!("! {change}"));
        }
        for link in self.app.walk_links(&view.walk)? {
            let (leg, planned) = (&link.leg, link.planned.to_string());
            add(&match link.counted {
                Some(counted) => rig_words::LinkBesidePlan { leg, planned, counted: counted.to_string() }
                    .say(self.language),
                None => rig_words::LinkNotCounted { leg, planned }.say(self.language),
            });
        }
        if let Some(rows) = self.app.walk_planned_cells(&view.walk, EXPECTED)? {
            add("");
            add(&rig_words::ExpectedPicture.say(self.language));
            rows.iter().for_each(|row| add(row));
        }
        match self.app.walk_rigging(&view.walk)? {
            Some(rigging) => {
                add("");
                add(&rigging.report);
            }
            None => {
                add(&words::TagCarriesNoRiggingSo.say(self.language));
                add(&words::ManualStandsAbove.say(self.language));
            }
        }
        self.page = Page::Text {
            title: words::CautionsStatics.say(self.language),
            text,
            from: 0,
            back: Action::Menu,
        };
        Ok(())
    }
}
