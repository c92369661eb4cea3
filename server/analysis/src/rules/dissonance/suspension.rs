//! # What it finds
//! A note held over from a consonance into a dissonance that does not go down by step to a
//! consonance.
//!
//! # Why it matters
//! The pull of a suspension is answered by its resolution, and the ear knows only one: a step
//! down.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   soprano counter | | A4 C5 | - D5 | E5 | |
//!   tenor   counter | | F4    | D4   | C4 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   soprano counter | | A4 C5 | - B4 | C5 | |
//!   tenor   counter | | F4    | D4   | C4 | |
//! ```
//!
//! # Sources
//! Fux 1725; Open Music Theory; Lehmann 1907; all others.
//!
//! # Where schools differ
//! A leading note that rises from its suspension is allowed by Bridge and Lehmann.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{Entry, HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Suspension {}

impl Rule for Suspension {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, _| {
            outcome.entry == Entry::Held && outcome.link.offence != Offence::SixFour
        });
    }
}
