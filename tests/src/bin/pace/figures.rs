//! Times, and the table in which they are printed. It must not know what was timed.

use std::fmt;
use std::io::{Stdout, Write, stdout};
use std::time::{Duration, Instant};

/// The table, printed row by row while it is measured.
pub(crate) struct Table {
    output: Stdout,
}

/// Times of the same thing, done again and again.
pub(crate) struct Times(Vec<Duration>);

impl Times {
    /// Times something several times, after a few times that do not count.
    pub(crate) fn of(count: usize, mut work: impl FnMut()) -> Self {
        (0..=count / 10).for_each(|_| work());
        let mut times: Vec<_> = (0..count).map(|_| time(&mut work)).collect();
        times.sort_unstable();
        Times(times)
    }

    fn part(&self, percent: usize) -> f64 {
        let index = (self.0.len() * percent / 100).min(self.0.len() - 1);
        milliseconds(self.0[index])
    }
}

impl fmt::Display for Times {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [median, most, nearly_all] = [50, 95, 99].map(|percent| self.part(percent));
        write!(f, "{median:9.3} {most:9.3} {nearly_all:9.3} ms")
    }
}

/// How long something takes.
pub(crate) fn time(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

/// A duration as a number of milliseconds.
pub(crate) fn milliseconds(duration: Duration) -> f64 {
    duration.as_secs_f64() * 1_000.0
}

impl Table {
    /// A table with nothing but its head.
    pub(crate) fn new() -> Self {
        let table = Table { output: stdout() };
        table.row("", format!("{:>9} {:>9} {:>9}", "median", "95 %", "99 %"));
        table
    }

    /// Adds a row.
    pub(crate) fn row(&self, what: impl fmt::Display, figure: impl fmt::Display) {
        writeln!(self.output.lock(), "{what:58} {figure}").expect("someone reads");
    }
}
