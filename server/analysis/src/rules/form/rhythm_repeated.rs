//! # What it finds
//! In fifth species, a bar whose notes begin at the same places as those of the bar before.
//!
//! # Why it matters
//! Florid counterpoint lives by change. Two bars in one rhythm sound like a pattern.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - B4 A4 | G4 - A4 B4 | C5 A4 |  |
//!   tenor   cantus  |  | A3         | E3         | A3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - B4 A4 | G4 A4 B4 G4 | C5 A4 |  |
//!   tenor   cantus  |  | A3         | E3          | A3    |  |
//! ```
//!
//! # Sources
//! Baron. Fux 1725 has three bars alike once.
//!
//! # Where schools differ
//! Strict teaching asks for the change unless there is a reason; elsewhere it is advice.

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{LineMemory, Matter, Report, Sight, Step, Words};
use crate::rules::Rule;
use crate::score::Setting;
use crate::score::shares::Florid;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RhythmRepeated {}

impl Rule for RhythmRepeated {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_florid = Florid::of(step.setting).is_some();
        let Some(earlier) = step.bar().checked_sub(2).filter(|_| is_florid) else { return };
        if !step.is_downbeat() {
            return;
        }
        for voice in step.setting.written() {
            let line = &step.before.lines[voice];
            if !is_known_from(line, step.setting.bar_start(earlier)) {
                continue;
            }
            let later = earlier + 1;
            if rhythm(step.setting, line, earlier) == rhythm(step.setting, line, later) {
                report.at(voice, step.setting.bar_start(later), || {
                    Words::new(format!(
                        "Bar {} has the rhythm of bar {}. Change one of the two.",
                        later + 1,
                        earlier + 1,
                    ))
                });
            }
        }
    }

    fn sight(&self) -> Sight {
        Sight::bars(2)
    }

    fn matter(&self) -> Matter {
        Matter::Rhythm
    }
}

/// Whether all of a line is remembered from an instant on.
fn is_known_from(line: &LineMemory, instant: Duration) -> bool {
    line.notes().first().is_some_and(|first| first.onset <= instant)
}

/// Where notes begin in a bar, counted from 0.
fn rhythm(setting: &Setting, line: &LineMemory, bar: u32) -> Vec<Duration> {
    let in_bar = line.notes().iter().filter(|note| setting.bar_of(note.onset) == bar);
    in_bar.map(|note| setting.within_bar(note.onset)).collect()
}
