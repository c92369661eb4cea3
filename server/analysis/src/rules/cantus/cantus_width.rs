//! # What it finds
//! A cantus that keeps within a very small compass.
//!
//! # Why it matters
//! A line needs room to rise to a high point and to come down from it.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | E4 | D4 | C4 | E4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | E4 | D4 | C4 | E4 | G4 | F4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Common practice: the narrowest cantus of Fux 1725 spans a fifth.
//!
//! # Where schools differ
//! Few name a smallest compass; the greatest is asked by `span`.
//!
//! # Switches
//! - `at-least`: how wide it is at least, by the number of an interval
//!   - `5`: a fifth (Fux 1725, in the narrowest of his cantus)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Words};
use crate::rules::{Rule, wording};

/// How wide a cantus is at least, as the number of an interval: 5 for a fifth.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct CantusWidth {
    at_least: u16,
}

impl Rule for CantusWidth {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let Some(voice) = close.setting.alone else { return };
        let Some(line) = close.whole_line(voice) else { return };
        let (Some(low), Some(high)) = (line.lowest, line.highest) else { return };
        let width = Interval::between(low.first.pitch, high.first.pitch);
        if width.number() >= self.at_least {
            return;
        }
        report.at(voice, high.first.onset, || {
            Words::new(format!(
                "The cantus keeps within {}, from {} to {}. Let it rise higher or go deeper.",
                wording::an_interval(width),
                wording::note_in(close.setting, low.first),
                wording::note_in(close.setting, high.first),
            ))
            .with(voice, low.first.onset, "the lowest note")
        });
    }

    fn sight(&self) -> Sight {
        Sight::heights(1)
    }
}
