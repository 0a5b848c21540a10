use super::{Interval, wilson_95};

/// So many of so many, and how far that can be trusted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Found.
    pub found: u32,
    /// Among all.
    pub of: u32,
    /// The 95 % interval; `None` where nothing was counted.
    pub interval: Option<Interval>,
}

impl Share {
    /// Counts beyond 2³² are cut: no desk holds so many.
    pub fn new(found: u64, of: u64) -> Self {
        let small = |number: u64| u32::try_from(number).unwrap_or(u32::MAX);
        let (found, of) = (small(found), small(of));
        Self { found, of, interval: wilson_95(found, of) }
    }
}

#[cfg(test)]
mod tests {
    use super::Share;

    #[test]
    fn has_an_interval_where_something_was_counted() {
        assert!(Share::new(0, 0).interval.is_none());
        let share = Share::new(1, 29).interval.unwrap();
        assert!((share.high.value() - 0.1718).abs() < 5e-5);
    }
}
