//! # What it finds
//! A dissonance where every note must be a consonance: in first species.
//!
//! # Why it matters
//! One note against one note has no weaker place where a dissonance could pass; each pair of notes
//! is heard as a statement.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | D5 | C5 | |
//!   tenor   counter | | A3 | E3 | F3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | D5 | C5 | |
//!   tenor   counter | | A3 | B3 | A3 | |
//! ```
//!
//! # Sources
//! All treatises. Seconds, fourths against the lower voice, sevenths and all augmented and
//! diminished intervals are dissonant (Open Music Theory; Grove 1883; Lavignac 1895; Cherubini
//! 1835).
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{Failure, HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StruckDissonance {}

impl Rule for StruckDissonance {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, failure| {
            failure == Failure::NotAllowed && outcome.link.offence == Offence::Dissonant
        });
    }
}
