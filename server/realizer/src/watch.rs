//! How long a search may go on: how much it may try, until when, and whether anybody still waits for
//! it. Knows nothing of what is searched for.

use std::cell::Cell;
use std::fmt;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// How much may be tried before an answer has to be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Budget {
    /// How many moments may be judged in all; what has to be remembered counts as ten.
    pub trials: u64,
    /// How long it may take.
    pub time: Duration,
}

impl Default for Budget {
    fn default() -> Self {
        Self { trials: 50_000_000, time: Duration::from_secs(60) }
    }
}

/// The budget is used up, or nobody waits any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Spent;

/// Watches over a search.
pub struct Watch<'a> {
    trials: Cell<u64>,
    deadline: Cell<Instant>,
    cancelled: &'a AtomicBool,
    progress: &'a dyn Fn(f64),
}

/// How many trials it is worth to remember one more place at which ways go on.
pub(crate) const REMEMBERED: u64 = 10;

/// Between how many trials the clock is looked at.
const PATIENCE: u64 = 256;

impl fmt::Debug for Watch<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Watch").field("trials", &self.trials).finish_non_exhaustive()
    }
}

impl<'a> Watch<'a> {
    /// A watch that starts now; it also ends when `cancelled` is set.
    pub fn new(budget: Budget, cancelled: &'a AtomicBool) -> Self {
        let (trials, deadline) = (budget.trials, Instant::now() + budget.time);
        let (trials, deadline) = (Cell::new(trials), Cell::new(deadline));
        Self { trials, deadline, cancelled, progress: &|_| {} }
    }

    /// The same, telling how much of a search is done, from 0 to 1.
    #[must_use]
    pub fn with_progress(self, progress: &'a dyn Fn(f64)) -> Self {
        Self { progress, ..self }
    }

    /// Tells how much is done.
    pub(crate) fn tell(&self, share: f64) {
        (self.progress)(share);
    }

    /// Lets something use up half of what is left, so that there is enough to go on without it.
    pub(crate) fn half<T>(&self, work: impl FnOnce() -> T) -> T {
        let (trials, deadline, now) = (self.trials.get(), self.deadline.get(), Instant::now());
        let kept = trials - trials / 2;
        self.trials.set(trials / 2);
        self.deadline.set(now + deadline.saturating_duration_since(now) / 2);
        let done = work();
        self.trials.set(self.trials.get() + kept);
        self.deadline.set(deadline);
        done
    }

    /// Counts some trials.
    pub(crate) fn spend(&self, trials: u64) -> Result<(), Spent> {
        let before = self.trials.get();
        let left = before.checked_sub(trials).ok_or(Spent)?;
        self.trials.set(left);
        let is_over = left / PATIENCE != before / PATIENCE
            && (self.cancelled.load(Ordering::Relaxed) || Instant::now() >= self.deadline.get());
        if is_over { Err(Spent) } else { Ok(()) }
    }
}
