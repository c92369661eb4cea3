//! # What it finds
//! The highest notes of both voices sound together.
//!
//! # Why it matters
//! Two lines that rise and fall together lean on each other; apart, each has its own curve.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter | C5 | B4 | C5 | D5 | G4 | B4 | C5 |
//!   tenor   cantus  | C4 | D4 | E4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter | C5 | B4 | C5 | A4 | E5 | B4 | C5 |
//!   tenor   cantus  | C4 | D4 | E4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory; Fux 1725 does not keep it (11 of 46 examples).
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedHighPoint {}

impl Rule for SharedHighPoint {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let highest = VoiceId::BOTH.map(|voice| close.whole_line(voice)?.highest);
        let [Some(upper), Some(lower)] = highest else { return };
        let onset = upper.first.onset.max(lower.first.onset);
        let is_together = onset < upper.first.end().min(lower.first.end());
        if !is_together || upper.times > 1 || lower.times > 1 {
            return;
        }
        report.together(onset, || {
            Words::new(format!(
                "Both voices come to their highest notes, {} and {}, in {}. Let one of them rise \
                 earlier or later.",
                upper.first.pitch,
                lower.first.pitch,
                wording::place(close.setting, onset),
            ))
        });
    }

    fn sight(&self) -> Sight {
        Sight::of(Trace::Extremes)
    }
}
