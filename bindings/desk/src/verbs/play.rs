//! `bundle play`: a moving code in this terminal, for the camera of another device.

use slingseal_app::catalogue::desk as words;
use std::sync::atomic::Ordering;
use std::time::Duration;

use slingseal_app::{App, AppError, BundleRequest};

use crate::output::bad_input;
use crate::{console, ending};

/// Home, without clearing what the next frame covers anyway: a screen that flickers is read by nobody.
const HOME: &str = "\x1b[H";
const CLEAR: &str = "\x1b[2J\x1b[H";

/// Rows under a frame: which part, how it ends, and where the cursor stands.
const UNDER: usize = 3;

/// A code that scrolls away is read by no camera: that is told before anything is shown. Where a terminal tells no size, the
/// code is shown.
fn has_room(frames: &[String]) -> Result<(), AppError> {
    let Ok((columns, rows)) = ratatui::crossterm::terminal::size() else { return Ok(()) };
    let wide = frames.iter().flat_map(|frame| frame.lines()).map(columns_of).max().unwrap_or(0);
    let high = UNDER + frames.iter().map(|frame| frame.lines().count()).max().unwrap_or(0);
    let small = wide > usize::from(columns) || high > usize::from(rows);
    if small && columns > 0 && rows > 0 {
        return Err(bad_input(words::WindowTooSmallForCode { columns, rows, wide, high }));
    }
    Ok(())
}

/// How many columns a line of a frame takes, without what paints it.
fn columns_of(line: &str) -> usize {
    let painted = line.split('\u{1b}').enumerate().map(|(at, part)| match part.split_once('m') {
        Some((_, seen)) if at > 0 => seen.trim_end_matches('\r').chars().count(),
        _ => part.chars().count(),
    });
    painted.sum()
}

/// Shows frame after frame until Ctrl-C, or so many rounds. Each part of several is shown for twice as many frames as are enough,
/// and says which it is.
pub(super) fn run(
    app: &App,
    request: &BundleRequest,
    pace: u32,
    rounds: Option<u32>,
) -> Result<(), AppError> {
    if !console::is_terminal() {
        return Err(bad_input(words::NoTerminalForCode));
    }
    let codes = app.moving_codes(request)?;
    has_room(&codes.iter().map(|moving| moving.frame(0)?.terminal()).collect::<Result<Vec<_>, _>>()?)?;
    // Nothing more is wanted of the home, and a film may last.
    app.let_go();
    let ended = ending::asked()
        .map_err(|error| bad_input(words::NoSignalCaught { plain: &(crate::output::plain(&error)) }))?;
    console::show(CLEAR);
    let beat = Duration::from_secs(1) / pace.max(1);
    let mut round = 0;
    'film: while rounds.is_none_or(|rounds| round < rounds) {
        for (at, moving) in codes.iter().enumerate() {
            let frames = moving.enough().saturating_mul(2);
            for number in 0..frames {
                if ended.load(Ordering::Relaxed) {
                    break 'film;
                }
                // Never the same frames again in the next round: each adds to what was missed.
                let frame = moving.frame(round.saturating_mul(frames).saturating_add(number))?;
                let which = words::PartAndFrame {
                    part: &(at + 1),
                    parts: &codes.len(),
                    frame: &(number + 1),
                    frames: &moving.enough(),
                }
                .say(app.spoken());
                console::show(&format!(
                    "{HOME}{}{which:<60}\r\n{:<60}\r\n",
                    frame.terminal()?,
                    words::CtrlCEndsIt.say(app.spoken())
                ));
                std::thread::sleep(beat);
            }
        }
        round = round.saturating_add(1);
    }
    console::show("\r\n");
    Ok(())
}
