//! # What it finds
//! More suspensions of one kind in a row than the school lets pass.
//!
//! # Why it matters
//! A chain of suspensions is beautiful as long as it is going somewhere. Beyond the third of a kind it
//! runs by itself.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 4
//!   soprano counter | | A4 C5 | - Bb4 | - A4 | - G4 | - F4 | |
//!   tenor   cantus  | | F4    | D4    | C4   | Bb3  | A3   | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 4
//!   soprano counter | | A4 C5 | - Bb4 | - A4 | - G4 | - F4 | |
//!   tenor   cantus  | | F4    | D4    | C4   | Bb3  | D4   | |
//! ```
//!
//! # Sources
//! Open Music Theory; Cherubini 1835; Lavignac 1895.
//!
//! # Where schools differ
//! How many.
//!
//! # Switches
//! - `at-most`: how many suspensions of a kind may follow each other
//!   - `3`: three (Open Music Theory; common practice)

use serde::Deserialize;

use super::kinds;
use crate::judge::{Report, Sight, Trace, Words};
use crate::reading::HearingStep;
use crate::rules::Rule;

/// How many suspensions of a kind may follow each other.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct SuspensionChain {
    at_most: u32,
}

impl Rule for SuspensionChain {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        for suspension in kinds::resolved(step) {
            let chain = step.after.chains[suspension.voice];
            let length = chain.map_or(0, |chain| chain.length);
            if length == self.at_most.saturating_add(1) {
                report.at(suspension.voice, suspension.note.onset, || {
                    Words::new(format!(
                        "{} makes {length} suspensions {} in a row; {} are enough. Break the chain \
                         with another kind or with a bar that has no tie.",
                        suspension.tell(step),
                        suspension.kind,
                        self.at_most,
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
