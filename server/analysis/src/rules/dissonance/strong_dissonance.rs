//! # What it finds
//! A dissonance struck on a strong beat that the school cannot explain. Where harmony is implied,
//! a passing note or a neighbour may stand there if the same harmony reaches over both sides of
//! the barline and the line goes on by step, over no more than eight such notes, until it comes to a
//! note of that harmony.
//!
//! # Why it matters
//! The strong beat is where a harmony is stated. A dissonance there weighs so much that only a
//! harmony that already holds can carry it.
//!
//! # Broken
//! ```bicinium
//! key G major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | B4     | D5    | B4 | |
//!   bass    counter | | G3 F#3 | E3 D3 | G3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key G major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | B4     | B4    | D5    | |
//!   bass    counter | | G3 F#3 | E3 D3 | C3 B2 | |
//! ```
//!
//! # Sources
//! Fux 1725 strikes none; Open Music Theory. Accented passing notes and neighbours under one
//! harmony: common practice.
//!
//! # Where schools differ
//! Modal teaching admits none but suspensions. Bridge and Cherubini tolerate one in a sequence or
//! a dilemma; common practice admits it under one prolonged harmony.

use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{Entry, Failure, HearingStep, Offence};
use crate::rules::Rule;

/// The rule without switches; which figures are admitted is said once for the whole rulebook.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StrongDissonance {}

impl Rule for StrongDissonance {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, failure| {
            outcome.entry == Entry::Accented
                && outcome.link.offence == Offence::Dissonant
                && failure != Failure::NotAllowed
        });
    }
}
