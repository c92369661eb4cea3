//! # What it finds
//! A cantus without a single leap.
//!
//! # Why it matters
//! A leap or two give a line of steps its contour.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | E4 | F4 | G4 | F4 | E4 | D4 | C4 |
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
//! Open Music Theory, chapter on cantus firmus: mostly steps, with some leaps.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Words};
use crate::rules::Rule;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepsOnly {}

impl Rule for StepsOnly {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let Some(voice) = close.setting.alone else { return };
        let Some(line) = close.whole_line(voice).filter(|line| line.moves.leaps == 0) else {
            return;
        };
        if let Some(highest) = line.highest {
            report.at(voice, highest.first.onset, || {
                Words::new("The cantus moves by step only. A leap or two would give it a contour.")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::WHOLE
    }
}
