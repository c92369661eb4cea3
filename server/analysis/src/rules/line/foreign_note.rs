//! # What it finds
//! A note foreign to the key. Free are, as the school says, the raised sixth and seventh degrees,
//! and the flat that a mode admits.
//!
//! # Why it matters
//! The scale is the ground on which the lines meet. A foreign note is heard as a turn to another
//! key, which two short lines cannot carry out.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | D5  | A4 |  |
//!   tenor   counter |  | Bb3 | C4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | D5 | A4 |  |
//!   tenor   counter |  | B3 | C4 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lehmann 1907; Fux 1725, who raises the seventh degree of the mixolydian mode
//! once before the close.
//!
//! # Where schools differ
//! Modal: the leading note is raised at the close only, the sixth degree only before it, and B
//! flat is free in dorian and lydian. Tonal: the raised sixth and seventh degrees of minor are
//! free, the sixth on the way up.

use bicinium_theory::{Direction, Interval, Key, Mode, PitchClass};
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};

/// Which foreign notes are free.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct ForeignNote {
    leading_note: LeadingNote,
    raised_sixth: RaisedSixth,
    flat: Flat,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum LeadingNote {
    /// In the last bar but one (Fux, Open Music Theory).
    AtTheClose,
    /// Anywhere (Lehmann, for minor).
    Anywhere,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RaisedSixth {
    /// Only as the step before the raised seventh (Open Music Theory).
    OnlyToTheSeventh,
    /// Wherever the line goes on upward (Lehmann).
    Upward,
    /// Anywhere.
    Anywhere,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Flat {
    /// The lowered sixth degree in dorian, the lowered fourth in lydian.
    OfTheMode,
    /// None.
    None,
}

impl Rule for ForeignNote {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            if let Some(note) = step.struck(voice).filter(|note| self.is_foreign(step, *note)) {
                report.at(voice, note.onset, || words(step, note));
            }
            let line = step.line(voice);
            let (Some(sixth), Some(next)) = (line.back(1), step.struck(voice)) else { continue };
            if is_raised_sixth(step.setting.key, sixth) && !self.may_go_on(step, sixth, next) {
                report.at(voice, sixth.onset, || words(step, sixth));
            }
        }
    }
}

impl ForeignNote {
    /// Whether a note is foreign by itself; the raised sixth depends on what follows.
    fn is_foreign(&self, step: &Step<'_>, note: Heard) -> bool {
        let key = step.setting.key;
        let class = note.pitch.class();
        let is_close = step.bar() + 2 >= step.setting.bars;
        let is_free = key.contains(class)
            || is_raised_sixth(key, note)
            || (self.flat == Flat::OfTheMode && is_flat_of_mode(key, class))
            || (class == key.leading_note()
                && (self.leading_note == LeadingNote::Anywhere || is_close));
        !is_free
    }

    fn may_go_on(&self, step: &Step<'_>, sixth: Heard, next: Heard) -> bool {
        match self.raised_sixth {
            RaisedSixth::OnlyToTheSeventh => next.pitch.class() == step.setting.key.leading_note(),
            RaisedSixth::Upward => {
                Interval::between(sixth.pitch, next.pitch).direction() == Direction::Up
            }
            RaisedSixth::Anywhere => true,
        }
    }
}

fn is_raised_sixth(key: Key, note: Heard) -> bool {
    let class = note.pitch.class();
    class == key.raised_sixth() && !key.contains(class)
}

fn is_flat_of_mode(key: Key, class: PitchClass) -> bool {
    let degree = key.degree(class);
    let lowered = match key.mode {
        Mode::Dorian => 6,
        Mode::Lydian => 4,
        _ => return false,
    };
    degree.number == lowered && degree.alteration == -1
}

fn words(step: &Step<'_>, note: Heard) -> Words {
    let key = step.setting.key;
    Words::new(format!(
        "{} is foreign to {key}. Write a note of the scale, {}.",
        wording::note_in(step.setting, note),
        key.scale().map(|class| class.to_string()).join(" "),
    ))
}
