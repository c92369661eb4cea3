//! # What it finds
//! A note that does not have the rhythm of the species: one note a bar in first species, two in
//! second (three in triple time), four in third (six in bars of three or six beats), halves tied
//! over the barline in fourth; in fifth nothing shorter than an eighth
//! where third species has quarters.
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
use crate::score::shares::{Florid, count, is_on, share};

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
                    "{} lasts {}; {}.",
                    wording::note_in(step.setting, note),
                    wording::with_article(&note.duration.to_string()),
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
        2 => is_share(setting, note, species) || (is_penultimate && is_whole),
        3 => is_share(setting, note, species),
        4 => is_share(setting, note, species) || is_tied_over(setting, note, species),
        _ => Florid::of(setting).is_none_or(|florid| note.duration >= florid.eighth),
    }
}

/// Whether a note is one of the equal shares of its bar.
fn is_share(setting: &Setting, note: Heard, species: u8) -> bool {
    share(setting, species)
        .is_some_and(|share| note.duration == share && is_on(setting.within_bar(note.onset), share))
}

/// Whether a note begins on a later share of its bar and is tied over the barline, so that it ends
/// before the same place of the next bar.
fn is_tied_over(setting: &Setting, note: Heard, species: u8) -> bool {
    let bar = setting.bar_length();
    let within = setting.within_bar(note.onset);
    let fits = |share| is_on(within, share) && is_on(note.duration, share);
    let crosses = within + note.duration > bar;
    crosses && note.duration <= bar && share(setting, species).is_some_and(fits)
}

fn demand(setting: &Setting, species: u8) -> String {
    let notes = match count(setting, species) {
        2 => "two equal notes",
        3 => "three equal notes",
        4 => "four equal notes",
        6 => "six equal notes",
        _ => "nine equal notes",
    };
    match species {
        1 => "first species has one note in every bar".to_owned(),
        2 => format!("second species has {notes} in every bar"),
        3 => format!("third species has {notes} in every bar"),
        4 => "fourth species ties the second note of every bar over the barline".to_owned(),
        _ => "fifth species has nothing shorter than half a note of third species".to_owned(),
    }
}
