//! A share with how sure it is, as every table of a leader shows it.

use serde::Serialize;
use slingseal_account::report::Share;

/// A share with its 95 % interval (Wilson), in per cent.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShareView {
    /// Found.
    pub found: u32,
    /// Among all.
    pub of: u32,
    /// The share; none where nothing was counted.
    pub percent: Option<f64>,
    /// The lower bound.
    pub low_percent: Option<f64>,
    /// The upper bound.
    pub high_percent: Option<f64>,
}

impl From<Share> for ShareView {
    fn from(share: Share) -> Self {
        let percent = |pick: fn(&slingseal_account::report::Interval) -> slingseal_words::Ratio| {
            share.interval.as_ref().map(|interval| pick(interval).value() * 100.0)
        };
        Self {
            found: share.found,
            of: share.of,
            percent: percent(|interval| interval.share),
            low_percent: percent(|interval| interval.low),
            high_percent: percent(|interval| interval.high),
        }
    }
}
