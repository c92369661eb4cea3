//! # What it finds
//! A cantus that is shorter or longer than is usual.
//!
//! # Why it matters
//! A short one leaves no room for a rise and a fall; in a long one neither can be heard as a whole.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | G4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | G4 | E4 | F4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus: about 8 to 16 notes; those of Fux 1725 have 9 to 14.
//!
//! # Where schools differ
//! Only in the numbers.
//!
//! # Switches
//! - `at-least`: how many notes it has at least, a whole number from 1 on
//!   - `8`: eight (Open Music Theory)
//! - `at-most`: how many notes it has at most, a whole number from 1 on
//!   - `16`: sixteen (Open Music Theory)

use serde::Deserialize;

use crate::judge::{Close, LineMemory, Matter, Report, Words};
use crate::rules::Rule;

/// How many notes a cantus has.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct CantusLength {
    at_least: u32,
    at_most: u32,
}

impl Rule for CantusLength {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let Some(voice) = close.setting.alone else { return };
        let Some(last) = close.whole_line(voice).and_then(LineMemory::last) else { return };
        let notes = close.setting.bars;
        let mend = if notes < self.at_least {
            "Let it go farther"
        } else if notes > self.at_most {
            "Make it shorter"
        } else {
            return;
        };
        report.at(voice, last.onset, || {
            Words::new(format!(
                "The cantus is {notes} notes long; {} to {} are usual. {mend}.",
                self.at_least, self.at_most,
            ))
        });
    }

    fn matter(&self) -> Matter {
        Matter::Rhythm
    }
}
