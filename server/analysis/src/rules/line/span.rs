//! # What it finds
//! A line whose lowest and highest notes lie further apart than the school likes.
//!
//! # Why it matters
//! A line that keeps within a tenth or so can be sung in one breath of one voice; a wider one asks
//! for two.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key D dorian
//!
//! exercise
//!   species 1
//!   soprano counter |  | D4 | D5 | C5 | E5 | F5 | G5 |  |
//!   tenor   cantus  |  | F3 | B3 | A3 | C4 | A4 | C4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key D dorian
//!
//! exercise
//!   species 1
//!   soprano counter |  | D4 | D5 | C5 | E5 | F5 | E5 |  |
//!   tenor   cantus  |  | F3 | B3 | A3 | C4 | A4 | C4 |  |
//! ```
//!
//! # Sources
//! Open Music Theory (a tenth); common practice (a twelfth for a bass line).
//!
//! # Where schools differ
//! How wide.
//!
//! # Switches
//! - `at-most`: how wide a line may be, by the number of the interval
//!   - `10`: a tenth (Open Music Theory)
//!   - `12`: a twelfth (common practice, for a bass line)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Words};
use crate::rules::{Rule, wording};

/// How wide a line may be, as the number of an interval: 10 for a tenth.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Span {
    at_most: u16,
}

impl Rule for Span {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            let line = &close.memory.lines[voice];
            let (Some(low), Some(high)) = (line.lowest, line.highest) else { continue };
            let span = Interval::between(low.first.pitch, high.first.pitch);
            if span.number() <= self.at_most {
                continue;
            }
            report.at(voice, high.first.onset, || {
                Words::new(format!(
                    "The line spans {}, from {} to {}. Keep it closer together.",
                    wording::an_interval(span),
                    wording::note_in(close.setting, low.first),
                    wording::note_in(close.setting, high.first),
                ))
                .with(voice, low.first.onset, "the lowest note")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::heights(1)
    }
}
