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
//! Modal: the leading note is raised at the close only, and never in phrygian, the sixth degree
//! only before it, and B flat is free in dorian and lydian. Tonal: the raised sixth and seventh
//! degrees of minor are free, the sixth on the way up.
//!
//! # Switches
//! - `leading-note`: where the raised seventh degree is free
//!   - `at-the-close`: in the last two bars, in all modes but the phrygian (Fux 1725; Open Music
//!     Theory)
//!   - `anywhere`: anywhere, in all modes but the phrygian (Lehmann 1907, for minor)
//! - `raised-sixth`: where the raised sixth degree is free
//!   - `only-to-the-seventh`: before the raised seventh (Open Music Theory)
//!   - `upward`: wherever the line goes on upward (Lehmann 1907)
//!   - `anywhere`: anywhere (from memory)
//! - `flat`: which flat is free
//!   - `of-the-mode`: the lowered sixth degree in dorian and the lowered fourth in lydian (Open
//!     Music Theory; Fux 1725)
//!   - `none`: none (common practice)

use bicinium_theory::{Direction, Interval, Key, Mode, PitchClass};
use serde::Deserialize;

use crate::judge::{Close, Heard, Report, Step, Stroke, Words};
use crate::rules::{Rule, wording};
use crate::score::Setting;

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
    /// In the last two bars, in all modes but the phrygian (Fux, Open Music Theory).
    AtTheClose,
    /// Anywhere, in all modes but the phrygian (Lehmann, for minor).
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
                report.at(voice, note.onset, || foreign(step.setting, note));
            }
            let left = step.before.lines[voice].last();
            let Some(sixth) = left.filter(|note| is_raised_sixth(step.setting.key, *note)) else {
                continue;
            };
            if !self.may_be_left(sixth, step.now.strokes[voice], step.setting.key) {
                report.at(voice, sixth.onset, || self.stray_sixth(step.setting, sixth));
            }
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written().filter(|voice| close.is_ended(*voice)) {
            let last = close.memory.lines[voice].last();
            let sixth = last.filter(|note| is_raised_sixth(close.setting.key, *note));
            if let Some(sixth) = sixth.filter(|_| self.raised_sixth != RaisedSixth::Anywhere) {
                report.at(voice, sixth.onset, || self.stray_sixth(close.setting, sixth));
            }
        }
    }
}

impl ForeignNote {
    /// Whether a note is foreign by itself; the raised sixth depends on what follows.
    fn is_foreign(&self, step: &Step<'_>, note: Heard) -> bool {
        let key = step.setting.key;
        let class = note.pitch.class();
        let is_free = key.contains(class)
            || is_raised_sixth(key, note)
            || (self.flat == Flat::OfTheMode && is_flat_of_mode(key, class))
            || (class == key.leading_note() && self.admits_leading_note(step));
        !is_free
    }

    fn admits_leading_note(&self, step: &Step<'_>) -> bool {
        let is_in_time = match self.leading_note {
            LeadingNote::AtTheClose => step.bar() + 2 >= step.setting.bars,
            LeadingNote::Anywhere => true,
        };
        is_in_time && raises(step.setting.key)
    }

    /// Whether a raised sixth may be followed by what its voice does next.
    fn may_be_left(&self, sixth: Heard, next: Stroke, key: Key) -> bool {
        match (self.raised_sixth, next) {
            (RaisedSixth::Anywhere, _) | (_, Stroke::Holds | Stroke::Unknown | Stroke::Ended) => {
                true
            }
            (_, Stroke::Rests) => false,
            (RaisedSixth::OnlyToTheSeventh, Stroke::Strikes(next)) => {
                next.pitch.class() == key.leading_note()
            }
            (RaisedSixth::Upward, Stroke::Strikes(next)) => {
                Interval::between(sixth.pitch, next.pitch).direction() == Direction::Up
            }
        }
    }

    fn stray_sixth(&self, setting: &Setting, sixth: Heard) -> Words {
        let key = setting.key;
        let way = match self.raised_sixth {
            RaisedSixth::OnlyToTheSeventh => format!("to {}", key.leading_note()),
            RaisedSixth::Upward | RaisedSixth::Anywhere => "upward".to_owned(),
        };
        Words::new(format!(
            "{} is the raised sixth degree of {key} and does not lead {way}. Lead it there, or \
             write {}.",
            wording::note_in(setting, sixth),
            key.scale()[5],
        ))
    }
}

/// Whether a key raises its sixth and seventh degrees: the phrygian mode closes from above.
fn raises(key: Key) -> bool {
    key.mode != Mode::Phrygian
}

fn is_raised_sixth(key: Key, note: Heard) -> bool {
    let class = note.pitch.class();
    raises(key) && class == key.raised_sixth() && !key.contains(class)
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

fn foreign(setting: &Setting, note: Heard) -> Words {
    let key = setting.key;
    Words::new(format!(
        "{} is foreign to {key}. Write a note of the scale, {}.",
        wording::note_in(setting, note),
        key.scale().map(|class| class.to_string()).join(" "),
    ))
}
