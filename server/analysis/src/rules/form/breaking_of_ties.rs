//! # What it finds
//! In fourth species, more untied bars than the school lets pass.
//!
//! # Why it matters
//! Fourth species is about the tie. A bar without one is a breath, not a habit.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 4
//!   soprano counter | rest C5 | B4 C5 | B4 D5 | C5 A4 | G4 C5 | - B4 | C5 |
//!   tenor   cantus  | C4      | E4    | D4    | F4    | E4    | D4   | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 4
//!   soprano counter | rest C5 | - B4 | - A4 | - D5 | - C5 | - B4 | C5 |
//!   tenor   cantus  | C4      | E4   | D4   | F4   | E4   | D4   | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory; Bridge 1877.
//!
//! # Where schools differ
//! How many.
//!
//! # Switches
//! - `at-most`: how many bars of fourth species may begin without a tie, a whole number
//!   - `0`: none (from memory)
//!   - `1`: one (from memory)
//!   - `2`: two (Open Music Theory; Bridge 1877)

use serde::Deserialize;

use crate::judge::{Close, Matter, Report, Sight, Words};
use crate::rules::{Rule, wording};

/// How many bars may be untied.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct BreakingOfTies {
    at_most: usize,
}

impl Rule for BreakingOfTies {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        if close.setting.species != Some(4) {
            return;
        }
        for voice in close.setting.written() {
            let onsets =
                (1..close.setting.bars.saturating_sub(1)).map(|bar| close.setting.bar_start(bar));
            let struck = |onset: &bicinium_theory::Duration| {
                close.moments.iter().any(|m| m.onset == *onset && m.struck(voice).is_some())
            };
            let untied: Vec<_> = onsets.filter(struck).collect();
            let Some(onset) = untied.get(self.at_most) else { continue };
            report.at(voice, *onset, || {
                Words::new(format!(
                    "{} bars begin without a tie, among them {}. Tie the second half over the \
                     barline.",
                    untied.len(),
                    wording::place(close.setting, *onset),
                ))
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::WHOLE
    }

    fn matter(&self) -> Matter {
        Matter::Rhythm
    }
}
