//! # What it finds
//! A line with more leaps than steps.
//!
//! # Why it matters
//! Steps make a line; leaps give it relief. Where leaps prevail, nothing connects.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   soprano counter | G4 E4 | C5 A4 | E5 C5 | E5 C5 | A4 C5 |
//!   tenor   cantus  | C4    | A3    | C4    | A3    | C4    |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   soprano counter | G4 A4 | C5 B4 | A4 B4 | C5 A4 | G4 E4 |
//!   tenor   cantus  | C4    | A3    | C4    | A3    | C4    |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Words};
use crate::rules::Rule;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FewSteps {}

/// Below this many intervals nothing can be said of a line.
const ENOUGH: u32 = 8;

impl Rule for FewSteps {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            let Some(line) = close.whole_line(voice) else { continue };
            let (leaps, steps) = (line.moves.leaps, line.moves.steps);
            let first = close.moments.iter().find_map(|moment| moment.struck(voice));
            let Some(first) = first.filter(|_| leaps + steps >= ENOUGH && leaps > steps) else {
                continue;
            };
            report.at(voice, first.onset, || {
                Words::new(format!(
                    "The line has {leaps} leaps and {}. Connect more of the notes by step.",
                    only(steps),
                ))
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::WHOLE
    }
}

fn only(steps: u32) -> String {
    match steps {
        0 => "no steps".to_owned(),
        1 => "only 1 step".to_owned(),
        _ => format!("only {steps} steps"),
    }
}
