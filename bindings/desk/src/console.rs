//! The one door to the terminal: whatever this program says goes through here, and nothing that a stranger wrote can move the
//! cursor, paint, hide or begin a line of its own. What cannot be seen is spelled out, as `\u{1b}`.
//!
//! `println!`, `print!`, `eprintln!` and `eprint!` mean these functions everywhere in the program, so that a verb need not
//! think of it; `tests/rooms` fails where a source goes round them.

use std::fmt::Arguments;
use std::io::{IsTerminal, Write};
use std::path::Path;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering};

use slingseal_app::catalogue::desk as words;
use slingseal_app::{Language, is_invisible, visibly};

/// One line on standard output. A line break inside is a stranger's, and is spelled out.
macro_rules! println {
    () => { $crate::console::line(format_args!("")) };
    ($($said:tt)*) => { $crate::console::line(format_args!($($said)*)) };
}
/// Lines of ours, or a part of one, on standard output: line breaks break lines. Foreign words are made visible before
/// they are put in.
macro_rules! print {
    ($($said:tt)*) => { $crate::console::text(format_args!($($said)*)) };
}
/// One line on standard error.
macro_rules! eprintln {
    ($($said:tt)*) => { $crate::console::complaint(format_args!($($said)*)) };
}
/// A line on standard error that the next one overwrites.
macro_rules! eprint {
    ($($said:tt)*) => { $crate::console::progress(format_args!($($said)*)) };
}

/// Whether people look at standard output.
pub(crate) fn is_terminal() -> bool {
    std::io::stdout().is_terminal()
}

/// Whether standard output is a file's: then it holds that file alone, and whatever else is said goes to standard error.
static TAKEN: AtomicBool = AtomicBool::new(false);

/// The reader's language, for what has to be said where no verb is: there is one reader.
static SPOKEN: OnceLock<Language> = OnceLock::new();

/// That language.
pub(crate) fn spoken() -> Language {
    SPOKEN.get().copied().unwrap_or_default()
}

/// Says in which language this program is read.
pub(crate) fn speak(language: Language) {
    let _ = SPOKEN.set(language);
}

/// Gives standard output to a file, for as long as the program runs.
pub(crate) fn take_output() {
    TAKEN.store(true, Ordering::Relaxed);
}

/// Whether colours are wanted: never where nobody looks, nor where the user wants none (no-color.org) or the terminal has none.
pub(crate) fn has_colour() -> bool {
    is_terminal() && wants_colour()
}

/// What the environment says of colours, for a screen that is one.
pub(crate) fn wants_colour() -> bool {
    let none = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty())
        || std::env::var("TERM").is_ok_and(|term| matches!(term.as_str(), "dumb" | "vt100" | "vt220"));
    #[cfg(windows)]
    let none = none || !ratatui::crossterm::ansi_support::supports_ansi();
    !none
}

/// Whether people look at standard error: a progress that is kept in a file tells nobody anything.
pub(crate) fn is_watched() -> bool {
    std::io::stderr().is_terminal()
}

pub(crate) fn line(said: Arguments<'_>) {
    out(&format!("{}\n", visibly(&said.to_string())));
}

pub(crate) fn text(said: Arguments<'_>) {
    out(&visible_lines(&said.to_string()));
}

pub(crate) fn complaint(said: Arguments<'_>) {
    // Where even this cannot be written there is nobody to tell.
    let _ = std::io::stderr().lock().write_all(format!("{}\n", visibly(&said.to_string())).as_bytes());
}

pub(crate) fn progress(said: Arguments<'_>) {
    let _ = std::io::stderr().lock().write_all(format!("\r{}", visibly(&said.to_string())).as_bytes());
}

/// Fields of one line with tabs between, for other programs: none holds a tab or a line break of its own.
pub(crate) fn fields(fields: &[&str]) {
    let fields: Vec<String> = fields.iter().map(|field| visibly(field)).collect();
    out(&format!("{}\n", fields.join("\t")));
}

/// What a headline means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    Good,
    Wait,
    Bad,
}

/// A line that begins with a word of ours, painted where people look at it.
pub(crate) fn headline(tone: Tone, word: &str, rest: &str) {
    let paint = match tone {
        Tone::Good => "\x1b[1;30;42m",
        Tone::Wait => "\x1b[1;30;43m",
        Tone::Bad => "\x1b[1;37;41m",
    };
    let (on, off) = if has_colour() { (paint, "\x1b[0m") } else { ("", "") };
    out(&format!("{on}{}{off}{}\n", visibly(word), visibly(rest)));
}

/// What moves the cursor itself: pictures of ours, on a terminal.
pub(crate) fn show(picture: &str) {
    ended(std::io::stdout().lock().write_all(picture.as_bytes()));
    flush();
}

/// A long list: through the user's pager where people look at a terminal that it does not fit, else as it is.
pub(crate) fn paged(list: &str) {
    let rows = ratatui::crossterm::terminal::size().map_or(24, |(_, rows)| usize::from(rows));
    if !is_terminal() || list.lines().count() < rows || !shown_by_pager(list) {
        text(format_args!("{list}"));
    }
}

/// Whether a pager showed it. An empty PAGER, or `cat`, is the usual way to want none.
fn shown_by_pager(list: &str) -> bool {
    let pager = std::env::var("PAGER").unwrap_or_else(|_| "less".into());
    let mut words = pager.split_whitespace();
    let Some(program) = words.next() else { return false };
    let mut command = std::process::Command::new(program);
    command.args(words).stdin(std::process::Stdio::piped());
    if std::env::var_os("LESS").is_none() {
        command.env("LESS", "FRX");
    }
    let Ok(mut child) = command.spawn() else { return false };
    if let Some(mut input) = child.stdin.take() {
        // Who leaves the pager early has read enough.
        let _ = input.write_all(visible_lines(list).as_bytes());
    }
    child.wait().is_ok_and(|ended| ended.success())
}

/// JSON: the same value, with everything that cannot be seen as an escape of JSON's.
pub(crate) fn json(text: &str) {
    out(&visible_json(text));
}

/// Writes at once; whoever drives the program waits for it.
///
/// # Errors
/// What standard output meets.
pub(crate) fn at_once(said: &str, is_json: bool) -> std::io::Result<()> {
    let said = if is_json { visible_json(said) } else { format!("{}\n", visibly(said)) };
    let mut out = std::io::stdout().lock();
    out.write_all(said.as_bytes()).and_then(|()| out.flush())
}

/// Leaves nothing in a buffer: a prompt without a line's end, the last words of the program.
pub(crate) fn flush() {
    ended(std::io::stdout().flush());
}

/// A path as people may be shown it: a file's name may be a stranger's. For opening a file, use the path itself.
pub(crate) trait Shown {
    /// One line of what can be seen.
    fn shown(&self) -> String;
}

impl Shown for Path {
    fn shown(&self) -> String {
        visibly(&self.to_string_lossy())
    }
}

/// A letter on the full screen that can be seen, or the sign for one that cannot.
pub(crate) fn visible_symbol(symbol: &str) -> Option<String> {
    symbol.chars().any(is_invisible).then(|| {
        let seen: String = symbol.chars().filter(|letter| !is_invisible(*letter)).collect();
        if seen.is_empty() { "\u{fffd}".into() } else { seen }
    })
}

/// The same text, a line at a time.
pub(crate) fn visible_lines(text: &str) -> String {
    text.split_inclusive('\n')
        .map(|line| match line.strip_suffix('\n') {
            Some(line) => visibly(line) + "\n",
            None => visibly(line),
        })
        .collect()
}

/// Nothing invisible stands in JSON outside of its strings but blanks and line breaks of ours.
fn visible_json(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 1);
    for letter in text.chars() {
        if letter != '\n' && is_invisible(letter) {
            let mut units = [0; 2];
            for unit in letter.encode_utf16(&mut units) {
                out.push_str(&format!("\\u{unit:04x}"));
            }
        } else {
            out.push(letter);
        }
    }
    if !out.ends_with('\n') {
        out.push('\n');
    }
    out
}

fn out(text: &str) {
    if TAKEN.load(Ordering::Relaxed) {
        let _ = std::io::stderr().lock().write_all(text.as_bytes());
        return;
    }
    ended(std::io::stdout().lock().write_all(text.as_bytes()));
}

/// A full disk behind standard output: what was asked is done, and whoever waits for the answer must not take a part of it for
/// the whole.
fn ended(written: std::io::Result<()>) {
    let Err(error) = written else { return };
    let language = spoken();
    let said = words::OutputNotWritten { plain: slingseal_app::said_by_system(&error) };
    complaint(format_args!("slingseal: {}", said.say(language)));
    std::process::exit(1);
}

#[cfg(test)]
mod tests {
    use super::{Shown, visible_json, visible_lines, visible_symbol};

    #[test]
    fn nothing_of_a_strangers_moves_anything() {
        assert_eq!(
            visible_lines("Load\x1b[2J\n\u{9b}1A\tGO\u{202e}\n"),
            "Load\\u{1b}[2J\n\\u{9b}1A\\u{9}GO\\u{202e}\n"
        );
        assert_eq!(std::path::Path::new("a\n\u{1b}]0;x\u{7}.png").shown(), "a\\u{a}\\u{1b}]0;x\\u{7}.png");
        assert_eq!(visible_symbol("\u{1b}").as_deref(), Some("\u{fffd}"));
        assert_eq!(visible_symbol("e\u{200d}").as_deref(), Some("e"));
        assert_eq!(visible_symbol("é"), None);
    }

    #[test]
    fn json_says_the_same() {
        let value = serde_json::json!({ "a\u{202e}": ["\u{7f}\u{9b}\u{e0041}", "x\ny", "é"] });
        let text = visible_json(&serde_json::to_string_pretty(&value).unwrap());
        assert!(text.is_ascii() || text.contains('é'));
        assert!(!text.contains(['\u{202e}', '\u{7f}', '\u{9b}', '\u{e0041}']));
        assert_eq!(serde_json::from_str::<serde_json::Value>(&text).unwrap(), value);
    }
}
