//! The walk by single keys: a desk in a practice home, the hands on its keys, and the screens that are kept.

mod exam;
mod languages;
mod layout;
mod picture;
mod walk;

use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::style::{Color, Modifier};
use slingseal_app::{
    App, Clock, Effort, Language, Outside, PointKind, Reading, Stretch, Time, WalkRequest, WalkStage,
};

use super::look::Look;
use super::model::{Action, Desk, Flow, Key, Page, Purpose, SETTLE};
use super::practice;
use crate::platform::SystemEntropy;

const PIN: &str = "417293";

/// A clock that stands: screens show times.
struct Standing;

impl Clock for Standing {
    fn now(&self) -> Time {
        Time::parse("2026-11-25T09:00:00Z").unwrap()
    }
}

/// A desk in a practice home, and the hands on its keys.
struct Hands {
    _folder: tempfile::TempDir,
    desk: Desk,
    now: Duration,
}

fn app(folder: &tempfile::TempDir) -> App {
    app_speaking(folder, Language::English)
}

fn app_speaking(folder: &tempfile::TempDir, language: Language) -> App {
    let outside = Outside {
        clock: Arc::new(Standing),
        entropy: Arc::new(SystemEntropy),
        device_secret: zeroize::Zeroizing::new(b"a device".to_vec()),
        stretch: Stretch::weak_for_tests_only(),
        language,
    };
    App::open(folder.path(), outside).unwrap()
}

impl Hands {
    /// In an empty home, before anything is asked.
    fn empty() -> Self {
        Self::speaking(Language::English)
    }

    /// The same, in a language.
    fn speaking(language: Language) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let look = Look { colour: true };
        let home = folder.path().to_owned();
        let desk = Desk::new(app_speaking(&folder, language), home, language, None, look).unwrap();
        Self { _folder: folder, desk, now: Duration::from_secs(1) }
    }

    /// With the practice load on the screen.
    fn ready() -> Self {
        let mut hands = Self::empty();
        practice::make(&hands.desk.app, "Anvil 3", PIN).unwrap();
        hands.desk.practice = true;
        hands.desk.act(Action::Start).unwrap();
        hands
    }

    /// At the first card.
    fn walking() -> Self {
        let mut hands = Self::ready();
        hands.press("11");
        assert!(matches!(hands.desk.page, Page::Walk));
        hands
    }

    fn key(&mut self, key: Key) -> Flow {
        self.now += Duration::from_secs(1);
        self.desk.key(key, self.now)
    }

    /// Letters are keys; `\n` is Enter.
    fn press(&mut self, keys: &str) {
        for letter in keys.chars() {
            let key = if letter == '\n' { Key::Enter } else { Key::Letter(letter) };
            assert_eq!(self.key(key), Flow::On, "{letter}");
        }
    }

    fn buffer(&mut self, width: u16, height: u16) -> Buffer {
        let mut terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
        terminal.draw(|frame| self.desk.draw(frame)).unwrap();
        terminal.backend().buffer().clone()
    }

    fn screen(&mut self) -> String {
        text(&self.buffer(80, 24))
    }

    fn view(&self) -> &slingseal_app::WalkView {
        self.desk.view.as_ref().unwrap()
    }

    /// `+` until the walk wants something else than an answer to a card.
    fn all_good(&mut self) {
        for _ in 0..400 {
            match &self.desk.page {
                Page::Walk if self.view().card.is_none() => return,
                Page::Walk => self.press("+"),
                Page::Entry(entry) => {
                    let Purpose::Value(point) = entry.purpose.clone() else { panic!("{entry:?}") };
                    let value = slingseal_app::sound_answer(self.view(), &point);
                    self.press(&format!("{value}\n"));
                }
                // The first option of a choice is right; what may not apply is said to apply.
                _ => self.press("1"),
            }
        }
        panic!("the walk does not end: {}", self.screen());
    }

    /// The screen, against the one that is kept. `SLINGSEAL_WRITE_SCREENS=1` writes those that are missing, never others.
    fn is(&mut self, name: &str) {
        is_kept(name, &self.screen());
    }
}

fn is_kept(name: &str, shown: &str) {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("src/terminal/screens/{name}.txt"));
    match std::fs::read_to_string(&path) {
        Ok(kept) => assert_eq!(shown, kept, "{name}: the screen changed"),
        Err(_) if std::env::var_os("SLINGSEAL_WRITE_SCREENS").is_some() => {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, shown).unwrap();
        }
        Err(error) => panic!("{}: {error}\n{shown}", path.display()),
    }
}

fn text(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width);
    let rows = buffer.content.chunks(width).map(|row| {
        let row: String = row.iter().map(|cell| cell.symbol()).collect();
        format!("{}\n", row.trim_end())
    });
    rows.collect()
}
