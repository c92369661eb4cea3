//! # What it finds
//! A dissonance on a weak beat that neither passes nor, where the school allows it, goes to a
//! neighbour and back.
//!
//! # Why it matters
//! On a weak beat a dissonance is heard as the way from one consonance to the next. It must be
//! reached and left by step, or the way is broken.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | E5    | C5    | |
//!   tenor   counter | | C4 F4 | E4 C4 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | E5    | C5    | |
//!   tenor   counter | | C4 D4 | E4 C4 | |
//! ```
//!
//! # Sources
//! Fux 1725 (36 of 36 dissonances of his second species pass); Open Music Theory; Grove 1883;
//! Lavignac 1895; Lehmann 1907.
//!
//! # Where schools differ
//! Passing notes are common to all. A dissonant neighbour is refused by Fux, Open Music Theory,
//! Grove and Cherubini in second species, and allowed by Lavignac, Lehmann and York.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{Entry, Failure, HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeakDissonance {}

impl Rule for WeakDissonance {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, failure| {
            outcome.entry == Entry::Weak
                && outcome.link.offence == Offence::Dissonant
                && failure != Failure::NotAllowed
        });
    }
}
