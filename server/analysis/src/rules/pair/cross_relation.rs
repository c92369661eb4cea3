//! # What it finds
//! The same letter with different accidentals in the two voices, one note right after the other; in
//! some schools also a tritone between the voices when two chords in root position follow each other.
//!
//! # Why it matters
//! Each voice contradicts the other; the ear has just fixed the note it then hears altered. A tritone
//! across the voices is as hard to sing, and sounds so where both chords stand firm.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | G4 | B4  | A4 |
//!   tenor   counter |  | B3 | G#3 | A3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | B4  | A4 |
//!   tenor   counter |  | A3 | G#3 | A3 |
//! ```
//!
//! # Sources
//! Lavignac 1895 (10); a lead from memory. The tritone: Lehmann 1907 (13).
//!
//! # Where schools differ
//! Not about altered notes. Lehmann also forbids the tritone between two chords in root position, such
//! as those on the fourth and fifth degrees; with one of them in first inversion it does no harm.
//!
//! # Switches
//! - `tritone`: what is said of a tritone between a note of one voice and the next of the other
//!   - `admitted`: nothing (common practice)
//!   - `refused-between-root-positions`: it is refused between two chords in root position (Lehmann
//!     1907)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Heard, Progression, Report, Sight, Sounded, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What is said of a tritone between the voices.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct CrossRelation {
    tritone: Tritone,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Tritone {
    /// Nothing.
    Admitted,
    /// It is refused between two chords in root position (Lehmann).
    RefusedBetweenRootPositions,
}

impl Rule for CrossRelation {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        for voice in VoiceId::BOTH {
            let (earlier, later) = across(progression, voice);
            if !progression.to.strikes(voice.other()) {
                continue;
            }
            let Some(words) = self.wrong_between(step, progression, earlier, later) else {
                continue;
            };
            report.at(voice.other(), later.onset, || {
                Words::new(format!(
                    "{} {} the {} that the other voice has just sung{}",
                    wording::note_in(step.setting, later),
                    words.0,
                    earlier.pitch,
                    words.1,
                ))
                .with(voice, earlier.onset, "the note before")
            });
        }
    }

    fn sight(&self) -> Sight {
        match self.tritone {
            Tritone::Admitted => Sight::LAST,
            Tritone::RefusedBetweenRootPositions => Sight::of(Trace::Memory),
        }
    }
}

/// What is wrong, and what would mend it.
type Told = (&'static str, &'static str);

const CONTRADICTION: Told =
    ("contradicts", ". Keep one of the two accidentals, or put the note into the same voice.");
const TRITONE: Told =
    ("makes a tritone with", ", both chords being in root position. Make one of the two a sixth.");

impl CrossRelation {
    fn wrong_between(
        &self,
        step: &Step<'_>,
        way: Progression,
        earlier: Heard,
        later: Heard,
    ) -> Option<Told> {
        let is_refused = self.tritone == Tritone::RefusedBetweenRootPositions
            && is_in_root_position(step, way.from)
            && is_in_root_position(step, way.to);
        if contradicts(earlier, later) {
            Some(CONTRADICTION)
        } else {
            let interval = Interval::between(earlier.pitch, later.pitch);
            (is_refused && interval.simple().is_tritone()).then_some(TRITONE)
        }
    }
}

/// The earlier note of a voice and the later note of the other one.
fn across(way: Progression, voice: VoiceId) -> (Heard, Heard) {
    (way.from.notes[voice], way.to.notes[voice.other()])
}

fn contradicts(earlier: Heard, later: Heard) -> bool {
    earlier.pitch.letter() == later.pitch.letter()
        && earlier.pitch.accidental() != later.pitch.accidental()
}

/// A third, a fifth or an octave over its root, as two voices imply it, and no sixth over the same
/// note before.
fn is_in_root_position(step: &Step<'_>, chord: Sounded) -> bool {
    let lower = chord.notes.lower;
    let mut over_lower = step.after.pair.recent().filter(|known| known.notes.lower == lower);
    let is_triad =
        chord.interval().is_consonant() && matches!(chord.simple_number(), 1 | 3 | 5 | 8);
    is_triad && !over_lower.any(|known| known.simple_number() == 6)
}
