//! A bar that shows how far some work has come, on a terminal only. It must not know what is done.

use std::io::{IsTerminal, stderr};

use indicatif::{ProgressBar, ProgressStyle};

/// How many steps the bar has.
const STEPS: u64 = 100;

/// A bar for one piece of work; it disappears with it.
pub(super) struct Progress(ProgressBar);

impl Progress {
    /// A bar with a name; hidden where nobody would see it.
    pub(super) fn new(name: &str) -> Self {
        let bar =
            if stderr().is_terminal() { ProgressBar::new(STEPS) } else { ProgressBar::hidden() };
        let style = ProgressStyle::with_template("{msg} {bar:40} {percent:>3} %");
        bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()));
        bar.set_message(name.to_owned());
        Self(bar)
    }

    /// Shows how much is done, from 0 to 1.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
    pub(super) fn show(&self, share: f64) {
        self.0.set_position((share.clamp(0.0, 1.0) * STEPS as f64) as u64);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}
