//! # What it finds
//! A note outside the compass of its voice.
//!
//! # Why it matters
//! What is written here is to be sung. Each register has its compass; beyond it a choir voice
//! strains.
//!
//! # Broken
//! ```bicinium
//! key D major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | F#5 | A5 |  |
//!   bass    counter |  | D3  | D2 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key D major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | F#5 | A5  |  |
//!   bass    counter |  | D3  | F#3 |  |
//! ```
//!
//! # Sources
//! A lead from memory for the usual choir registers; the low E of the bass is common practice.
//!
//! # Where schools differ
//! Every rulebook can set its own.

use std::collections::BTreeMap;

use bicinium_theory::Pitch;
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};

/// The lowest and the highest note of each register.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub struct Compass {
    registers: BTreeMap<RegisterName, (Spelt, Spelt)>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RegisterName {
    Soprano,
    Mezzo,
    Alto,
    Tenor,
    Baritone,
    Bass,
}

/// A pitch as a rulebook spells it.
#[derive(Clone, Copy, Debug)]
struct Spelt(Pitch);

impl<'de> Deserialize<'de> for Spelt {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map(Self).map_err(serde::de::Error::custom)
    }
}

impl Rule for Compass {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let register = step.setting.registers[voice];
            let named = self.registers.iter().find(|(name, _)| name.name() == register.name());
            let (Some((_, (low, high))), Some(note)) = (named, step.struck(voice)) else {
                continue;
            };
            if let Some(beyond) = beyond(note, low.0, high.0) {
                report.at(voice, note.onset, || {
                    Words::new(format!(
                        "{} lies {beyond} of the {}, {} to {}. Write it an octave nearer, or \
                         another note.",
                        wording::note_in(step.setting, note),
                        register.name(),
                        low.0,
                        high.0,
                    ))
                });
            }
        }
    }
}

impl RegisterName {
    fn name(self) -> &'static str {
        match self {
            Self::Soprano => "soprano",
            Self::Mezzo => "mezzo",
            Self::Alto => "alto",
            Self::Tenor => "tenor",
            Self::Baritone => "baritone",
            Self::Bass => "bass",
        }
    }
}

fn beyond(note: Heard, low: Pitch, high: Pitch) -> Option<&'static str> {
    if note.pitch < low {
        Some("below the compass")
    } else {
        (note.pitch > high).then_some("above the compass")
    }
}
