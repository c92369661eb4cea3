//! # What it finds
//! In fifth species, a note longer than a quarter that begins on a weak quarter; where the school
//! refuses it, a dotted half that is not made by a tie. In other meters, the lengths that
//! correspond.
//!
//! # Why it matters
//! Long notes lean on strong beats or are tied into them. One that begins on a weak quarter hides
//! the beat, and a dotted half without a tie puts the rest of its bar out of balance.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 E5 - C5 | B4 G4 |  |
//!   tenor   cantus  |  | A3         | G3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - E5 C5 | B4 G4 |  |
//!   tenor   cantus  |  | A3         | G3    |  |
//! ```
//!
//! # Sources
//! Common practice; Fux 1725 has none in fifth species. The dotted half: Cherubini 1835, Lavignac
//! 1895, Baron.
//!
//! # Where schools differ
//! Whether a dotted half may stand inside a bar.
//!
//! # Switches
//! - `untied-dotted-half`: a dotted half that is not made by a tie
//!   - `admitted`: it may stand (Cherubini 1835)
//!   - `refused`: it is told (Lavignac 1895; Baron)

use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::shares::Florid;

/// Which long notes may stand.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct FloridLengths {
    untied_dotted_half: DottedHalf,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum DottedHalf {
    /// It may stand (Cherubini).
    Admitted,
    /// It is told (Lavignac, Baron).
    Refused,
}

impl Rule for FloridLengths {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(florid) = Florid::of(step.setting) else { return };
        for voice in step.setting.written() {
            let Some(note) = step.struck(voice) else { continue };
            let Some(what) = self.what_is_wrong(step, florid, note) else { continue };
            report.at(voice, note.onset, || {
                Words::new(format!(
                    "{} lasts {} {what}",
                    wording::note_in(step.setting, note),
                    wording::with_article(&note.duration.to_string()),
                ))
            });
        }
    }
}

impl FloridLengths {
    fn what_is_wrong(&self, step: &Step<'_>, florid: Florid, note: Heard) -> Option<&'static str> {
        let is_late = florid.is_weak_quarter(step.within_bar());
        if is_late && note.duration > florid.quarter {
            return Some("and begins on a weak quarter. Begin it on a strong one, or shorten it.");
        }
        let is_refused = self.untied_dotted_half == DottedHalf::Refused;
        (is_refused && is_untied_dotted_half(step, florid, note))
            .then_some("without a tie. Write a half, or tie it over the barline.")
    }
}

fn is_untied_dotted_half(step: &Step<'_>, florid: Florid, note: Heard) -> bool {
    let is_simple = florid.half == florid.quarter * 2;
    let is_dotted_half = note.duration == florid.half + florid.quarter;
    let ends = step.within_bar() + note.duration;
    is_simple && is_dotted_half && ends <= step.setting.bar_length()
}
