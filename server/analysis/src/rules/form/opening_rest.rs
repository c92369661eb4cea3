//! # What it finds
//! A rest anywhere but at the opening, or an opening rest of the wrong length: a half in second
//! and fourth species, a quarter in third, either in fifth.
//!
//! # Why it matters
//! The opening rest lets the second voice enter by itself. Later a rest would tear the line.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | C5      | D5    |  |
//!   tenor   counter | C4 rest | B3 G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | C5      | D5    |  |
//!   tenor   counter | rest C4 | B3 G3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Grove 1883; Lavignac 1895 (2.9, 3.6).
//!
//! # Where schools differ
//! They do not.

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{Heard, LineState, Report, Step, Stroke, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpeningRest {}

impl Rule for OpeningRest {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(species) = step.setting.species else { return };
        for voice in step.setting.written() {
            if falls_silent(step, voice) {
                report.at(voice, step.now.onset, || {
                    let place = wording::place(step.setting, step.now.onset);
                    Words::new(format!(
                        "The voice rests in {place}; only the opening may have a rest. Write a note."
                    ))
                });
            }
            if let Some(note) = enters(step, voice).filter(|note| !is_timely(step, species, *note))
            {
                report.at(voice, note.onset, || {
                    Words::new(format!(
                        "The voice enters with {}; {}.",
                        wording::note_in(step.setting, note),
                        demand(species),
                    ))
                });
            }
        }
    }
}

fn falls_silent(step: &Step<'_>, voice: VoiceId) -> bool {
    let sounded = !matches!(step.before.lines[voice].state, LineState::Silent);
    sounded && matches!(step.now.strokes[voice], Stroke::Rests)
}

/// The very first note of a voice, if it begins now.
fn enters(step: &Step<'_>, voice: VoiceId) -> Option<Heard> {
    let line = step.line(voice);
    let is_first = line.notes().len() == 1 && line.moves.all == 0 && !line.has_gaps;
    step.struck(voice).filter(|_| is_first)
}

fn is_timely(step: &Step<'_>, species: u8, note: Heard) -> bool {
    let bar = step.setting.bar_length();
    let parts: &[u32] = match (species, step.setting.meter.is_triple()) {
        (2 | 4, false) => &[2],
        (2 | 4, true) => &[3],
        (3, false) => &[4],
        (3, true) => &[6],
        (5, false) => &[2, 4],
        (5, true) => &[3, 6],
        _ => &[],
    };
    let allowed = parts.iter().filter_map(|part| bar.divide(*part));
    note.onset == Duration::ZERO || allowed.into_iter().any(|rest| note.onset == rest)
}

fn demand(species: u8) -> &'static str {
    match species {
        1 => "first species begins with both voices",
        2 | 4 => "it may wait for one half of the first bar",
        3 => "it may wait for the first quarter",
        _ => "it may wait for a half or a quarter",
    }
}
