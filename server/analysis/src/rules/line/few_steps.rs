//! # What it finds
//! A line with more leaps than steps.
//!
//! # Why it matters
//! Steps make a line; leaps give it relief. Where leaps prevail, nothing connects.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | E5    | C5    | D5    | E5    | F5 | |
//!   bass    counter | | C4 A3 | F3 A3 | B3 G3 | C4 A3 | F3 A3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | | E5    | C5    | D5    | E5    | F5 | |
//!   bass    counter | | C4 B3 | A3 F3 | G3 B3 | C4 B3 | A3 F3 | |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use crate::judge::{Close, Report, Words};
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
            let line = &close.memory.lines[voice];
            let moves = line.moves;
            let (Some(last), true) =
                (line.lowest, moves.all >= ENOUGH && moves.steps * 2 < moves.all)
            else {
                continue;
            };
            report.at(voice, last.first.onset, || {
                Words::new(format!(
                    "Of {} melodic intervals only {} are steps. Connect more of the notes by step.",
                    moves.all, moves.steps,
                ))
            });
        }
    }
}
