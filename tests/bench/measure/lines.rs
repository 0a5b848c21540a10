//! One line of the table, and how a thing is timed.

use std::fmt;
use std::time::{Duration, Instant};

use serde::Serialize;

/// One figure beside its floor.
#[derive(Debug, Serialize)]
pub(crate) struct Line {
    name: String,
    unit: &'static str,
    ours: f64,
    floor: f64,
    floor_is: &'static str,
    ratio: f64,
    target: Option<f64>,
    /// The most that it may be by itself, in its unit.
    most: Option<f64>,
}

impl Line {
    pub(crate) fn new(
        name: impl Into<String>,
        unit: &'static str,
        ours: f64,
        floor_is: &'static str,
        floor: f64,
        target: Option<f64>,
    ) -> Self {
        Self { name: name.into(), unit, ours, floor, floor_is, ratio: ours / floor, target, most: None }
    }

    /// The same, which may be so much by itself.
    pub(crate) fn within(self, most: f64) -> Self {
        Self { most: Some(most), ..self }
    }
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{:<48} {:>10.2} {:<5} {:>10.2} {:<38} x{:<6.2}",
            self.name, self.ours, self.unit, self.floor, self.floor_is, self.ratio
        )?;
        if let Some(most) = self.most {
            write!(f, " at most {most} {}{}", self.unit, if self.ours <= most { "" } else { "  MISSED" })?;
        }
        match self.target {
            Some(target) => {
                write!(f, " target {target}{}", if self.ratio <= target { "" } else { "  MISSED" })
            }
            None => Ok(()),
        }
    }
}

/// Runs both in turn, so that a machine that slows down slows both, and gives the sorted times of each.
pub(crate) fn pair(rounds: usize, ours: impl FnMut(), floor: impl FnMut()) -> (Vec<Duration>, Vec<Duration>) {
    let begun = Instant::now();
    in_turn(rounds, ours, floor, || begun.elapsed())
}

/// The same in processor time of this thread: what nothing else on the machine lengthens.
pub(crate) fn pair_busy(
    rounds: usize,
    ours: impl FnMut(),
    floor: impl FnMut(),
) -> (Vec<Duration>, Vec<Duration>) {
    in_turn(rounds, ours, floor, || {
        let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        Duration::new(u64::try_from(time.tv_sec).unwrap_or(0), u32::try_from(time.tv_nsec).unwrap_or(0))
    })
}

fn in_turn(
    rounds: usize,
    mut ours: impl FnMut(),
    mut floor: impl FnMut(),
    now: impl Fn() -> Duration,
) -> (Vec<Duration>, Vec<Duration>) {
    let (mut a, mut b) = (Vec::with_capacity(rounds), Vec::with_capacity(rounds));
    for _ in 0..rounds.div_ceil(20) {
        ours();
        floor();
    }
    for _ in 0..rounds {
        let start = now();
        ours();
        let middle = now();
        floor();
        a.push(middle.saturating_sub(start));
        b.push(now().saturating_sub(middle));
    }
    a.sort_unstable();
    b.sort_unstable();
    (a, b)
}

/// The same by the processor's time of this thread: what takes long enough to be set aside for others on a shared machine.
pub(crate) fn pair_of_processor(
    rounds: usize,
    mut ours: impl FnMut(),
    mut floor: impl FnMut(),
) -> (Vec<Duration>, Vec<Duration>) {
    let now = || {
        let spent = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        Duration::new(spent.tv_sec.unsigned_abs(), u32::try_from(spent.tv_nsec).unwrap_or(0))
    };
    let timed = |run: &mut dyn FnMut()| {
        let start = now();
        run();
        now() - start
    };
    let (mut a, mut b): (Vec<_>, Vec<_>) = (0..rounds).map(|_| (timed(&mut ours), timed(&mut floor))).unzip();
    a.sort_unstable();
    b.sort_unstable();
    (a, b)
}

/// The time below which `share` of the runs lie, in microseconds.
pub(crate) fn at(times: &[Duration], share: f64) -> f64 {
    let place = ((times.len() as f64 - 1.0) * share).round() as usize;
    times[place].as_secs_f64() * 1e6
}
