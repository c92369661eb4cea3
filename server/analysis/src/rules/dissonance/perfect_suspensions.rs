//! # What it finds
//! Two suspensions in a row that resolve to a perfect consonance, such as 9–8 and 9–8 or 4–5 and
//! 4–5.
//!
//! # Why it matters
//! The ear takes the dissonances off and hears the consonances under them: octaves after octaves, or
//! fifths after fifths.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 4
//!   soprano cantus  | | A4    | G4   | F4    | |
//!   tenor   counter | | A3 D4 | - C4 | - Bb3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 4
//!   soprano cantus  | | A4    | G4   | D4    | |
//!   tenor   counter | | A3 D4 | - C4 | - Bb3 | |
//! ```
//!
//! # Sources
//! Open Music Theory; Cherubini 1835; an older American manual. Fux 1725 has two 4–5 in a row.
//!
//! # Where schools differ
//! How grave it is: Fux does it once.
//!
//! # Switches
//! - `kinds`: the kinds of suspensions that may not follow each other
//!   - *a list of kinds such as 9-8*: 9–8 and 4–5 (Open Music Theory; Cherubini 1835)

use serde::Deserialize;

use super::kinds;
use crate::judge::{Report, Sight, Trace, Words};
use crate::reading::{HearingStep, SuspensionKind};
use crate::rulebook::Spelt;
use crate::rules::Rule;

/// The kinds of suspensions that may not follow each other.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PerfectSuspensions {
    kinds: Vec<Spelt<SuspensionKind>>,
}

impl Rule for PerfectSuspensions {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        for suspension in kinds::resolved(step) {
            let chain = step.after.chains[suspension.voice];
            let is_second = chain.is_some_and(|chain| chain.length >= 2);
            if is_second && kinds::hold(&self.kinds, suspension.kind) {
                report.at(suspension.voice, suspension.note.onset, || {
                    Words::new(format!(
                        "{} is a suspension {} right after another: their resolutions are heard \
                         as consecutive perfect consonances. Write another kind between them.",
                        suspension.tell(step),
                        suspension.kind,
                    ))
                    .with(
                        suspension.voice,
                        suspension.resolution.onset,
                        "its resolution",
                    )
                });
            }
        }
    }

    fn sight(&self) -> Sight {
        Sight::of(Trace::Chains)
    }
}
