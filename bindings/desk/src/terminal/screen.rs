//! The terminal itself: taken over, drawn on, given back whatever happens.

use slingseal_app::catalogue::terminal as words;
use std::io::IsTerminal;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use ratatui::DefaultTerminal;
use ratatui::crossterm::event::{
    self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, KeyboardEnhancementFlags,
    PopKeyboardEnhancementFlags, PushKeyboardEnhancementFlags,
};
use ratatui::crossterm::{execute, terminal};
use slingseal_app::{App, AppError, ExamBegin, Language};

use super::draw::fits;
use super::look::Look;
use super::model::{Action, Desk, Flow, Key};
use crate::output::{bad_input, plain};

/// What the command line asks for.
pub(crate) struct Ask {
    pub(crate) home: PathBuf,
    pub(crate) language: Language,
    pub(crate) out: Option<PathBuf>,
    /// The text of a tag.
    pub(crate) tag: Option<String>,
    /// A walk in hand.
    pub(crate) walk: Option<String>,
    /// A run of an examination that was begun.
    pub(crate) run: Option<String>,
    /// A run that begins when its student starts the clock.
    pub(crate) begin: Option<ExamBegin>,
}

/// How long the loop waits for a key before it looks whether it is told to end.
const TICK: Duration = Duration::from_millis(100);

/// Walks on the full screen until the user leaves; the run of an examination, where there was one.
pub(crate) fn run(app: App, ask: Ask) -> Result<Option<String>, AppError> {
    let mut desk = Desk::new(app, ask.home, ask.language, ask.out, Look::of_environment())?;
    // What cannot be begun is told on the ordinary screen, before it is taken over.
    match (ask.walk, ask.tag) {
        _ if ask.begin.is_some() => {
            if let Some(begin) = ask.begin {
                desk.ask_start(begin);
            }
            Flow::On
        }
        _ if ask.run.is_some() => {
            desk.take_up_run(&ask.run.unwrap_or_default())?;
            Flow::On
        }
        (Some(walk), _) => desk.act(Action::TakeUp { walk })?,
        (None, Some(tag)) => {
            let tag = desk.app.read_tag(&tag)?;
            desk.act(Action::ReadTag(Box::new(tag)))?
        }
        (None, None) => desk.act(Action::Start)?,
    };
    if let Some(notice) = desk.start.notices.first().cloned() {
        desk.tell(super::look::Tone::Wait, notice);
    }
    let ended = crate::ending::asked_or_closed().map_err(|error| failed(&error))?;
    watch(ended.clone()).map_err(|error| failed(&error))?;
    // Also gives the terminal back on a panic.
    let mut terminal = ratatui::try_init().map_err(|error| failed(&error))?;
    let told_apart = terminal::supports_keyboard_enhancement().unwrap_or(false)
        && execute!(
            std::io::stdout(),
            PushKeyboardEnhancementFlags(
                KeyboardEnhancementFlags::DISAMBIGUATE_ESCAPE_CODES
                    | KeyboardEnhancementFlags::REPORT_EVENT_TYPES
            )
        )
        .is_ok();
    let walked = walk(&mut desk, &mut terminal, &ended);
    if told_apart {
        let _ = execute!(std::io::stdout(), PopKeyboardEnhancementFlags);
    }
    // A terminal that was closed cannot be given back, and need not be.
    let _ = ratatui::try_restore();
    if !std::io::stdin().is_terminal() {
        // Nobody is left to read a word, and every attempt to write one would be a panic: the terminal's own clearing up
        // and the complaints of the program both end on a closed standard error.
        std::process::exit(0);
    }
    let run = desk.run.as_ref().map(|run| run.run.clone());
    if ended.load(Ordering::Relaxed) {
        return Ok(run);
    }
    walked?;
    if let Some(words) = desk.farewell() {
        println!("{words}");
    }
    Ok(run)
}

fn failed(error: &std::io::Error) -> AppError {
    bad_input(words::TerminalCannotUsedTryAnother { plain: plain(error) })
}

/// How long the loop has to end by itself once it is told to.
const GRACE: Duration = Duration::from_secs(1);

/// Ends the program when it is told to, or when its terminal is gone and the loop does not come back: the reading of keys
/// spins for ever on a terminal that was closed, and would keep the home from the next program. Every answer is on disk
/// already, so that nothing is lost by it.
fn watch(ended: Arc<AtomicBool>) -> std::io::Result<()> {
    let watching = move || {
        while !ended.load(Ordering::Relaxed) && std::io::stdin().is_terminal() {
            std::thread::sleep(TICK);
        }
        ended.store(true, Ordering::Relaxed);
        std::thread::sleep(GRACE);
        let _ = ratatui::try_restore();
        std::process::exit(0);
    };
    std::thread::Builder::new().name("terminal watch".to_owned()).spawn(watching).map(drop)
}

#[expect(
    clippy::disallowed_methods,
    reason = "measures how long a screen has stood; nothing of it is recorded"
)]
fn walk(desk: &mut Desk, terminal: &mut DefaultTerminal, ended: &AtomicBool) -> Result<(), AppError> {
    let begun = Instant::now();
    let mut stale = true;
    let mut ticked = Duration::ZERO;
    while !ended.load(Ordering::Relaxed) {
        if stale {
            terminal.draw(|frame| desk.draw(frame)).map_err(|error| failed(&error))?;
        }
        match event::poll(TICK) {
            Ok(false) => {
                // Nobody types: another program of this home may have its turn.
                desk.app.give_turn();
                // Ten times in two seconds at the most: the clock on the screen lags by less than it shows.
                let now = begun.elapsed();
                stale = now >= ticked + 2 * TICK && {
                    ticked = now;
                    desk.tick()
                };
                continue;
            }
            Ok(true) => stale = true,
            // A signal cuts the wait short.
            Err(error) if error.kind() == std::io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(failed(&error)),
        }
        let Event::Key(pressed) = event::read().map_err(|error| failed(&error))? else { continue };
        let Some(key) = key_of(&pressed) else { continue };
        let size = terminal.size().map_err(|error| failed(&error))?;
        // Nobody answers what cannot be seen.
        if key != Key::Leave && !fits(size.width, size.height) {
            continue;
        }
        if desk.key(key, begun.elapsed()) == Flow::Leave {
            return Ok(());
        }
    }
    Ok(())
}

/// A press as the pages know it; a repeat of a key that is held down is none.
fn key_of(pressed: &KeyEvent) -> Option<Key> {
    if pressed.kind != KeyEventKind::Press {
        return None;
    }
    let control = pressed.modifiers.contains(KeyModifiers::CONTROL);
    match pressed.code {
        KeyCode::Char('c' | 'd') if control => Some(Key::Leave),
        KeyCode::Char(_) if control || pressed.modifiers.contains(KeyModifiers::ALT) => None,
        KeyCode::Char(letter) => Some(Key::Letter(letter)),
        KeyCode::Enter => Some(Key::Enter),
        KeyCode::Backspace | KeyCode::Delete => Some(Key::Erase),
        KeyCode::Esc => Some(Key::Back),
        _ => None,
    }
}
