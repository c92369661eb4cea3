//! # What it finds
//! The lower voice takes the fifth of the prevailing harmony as if it were a note of the chord: by
//! leap, or on a strong beat where nothing carries it. On a weak beat it may pass or go to a
//! neighbour and back.
//!
//! # Why it matters
//! Two voices imply the chord by its lowest note. With the fifth below, the chord hangs in the air
//! and asks for a resolution that two voices cannot give.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | C5    | D5    | |
//!   tenor   counter | | E4 G4 | F4 D4 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | C5    | D5    | |
//!   tenor   counter | | C4 E4 | F4 D4 | |
//! ```
//!
//! # Sources
//! Lavignac 1895 (rule 8); common practice.
//!
//! # Where schools differ
//! Modal teaching knows no implied harmony and so no implied six-four; the fourth itself is
//! dissonant there.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SixFour {}

impl Rule for SixFour {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, _| outcome.link.offence == Offence::SixFour);
    }
}
