//! # What it finds
//! The upper voice sounds below the lower one.
//!
//! # Why it matters
//! Crossed voices trade their places, and what was meant as the lower line is heard as the upper
//! one.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | D4 |  |
//!   tenor   counter |  | A3 | F4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | D4 |  |
//!   tenor   counter |  | A3 | B3 |  |
//! ```
//!
//! # Sources
//! Lavignac 1895 (4) refuses it; Cherubini 1835 (3), Grove 1883 and Lehmann 1907 admit it for a
//! moment from second species on; Fux 1725 does it in nine examples.
//!
//! # Where schools differ
//! A caution in modal teaching, a fault in conservatoire teaching; how many moments it may last is
//! a switch.
//!
//! # Switches
//! - `at-most`: for how many moments the voices may be crossed, a whole number
//!   - `0`: for none (Lavignac 1895; Lehmann 1907 in first species)
//!   - `1`: for one (Cherubini 1835; Grove 1883; Lehmann 1907 from second species on)
//!   - `2`: for two (from memory)

use serde::Deserialize;

use super::{run, telling};
use crate::judge::{Report, Sight, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// For how many moments the voices may be crossed: none (Lavignac), or a few (Cherubini, Grove,
/// Lehmann).
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Crossing {
    at_most: usize,
}

impl Rule for Crossing {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(now) = step.sounded() else { return };
        if run::alike(step, telling::is_crossed).len() != self.at_most + 1 {
            return;
        }
        report.together(now.onset, || {
            Words::new(format!(
                "The voices cross in {}: {} sounds below {}. Move one of them back to its side.",
                wording::place(step.setting, now.onset),
                now.notes.upper.pitch,
                now.notes.lower.pitch,
            ))
            .with(VoiceId::Upper, now.notes.upper.onset, "the upper voice")
        });
    }

    fn sight(&self) -> Sight {
        Sight::moments(self.at_most.saturating_add(1))
    }
}
