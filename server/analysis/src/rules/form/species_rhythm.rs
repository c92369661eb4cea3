//! # What it finds
//! A note that does not have the rhythm of the species: one note a bar in first species, two in
//! second (three in triple time), four in third (six), halves tied over the barline in fourth; in
//! fifth nothing shorter than an eighth.
//!
//! # Why it matters
//! A species is an exercise in one rhythm. What is learned in it is learned because nothing else
//! is allowed.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | E5    | F5 | E5    |  |
//!   tenor   counter |  | C4 B3 | A3 | C4 A3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | E5    | F5    | E5    |  |
//!   tenor   counter |  | C4 B3 | A3 F3 | C4 A3 |  |
//! ```
//!
//! # Sources
//! All treatises.
//!
//! # Where schools differ
//! They do not.

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::Setting;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpeciesRhythm {}

impl Rule for SpeciesRhythm {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(species) = step.setting.species.filter(|_| !step.is_last_bar()) else { return };
        for voice in step.setting.written() {
            let Some(note) = step.struck(voice).filter(|note| !fits(step, species, *note)) else {
                continue;
            };
            report.at(voice, note.onset, || {
                Words::new(format!(
                    "{} lasts a {}; {}.",
                    wording::note_in(step.setting, note),
                    note.duration,
                    demand(step.setting, species),
                ))
            });
        }
    }
}

fn fits(step: &Step<'_>, species: u8, note: Heard) -> bool {
    let setting = step.setting;
    let bar = setting.bar_length();
    let within = setting.within_bar(note.onset);
    let is_penultimate = step.bar() + 2 == setting.bars;
    let is_whole = note.duration == bar && within == Duration::ZERO;
    match species {
        1 => is_whole,
        2 => is_share(setting, note, 2) || (is_penultimate && is_whole),
        3 => is_share(setting, note, 4),
        4 => is_share(setting, note, 2) || (note.duration == bar && within > Duration::ZERO),
        _ => note.duration >= Duration::EIGHTH,
    }
}

/// Whether a note is one of so many equal shares of its bar; in triple time of half as many more.
fn is_share(setting: &Setting, note: Heard, shares: u32) -> bool {
    let share = setting.bar_length().divide(count(setting, shares));
    let within = setting.within_bar(note.onset);
    let aligned = |share: Duration| within.ticks().is_multiple_of(share.ticks().max(1));
    share.is_some_and(|share| note.duration == share && aligned(share))
}

fn count(setting: &Setting, shares: u32) -> u32 {
    if setting.meter.is_triple() { shares + shares / 2 } else { shares }
}

fn demand(setting: &Setting, species: u8) -> String {
    let notes = |shares| match count(setting, shares) {
        2 => "two equal notes",
        3 => "three equal notes",
        4 => "four equal notes",
        _ => "six equal notes",
    };
    match species {
        1 => "first species has one note in every bar".to_owned(),
        2 => format!("second species has {} in every bar", notes(2)),
        3 => format!("third species has {} in every bar", notes(4)),
        4 => "fourth species ties the second note of every bar over the barline".to_owned(),
        _ => "fifth species has nothing shorter than an eighth".to_owned(),
    }
}
