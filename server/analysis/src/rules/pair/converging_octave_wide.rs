//! # What it finds
//! An octave on a strong beat into which the voices move towards each other, other than the narrow
//! form.
//!
//! # Why it matters
//! Any convergence upon an octave weakens the strong beat, less so where the upper voice moves by
//! step.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | D5 | C5 |  |
//!   tenor   cantus  |  | B3 | C4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | D5 | E5 |  |
//!   tenor   cantus  |  | B3 | C4 |  |
//! ```
//!
//! # Sources
//! Grove 1883.
//!
//! # Where schools differ
//! Fux knows the narrow form only; conservatoire teaching ignores both.

use serde::Deserialize;

use super::converging_octave::{converging, is_narrow, tell};
use crate::judge::{Report, Step};
use crate::rules::Rule;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConvergingOctaveWide {}

impl Rule for ConvergingOctaveWide {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(into) = converging(step).filter(|into| !is_narrow(into)) else { return };
        let is_close = step.is_last_bar();
        if !is_close {
            tell(step, into, report);
        }
    }
}
