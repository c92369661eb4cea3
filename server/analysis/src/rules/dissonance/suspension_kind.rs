//! # What it finds
//! A suspension of a kind that the school does not write: one whose dissonance and resolution make
//! other intervals than those it lists.
//!
//! # Why it matters
//! A suspension lives from the consonance that it delays. Where that is a fifth, an octave or a
//! unison there is little to delay, and the dissonance is felt as an accident.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 4
//!   soprano cantus  | | F4    | G4   | |
//!   tenor   counter | | A3 D4 | - C4 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 4
//!   soprano cantus  | | F4    | E4   | |
//!   tenor   counter | | A3 D4 | - C4 | |
//! ```
//!
//! # Sources
//! Open Music Theory; Fux 1725 (7–6 nine times, 4–3 three times, 9–8 once).
//!
//! # Where schools differ
//! All have 7–6 and 4–3 above and 2–3 below. Fux and Open Music Theory write 4–5 below, Lehmann does
//! not; Lehmann has no 9–8 either.
//!
//! # Switches
//! - `above`: the suspensions written above the other voice
//!   - *a list of kinds such as 7-6*: 7–6, 4–3 and 9–8 (Open Music Theory; Fux 1725; Bridge 1877;
//!     Cherubini 1835); 7–6 and 4–3 (Lehmann 1907)
//! - `below`: the suspensions written below the other voice
//!   - *a list of kinds such as 2-3*: 2–3 and 4–5 (Fux 1725; Open Music Theory); 2–3 (Lehmann 1907;
//!     an older American manual)
//! - `rare-above`: those above that are tolerated with caution
//!   - *a list of kinds such as 2-1*: 2–1 (Open Music Theory)
//! - `rare-below`: those below that are tolerated with caution
//!   - *a list of kinds such as 7-8*: 7–8 (Open Music Theory); 4–5 too (Bridge 1877; an older American
//!     manual)

use serde::Deserialize;

use super::kinds::{self, Resolved};
use crate::finding::Level;
use crate::judge::{Report, Spot, Words};
use crate::reading::{HearingStep, SuspensionKind};
use crate::rulebook::Spelt;
use crate::rules::Rule;

/// The kinds of suspensions that a school writes.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct SuspensionKinds {
    above: Vec<Spelt<SuspensionKind>>,
    below: Vec<Spelt<SuspensionKind>>,
    rare_above: Vec<Spelt<SuspensionKind>>,
    rare_below: Vec<Spelt<SuspensionKind>>,
}

impl Rule for SuspensionKinds {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        for suspension in kinds::resolved(step) {
            let usual = suspension.by_side(&self.above, &self.below);
            let rare = suspension.by_side(&self.rare_above, &self.rare_below);
            let spot = Spot::new(suspension.voice, suspension.note.onset);
            if kinds::hold(rare, suspension.kind) {
                let words = || tell(step, &suspension, "is seldom written", usual);
                report.raise(spot, Level::Caution, words);
            } else if !kinds::hold(usual, suspension.kind) {
                let words = || tell(step, &suspension, "is not written", usual);
                report.at(suspension.voice, suspension.note.onset, words);
            }
        }
    }
}

fn tell(
    step: &HearingStep<'_>,
    suspension: &Resolved,
    verdict: &str,
    usual: &[Spelt<SuspensionKind>],
) -> Words {
    Words::new(format!(
        "{} is a suspension {} {}, which {verdict} in this school. {}",
        suspension.tell(step),
        suspension.kind,
        suspension.side(),
        remedy(usual),
    ))
    .with(suspension.voice, suspension.resolution.onset, "its resolution")
}

fn remedy(usual: &[Spelt<SuspensionKind>]) -> String {
    let names: Vec<_> = usual.iter().map(|kind| kind.0.to_string()).collect();
    match names.split_last() {
        Some((last, [])) => format!("Write {last} there."),
        Some((last, others)) => format!("Write {} or {last} there.", others.join(", ")),
        None => "Put a consonance on the strong beat.".to_owned(),
    }
}
