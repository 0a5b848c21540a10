//! What is on the screen, without a terminal: pages, and what a key leads to.

use slingseal_app::catalogue::terminal as words;
use std::path::PathBuf;
use std::time::Duration;

use slingseal_app::{
    App, AppError, ExamBegin, FindingView, Language, PointView, RunView, SealView, StartView, TagView,
    WalkRequest, WalkView,
};
use zeroize::Zeroizing;

use super::look::{Look, Tone};
use crate::console::Shown;

/// After the screen changed, keys are ignored for so long: a bouncing or doubled press must not answer a card that
/// nobody has read. Core refuses answers to any other card than the one on the screen besides.
pub(super) const SETTLE: Duration = Duration::from_millis(150);

/// One key, as the pages know it: a keypad has no others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Key {
    Letter(char),
    Enter,
    Erase,
    Back,
    /// Ctrl-C: leave at once.
    Leave,
}

/// Whether the program goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Flow {
    On,
    Leave,
}

/// What a choice does.
#[derive(Clone, Debug)]
pub(super) enum Action {
    /// Back to the walk as it stands.
    Walk,
    Start,
    Practise,
    TakeUp {
        walk: String,
    },
    ReadTag(Box<TagView>),
    Begin {
        tag: String,
    },
    Point(Box<PointView>),
    /// The point applies to the load.
    Applies(Box<PointView>),
    /// It does not.
    WhyNot(Box<PointView>),
    /// The piece that a finding rejects.
    WhichPiece(u32),
    NameDeficiency(Box<PointView>),
    Describe {
        point: Box<PointView>,
        name: String,
        shown: String,
    },
    Do {
        request: WalkRequest,
        said: String,
    },
    Findings,
    Finding(u32),
    WhoPutRight(u32),
    /// Somebody whose call sign is typed.
    AnotherPutRight(u32),
    PutRight {
        finding: u32,
        by: Option<String>,
    },
    LookAgain(u32),
    AgainGood(u32),
    AgainBad(u32),
    AgainValue {
        finding: u32,
        value: String,
    },
    Menu,
    Report,
    Keys,
    AskPause,
    AskAbandon,
    AskFit,
    AskNotFit,
    AskPin,
    /// The clock of a run starts.
    BeginRun(Box<ExamBegin>),
    AskEnd,
    EndRun,
    Save,
    Leave,
}

/// One line of a list to pick from.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) words: String,
    pub(super) tone: Tone,
    pub(super) action: Action,
}

impl Item {
    /// A number that stands for nothing: it is not shown, and its key does nothing.
    pub(super) fn gap() -> Self {
        Self::new("", Action::Walk)
    }

    pub(super) fn is_gap(&self) -> bool {
        self.words.is_empty()
    }

    pub(super) fn new(words: impl Into<String>, action: Action) -> Self {
        Self { words: words.into(), tone: Tone::Plain, action }
    }
}

/// A list to pick from by number.
#[derive(Clone, Debug)]
pub(super) struct Pick {
    pub(super) title: String,
    pub(super) lead: Vec<String>,
    pub(super) items: Vec<Item>,
    pub(super) from: usize,
    pub(super) back: Action,
    pub(super) tone: Tone,
}

/// What an entry is for.
#[derive(Clone, Debug)]
pub(super) enum Purpose {
    CallSign,
    NewPin { holder: String },
    NewPinAgain { holder: String, first: Zeroizing<String> },
    Value(Box<PointView>),
    WhyNot(Box<PointView>),
    WhichPiece(u32),
    Note { point: Box<PointView>, name: String, shown: String },
    PutRightBy(u32),
    AgainValue(u32),
    AgainNote(u32),
    NotFit,
    Abandon,
    Pin,
}

/// Something to type.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    pub(super) title: String,
    pub(super) lead: Vec<String>,
    pub(super) text: Zeroizing<String>,
    pub(super) unit: String,
    pub(super) purpose: Purpose,
    pub(super) back: Action,
}

impl Entry {
    pub(super) fn hidden(&self) -> bool {
        matches!(self.purpose, Purpose::NewPin { .. } | Purpose::NewPinAgain { .. } | Purpose::Pin)
    }

    /// Whether nothing may be typed.
    pub(super) fn optional(&self) -> bool {
        match &self.purpose {
            Purpose::Note { name, .. } => name != "other",
            Purpose::PutRightBy(_) | Purpose::AgainNote(_) => true,
            _ => false,
        }
    }
}

/// A page.
#[derive(Clone, Debug)]
pub(super) enum Page {
    /// The walk where it stands: a card, paused, the decision, the end.
    Walk,
    Pick(Box<Pick>),
    Entry(Box<Entry>),
    /// The cards, with the number that is being typed.
    Cards {
        typed: String,
    },
    /// A text to read, page by page.
    Text {
        title: String,
        text: String,
        from: usize,
        back: Action,
    },
    Seal {
        seal: Box<SealView>,
        code: bool,
    },
}

/// The line that tells what the last key did.
#[derive(Clone, Debug)]
pub(super) struct Flash {
    pub(super) words: String,
    pub(super) tone: Tone,
}

/// The walk in the terminal.
pub(super) struct Desk {
    pub(super) app: App,
    /// The home that was named; the practice home lies in it.
    pub(super) home: PathBuf,
    pub(super) language: Language,
    pub(super) out: Option<PathBuf>,
    pub(super) look: Look,
    pub(super) practice: bool,
    pub(super) start: StartView,
    pub(super) view: Option<WalkView>,
    /// The run, in an examination.
    pub(super) run: Option<RunView>,
    pub(super) page: Page,
    pub(super) flash: Option<Flash>,
    /// When the screen changed last, by the terminal's own clock.
    pub(super) changed: Duration,
    /// Keys ignored since.
    pub(super) ignored: u32,
    /// Lines that the last page of text had room for, and letters in each.
    pub(super) room: usize,
    pub(super) width: usize,
    /// Lines of the page that are above what is shown, how many are shown at a time, and whether more stand below.
    pub(super) scrolled: usize,
    pub(super) part: usize,
    pub(super) more_below: bool,
}

impl Desk {
    pub(super) fn new(
        app: App,
        home: PathBuf,
        language: Language,
        out: Option<PathBuf>,
        look: Look,
    ) -> Result<Self, AppError> {
        let start = app.start()?;
        Ok(Self {
            app,
            home,
            language,
            out,
            look,
            practice: false,
            start,
            view: None,
            run: None,
            page: Page::Walk,
            flash: None,
            changed: Duration::ZERO,
            ignored: 0,
            room: 10,
            width: super::look::TEXT_WIDTH,
            scrolled: 0,
            part: 1,
            more_below: false,
        })
    }

    /// Takes a key at a time of the terminal's own clock.
    pub(super) fn key(&mut self, key: Key, now: Duration) -> Flow {
        if key == Key::Leave {
            return Flow::Leave;
        }
        let typing = matches!(self.page, Page::Entry(_));
        if !typing && now < self.changed + SETTLE {
            // Each ignored key starts the wait anew: a key that is held down answers one card, not thirty.
            self.changed = now;
            self.ignored += 1;
            if self.ignored == 3 {
                self.tell(Tone::Wait, words::KeyHeldDown.say(self.language));
            }
            return Flow::On;
        }
        self.ignored = 0;
        // A number that was typed is gone to, however long the list is.
        let typed = matches!(&self.page, Page::Cards { typed } if !typed.is_empty()) && key == Key::Enter;
        if self.more_below && !typing && !typed && matches!(key, Key::Letter('+' | 'g' | 'r') | Key::Enter) {
            self.scrolled += self.part;
            self.changed = now;
            return Flow::On;
        }
        self.scrolled = 0;
        let kept = self.flash.take();
        let flow = match self.press(key) {
            Ok(flow) => flow,
            Err(error) => {
                self.tell(Tone::Bad, error.say(self.language));
                Flow::On
            }
        };
        if typing && self.flash.is_none() && matches!(self.page, Page::Entry(_)) {
            self.flash = kept;
        }
        if !typing || !matches!(self.page, Page::Entry(_)) {
            self.changed = now;
        }
        flow
    }

    pub(super) fn tell(&mut self, tone: Tone, words: impl Into<String>) {
        self.flash = Some(Flash { words: words.into(), tone });
    }

    /// A finding of the walk in hand.
    pub(super) fn finding(&self, number: u32) -> Option<FindingView> {
        self.view.as_ref()?.findings.iter().find(|finding| finding.number == number).cloned()
    }

    /// What to say once the screen is given back.
    pub(super) fn farewell(&self) -> Option<String> {
        if let Some(run) = &self.run {
            return Some(Self::run_farewell(run, self.language));
        }
        let view = self.view.as_ref()?;
        let practice = if self.practice { words::PracticeLead.say(self.language) } else { String::new() };
        if let Page::Seal { seal, .. } = &self.page {
            return Some(
                words::SealedShowAgain {
                    practice: &practice,
                    load: &view.load,
                    home: if self.practice {
                        format!("--home {} ", self.home.join(super::practice::FOLDER).shown())
                    } else {
                        String::new()
                    },
                    digest: seal.record.chars().take(8).collect::<String>(),
                }
                .say(self.language),
            );
        }
        let at = match &view.card {
            Some(card) => words::StandsAtCard { number: &card.number, of: &card.of }.say(self.language),
            None => match view.stage {
                slingseal_app::WalkStage::Abandoned { .. } => {
                    return Some(
                        words::LoadWasStopped { practice: &practice, load: &view.load }.say(self.language),
                    );
                }
                slingseal_app::WalkStage::Paused => words::StandsPaused.say(self.language),
                slingseal_app::WalkStage::Decided { .. } => words::DecidedNotSealed.say(self.language),
                slingseal_app::WalkStage::Walking => words::StandsAtDecision.say(self.language),
            },
        };
        Some(words::LoadStands { practice: &practice, load: &view.load, at: &at }.say(self.language))
    }
}
