//! # What it finds
//! In fifth species, one rhythm for more than a bar and a half: notes of one length that are those
//! of first, second, third or fourth species.
//!
//! # Why it matters
//! Florid counterpoint mixes the species. A line that stays in one of them has left the fifth.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - B4 A4 | G4 A4 B4 C5 | B4 C5 D5 - | - C5 |  |
//!   tenor   cantus  |  | A3         | E4          | G3         | A3   |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - B4 A4 | G4 A4 B4 C5 | B4 - D5 - | - C5 |  |
//!   tenor   cantus  |  | A3         | E4          | G3        | A3   |  |
//! ```
//!
//! # Sources
//! Lehmann 1907. Fux 1725 has eight and nine quarters running now and then.
//!
//! # Where schools differ
//! How long a rhythm may last.
//!
//! # Switches
//! - `half-bars`: how many halves of a bar one rhythm may last, a number
//!   - `3`: a bar and a half (Lehmann 1907)

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{Heard, LineMemory, Matter, Report, Sight, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::Setting;
use crate::score::shares::Florid;

/// How long one rhythm may last.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct RhythmRun {
    half_bars: u32,
}

impl Rule for RhythmRun {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(florid) = Florid::of(step.setting) else { return };
        for voice in step.setting.written() {
            let line = &step.before.lines[voice];
            let (Some(_), Some(last)) = (step.struck(voice), line.last()) else { continue };
            let length = last.duration;
            let is_of_a_species = is_of_a_species(step.setting, florid, length);
            let run = length * equal_lengths(line);
            if !is_of_a_species || !self.is_just_exceeded(step.setting, run, length) {
                continue;
            }
            report.at(voice, last.onset, || words(step.setting, line, last));
        }
    }

    fn sight(&self) -> Sight {
        Sight::of(Trace::Memory)
    }

    fn matter(&self) -> Matter {
        Matter::Rhythm
    }
}

impl RhythmRun {
    /// Whether a run is too long with its last note and is not without it.
    fn is_just_exceeded(&self, setting: &Setting, run: Duration, last: Duration) -> bool {
        let at_most = setting.bar_length() * self.half_bars;
        run * 2 > at_most && (run - last) * 2 <= at_most
    }
}

fn is_of_a_species(setting: &Setting, florid: Florid, length: Duration) -> bool {
    [florid.quarter, florid.half, setting.bar_length()].contains(&length)
}

/// How many notes at the end of a line have the length of the last.
fn equal_lengths(line: &LineMemory) -> u32 {
    let mut lengths = line.notes().iter().rev().map(|note| note.duration);
    let last = lengths.next();
    let count = lengths.take_while(|length| Some(*length) == last).count() + 1;
    u32::try_from(count).unwrap_or(u32::MAX)
}

fn words(setting: &Setting, line: &LineMemory, last: Heard) -> Words {
    Words::new(format!(
        "Up to {} the line moves in {} notes running, each {}. Mix in another rhythm.",
        wording::note_in(setting, last),
        equal_lengths(line),
        wording::with_article(&last.duration.to_string()),
    ))
}
