//! # What it finds
//! A note that is consonant with the other voice and yet no note of the harmony of the bar, or one
//! that may not be its bass, and that is not reached and left as an embellishment.
//!
//! # Why it matters
//! A bar that stands for one harmony is blurred by a note of another one that is leapt to or leapt
//! from.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | C5    | D5    | |
//!   tenor   counter | | E4 A3 | B3 G3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | C5    | D5    | |
//!   tenor   counter | | E4 C4 | B3 G3 | |
//! ```
//!
//! # Sources
//! Bridge 1877 (ch. 3); Lehmann 1907 (fig. 21c).
//!
//! # Where schools differ
//! Modal teaching judges by the interval alone.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ForeignToHarmony {}

impl Rule for ForeignToHarmony {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, _| {
            matches!(outcome.link.offence, Offence::Outside | Offence::Misplaced)
        });
    }
}
