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
//! Lavignac 1895 (rule 8); common practice. The fourth that is left for the third: Lehmann 1907 (65).
//!
//! # Where schools differ
//! Modal teaching knows no implied harmony and so no implied six-four; the fourth itself is
//! dissonant there. A school may have second inversions in its vocabulary; then only the fourth itself
//! counts. Lehmann lets a fourth that is held over be left for the third of its harmony.
//!
//! # Switches
//! - `held-fourth`: how a fourth that is held over may be left
//!   - `by-step-down`: down by step (Lavignac 1895; common practice)
//!   - `or-for-the-third`: down by step, or by leap for the third of the harmony (Lehmann 1907)

use bicinium_theory::Member;
use serde::Deserialize;

use super::telling;
use crate::judge::Report;
use crate::reading::{Entry, Failure, HearingStep, Offence, Outcome};
use crate::rules::Rule;

/// How a fourth that is held over may be left; which figures are admitted is said once for the whole
/// rulebook.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct SixFour {
    held_fourth: HeldFourth,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum HeldFourth {
    /// Down by step.
    ByStepDown,
    /// Down by step, or by leap for the third of the harmony.
    OrForTheThird,
}

impl Rule for SixFour {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        telling::failures(step, report, |outcome, failure| {
            outcome.link.offence == Offence::SixFour && !self.admits(step, outcome, failure)
        });
    }
}

impl SixFour {
    fn admits(&self, step: &HearingStep<'_>, outcome: &Outcome, failure: Failure) -> bool {
        let Failure::LeftByLeap(next) = failure else { return false };
        let member = step.harmony_before().and_then(|harmony| harmony.member(next.pitch.class()));
        self.held_fourth == HeldFourth::OrForTheThird
            && outcome.entry == Entry::Held
            && member == Some(Member::Third)
    }
}
