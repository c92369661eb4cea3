//! # What it finds
//! The voices stay more than a tenth apart for more than two moments.
//!
//! # Why it matters
//! A wide interval is a moment of space; a wide passage is two pieces at once.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | F5 | E5 | F5 |  |
//!   tenor   cantus  |  | A3 | G3 | A3 |  |
//!   allow distance because "the example is about width"
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | F5 | E5 | C5 |  |
//!   tenor   cantus  |  | A3 | G3 | A3 |  |
//!   allow distance because "the example is about width"
//! ```
//!
//! # Sources
//! A tenth is a lead from memory; Open Music Theory has a twelfth as the limit of a moment.
//!
//! # Where schools differ
//! A matter of taste in modal teaching; conservatoire teaching ignores it.
//!
//! # Switches
//! - `wider-than`: what counts as wide, an interval that is still close
//!   - `M10`: more than a tenth (from memory)
//!   - `P12`: more than a twelfth (Open Music Theory)
//! - `moments`: for how many moments it may last, a whole number
//!   - `2`: for two (common practice)
//!   - `3`: for three (from memory)

use serde::Deserialize;

use super::width::Width;
use super::{run, telling};
use crate::judge::{Report, Sight, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What counts as wide, and for how many moments it may last.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct LongDistance {
    wider_than: Width,
    moments: usize,
}

impl Rule for LongDistance {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(now) = step.sounded() else { return };
        let is_wide = |sounded: &Sounded| self.wider_than.is_exceeded_by(sounded.interval());
        let run = run::alike(step, is_wide);
        if run.len() != self.moments + 1 {
            return;
        }
        report.together(now.onset, || {
            let words = Words::new(format!(
                "The voices stay more than a {} apart up to {} in {}. Bring them together for a \
                 while.",
                self.wider_than.words(),
                telling::pair(now),
                wording::place(step.setting, now.onset),
            ));
            match run.last() {
                Some(first) => words.with(VoiceId::Upper, first.onset, "from here on"),
                None => words,
            }
        });
    }

    fn sight(&self) -> Sight {
        Sight::moments(self.moments.saturating_add(1))
    }
}
