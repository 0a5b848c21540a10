//! How a person ends a verb that goes on until then: Ctrl-C, or what the system says in its place. What runs looks at
//! the flag where it can stop in order.
//!
//! Unix says it by signals. Windows has none: its C library imitates two by a second console handler, and nothing is gained
//! by going through it; a console's own handler hears of a window that is closed, too.

use std::io;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// A flag that is set once somebody ends this program: Ctrl-C, or a system that asks it to stop. A terminal that is closed
/// ends it as it ends every program.
///
/// # Errors
/// The system takes no handler.
pub(crate) fn asked() -> io::Result<Arc<AtomicBool>> {
    #[cfg(unix)]
    return caught(&[signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM]);
    #[cfg(windows)]
    return crate::windows::ended_at_console();
}

/// As [`asked`], and a terminal that is closed sets it too: for what must leave in order even then. Never for what may go on
/// without its terminal (`nohup`).
///
/// # Errors
/// The system takes no handler.
pub(crate) fn asked_or_closed() -> io::Result<Arc<AtomicBool>> {
    #[cfg(unix)]
    return caught(&[signal_hook::consts::SIGINT, signal_hook::consts::SIGTERM, signal_hook::consts::SIGHUP]);
    // A console that is closed is said to everybody here: there is no going on without it.
    #[cfg(windows)]
    return crate::windows::ended_at_console();
}

#[cfg(unix)]
fn caught(signals: &[i32]) -> io::Result<Arc<AtomicBool>> {
    let ended = Arc::new(AtomicBool::new(false));
    for signal in signals {
        signal_hook::flag::register(*signal, Arc::clone(&ended))?;
    }
    Ok(ended)
}
