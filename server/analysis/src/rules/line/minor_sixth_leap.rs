//! # What it finds
//! A leap of a minor sixth where the school does not admit it: downward, or at all.
//!
//! # Why it matters
//! The minor sixth is the widest leap below the octave that a singer takes with ease, and only
//! upward, where the voice can prepare it.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano counter | | C5 | E4 | F4 | |
//!   tenor   cantus  | | A3 | C4 | A3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano counter | | C5 | A4 | F4 | |
//!   tenor   cantus  | | A3 | C4 | A3 | |
//! ```
//!
//! # Sources
//! Lavignac 1895 (rule 9); Bridge 1877; Fux 1725 writes it downward in species 2 to 4 only.
//!
//! # Where schools differ
//! Modal teaching wants it upward in first species; conservatoire teaching admits it both ways.

use bicinium_theory::{Direction, Interval};
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// Where a minor sixth may be leapt.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct MinorSixthLeap {
    allowed: Allowed,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Allowed {
    /// Nowhere.
    Never,
    /// Upward (Lavignac, Bridge, Fux in first species).
    Upward,
    /// Both ways (Lehmann).
    BothWays,
}

impl Rule for MinorSixthLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((from, to, leap)) = step.entered(voice) else { continue };
            if !is_minor_sixth(leap) || self.admits(leap) {
                continue;
            }
            report.at(voice, to.onset, || {
                Words::new(format!(
                    "The line leaps a minor sixth from {} in {}. Take a smaller leap, or go by \
                     step.",
                    wording::from_to(from, to),
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "the leap begins here")
            });
        }
    }
}

impl MinorSixthLeap {
    fn admits(&self, leap: Interval) -> bool {
        match self.allowed {
            Allowed::Never => false,
            Allowed::Upward => leap.direction() == Direction::Up,
            Allowed::BothWays => true,
        }
    }
}

fn is_minor_sixth(leap: Interval) -> bool {
    leap.abs() == Interval::new(5, 8)
}
