//! # What it finds
//! More leaps one after the other than a cantus should have.
//!
//! # Why it matters
//! Steps hold a line together; leaps upon leaps, even if they turn, break it into pieces.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | D4 | G4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | E4 | G4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus.
//!
//! # Where schools differ
//! Fux has three in a row, twice in his mixolydian cantus, so no school makes it a fault.
//!
//! # Switches
//! - `at-most`: how many leaps may follow each other, a whole number
//!   - `2`: two (Open Music Theory)
//!   - `3`: three (Fux 1725)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Report, Sight, Step, Words};
use crate::rules::Rule;

/// How many leaps may follow each other.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct LeapsInARow {
    at_most: u8,
}

impl Rule for LeapsInARow {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some((voice, note)) = step.setting.alone.and_then(|it| Some((it, step.struck(it)?)))
        else {
            return;
        };
        let line = step.line(voice);
        let too_many = usize::from(self.at_most) + 1;
        let is_leap = |back: usize| line.interval(back).is_some_and(Interval::is_leap);
        let Some(first) = line.back(too_many).filter(|_| (0..too_many).all(is_leap)) else {
            return;
        };
        report.at(voice, note.onset, || {
            Words::new(format!(
                "{too_many} leaps follow each other, from {} to {}. Put a step between them.",
                first.pitch, note.pitch,
            ))
            .with(voice, first.onset, "the first leap begins here")
        });
    }

    fn sight(&self) -> Sight {
        Sight::notes(self.at_most.saturating_add(1))
    }
}
