//! Before the walk: the loads in hand, the tags that are known, and a load to practise on.

use slingseal_app::AppError;
use slingseal_app::catalogue::terminal as words;
use zeroize::Zeroizing;

use super::look::Tone;
use super::model::{Action, Desk, Flow, Item, Page, Purpose};
use super::practice;
use super::questions::{entry, pick};
use crate::output::bad_input;

/// Tags offered at most: two pages.
const TAGS: u32 = 18;

impl Desk {
    /// The first page where no tag is named.
    pub(super) fn show_start(&mut self) -> Result<(), AppError> {
        self.view = None;
        self.start = self.app.start()?;
        let mut items: Vec<Item> = self
            .start
            .in_hand
            .iter()
            .map(|line| {
                let words =
                    words::TakeUpLoad { load: &line.load, state: line.state.saying(), dtg: &line.begun.dtg }
                        .say(self.language);
                Item::new(words, Action::TakeUp { walk: line.walk.clone() })
            })
            .collect();
        for tag in self.app.tags(TAGS)? {
            let words =
                words::InspectLoad { load: &tag.load, description: &tag.description }.say(self.language);
            items.push(Item::new(words, Action::ReadTag(Box::new(tag))));
        }
        if items.is_empty() && self.start.holder.is_none() && !self.practice {
            return self.practise();
        }
        let mut lead = Vec::new();
        if items.is_empty() {
            lead.push(words::NoLoadInHand.say(self.language));
        }
        if !self.practice {
            items.push(Item::new(words::PractiseInventedLoad.say(self.language), Action::Practise));
        }
        items.push(Item::new(words::Leave.say(self.language), Action::Leave));
        self.page = pick(words::WhichLoad.say(self.language), lead, items, Action::Start);
        Ok(())
    }

    pub(super) fn practise(&mut self) -> Result<(), AppError> {
        let holder = self.start.holder.clone();
        if !self.practice {
            self.app = practice::open(&self.home, self.language)?;
            self.practice = true;
            self.view = None;
        }
        self.start = self.app.start()?;
        if practice::ready(&self.app)? {
            return self.show_start();
        }
        match self.start.holder.clone().or(holder) {
            Some(holder) => self.ask_new_pin(holder),
            None => {
                let lead = vec![
                    words::NoLoadInHandSoPractise.say(self.language),
                    words::AskCallSign.say(self.language),
                ];
                self.page = entry(words::Welcome.say(self.language), lead, Purpose::CallSign, Action::Leave);
            }
        }
        Ok(())
    }

    fn ask_new_pin(&mut self, holder: String) {
        let lead = vec![
            words::AskPracticePin { holder: &holder }.say(self.language),
            words::NotYourRealPin.say(self.language),
        ];
        self.page = entry(words::APin.say(self.language), lead, Purpose::NewPin { holder }, Action::Leave);
    }

    pub(super) fn took_call_sign(&mut self, holder: String) -> Result<Flow, AppError> {
        practice::check_call_sign(&holder)?;
        self.ask_new_pin(holder);
        Ok(Flow::On)
    }

    pub(super) fn took_new_pin(&mut self, holder: String, pin: Zeroizing<String>) -> Result<Flow, AppError> {
        let lead = vec![words::SamePinAgain.say(self.language)];
        let purpose = Purpose::NewPinAgain { holder, first: pin };
        self.page = entry(words::APin.say(self.language), lead, purpose, Action::Leave);
        Ok(Flow::On)
    }

    pub(super) fn took_pin_again(
        &mut self,
        holder: String,
        first: &Zeroizing<String>,
        second: &Zeroizing<String>,
    ) -> Result<Flow, AppError> {
        if first != second {
            self.ask_new_pin(holder);
            return Err(bad_input(words::PinsDiffer.say(self.language)));
        }
        if let Err(error) = practice::make(&self.app, &holder, first) {
            // Too easy a PIN, or not the one of an earlier try.
            self.ask_new_pin(holder);
            return Err(error);
        }
        self.show_start()?;
        if let Page::Pick(pick) = &self.page
            && let Some(Action::ReadTag(tag)) = pick.items.first().map(|item| item.action.clone())
        {
            self.act(Action::ReadTag(tag))?;
        }
        self.tell(Tone::Practice, words::ReadyPracticeNothingHoldsReal.say(self.language));
        Ok(Flow::On)
    }
}
