//! # What it finds
//! A rest anywhere but at the opening, or an opening rest of the wrong length: a half in second
//! and fourth species, a quarter in third, either in fifth; in other meters, one note of the species.
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
use crate::score::shares::share;
use crate::score::{Setting, VoiceId};

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
                        demand(step.setting, species),
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
    note.onset == Duration::ZERO || rests(step.setting, species).contains(&note.onset)
}

/// The rests that a species may open with.
fn rests(setting: &Setting, species: u8) -> Vec<Duration> {
    let like = match species {
        1 => &[][..],
        5 => &[2, 3],
        _ => &[species],
    };
    like.iter().filter_map(|species| share(setting, *species)).collect()
}

/// "it may wait for a half or a quarter".
fn demand(setting: &Setting, species: u8) -> String {
    let rests = rests(setting, species);
    if rests.is_empty() {
        return "both voices begin together".to_owned();
    }
    let lengths: Vec<_> =
        rests.iter().map(|rest| wording::with_article(&rest.to_string())).collect();
    format!("it may wait for {}", lengths.join(" or "))
}
