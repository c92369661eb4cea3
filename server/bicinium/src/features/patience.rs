//! How long somebody waits for many searches together. One search has a limit of its own; a stretch with
//! hundreds of findings would still take minutes. It must not know what is searched for.

use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use bicinium_realizer::{Budget, Watch};

/// What is left of somebody's patience.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patience<'a> {
    until: Instant,
    cancelled: &'a AtomicBool,
}

impl<'a> Patience<'a> {
    /// Patience for so long; it also ends when `cancelled` is set.
    pub(super) fn new(time: Duration, cancelled: &'a AtomicBool) -> Self {
        Self { until: Instant::now() + time, cancelled }
    }

    /// Whether it is at an end.
    pub(super) fn is_over(self) -> bool {
        self.cancelled.load(Ordering::Relaxed) || Instant::now() >= self.until
    }

    /// A watch for one search, at most as long as patience lasts.
    pub(super) fn watch(self, budget: Budget) -> Watch<'a> {
        let left = self.until.saturating_duration_since(Instant::now());
        Watch::new(Budget { time: budget.time.min(left), ..budget }, self.cancelled)
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::time::Duration;

    use super::Patience;

    #[test]
    fn patience_ends_with_its_time_or_with_whoever_waits() {
        let cancelled = AtomicBool::new(false);
        assert!(Patience::new(Duration::ZERO, &cancelled).is_over());
        let patience = Patience::new(Duration::from_secs(3600), &cancelled);
        assert!(!patience.is_over());
        cancelled.store(true, Ordering::Relaxed);
        assert!(patience.is_over());
    }
}
