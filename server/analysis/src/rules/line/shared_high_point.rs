//! # What it finds
//! Both voices come to their highest notes at the same moment.
//!
//! # Why it matters
//! Two lines that rise and fall together lean on each other; apart, each has its own curve.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | D5 | E5 | D5 | C5 |
//!   bass    counter | C3 | G3 | C4 | B3 | C3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | D5 | E5 | D5 | C5 |
//!   bass    counter | C4 | B3 | C3 | B2 | C3 |
//! ```
//!
//! # Sources
//! Open Music Theory; Fux 1725 does not keep it (11 of 46 examples).
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use crate::judge::{Close, Report, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SharedHighPoint {}

impl Rule for SharedHighPoint {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let lines = &close.memory.lines;
        if VoiceId::BOTH.into_iter().any(|voice| lines[voice].has_gaps) {
            return;
        }
        let (Some(upper), Some(lower)) = (lines.upper.highest, lines.lower.highest) else { return };
        if upper.first.onset != lower.first.onset || upper.times > 1 || lower.times > 1 {
            return;
        }
        report.together(upper.first.onset, || {
            Words::new(format!(
                "Both voices come to their highest notes, {} and {}, in {}. Let one of them rise \
                 earlier or later.",
                upper.first.pitch,
                lower.first.pitch,
                wording::place(close.setting, upper.first.onset),
            ))
        });
    }
}
