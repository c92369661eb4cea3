//! # What it finds
//! A line that comes to its highest note more often than the school likes.
//!
//! # Why it matters
//! One summit gives a line its shape; a second one takes away from the first.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter | C5 | B4 | C5 | B4 | C5 |
//!   tenor   cantus  | C4 | D4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter | G4 | F4 | G4 | B4 | C5 |
//!   tenor   cantus  | C4 | D4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory; Fux 1725 does not keep it (19 of 46 examples).
//!
//! # Where schools differ
//! A matter of taste everywhere.
//!
//! # Switches
//! - `at-most`: how many times a line may come to its highest note, a whole number from 1 on
//!   - `1`: once (Open Music Theory)
//!   - `2`: twice (Fux 1725, who repeats it in 19 of 46 examples)

use std::num::NonZeroU32;

use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Words};
use crate::rules::{Rule, wording};

/// How many times a line may come to its highest note.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct HighPoint {
    at_most: NonZeroU32,
}

impl Rule for HighPoint {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            let Some(highest) = close.whole_line(voice).and_then(|line| line.highest) else {
                continue;
            };
            if highest.times <= self.at_most.get() {
                continue;
            }
            report.at(voice, highest.first.onset, || {
                Words::new(format!(
                    "The highest note, {}, comes {} times, first in {}. One high point gives the \
                     line its shape.",
                    highest.first.pitch,
                    highest.times,
                    wording::place(close.setting, highest.first.onset),
                ))
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::heights(self.at_most.get().saturating_add(1))
    }
}
