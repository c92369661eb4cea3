//! # What it finds
//! A first note after an opening rest that does not make the consonance the school asks for. Where
//! that is a perfect one, a counter below enters on the octave or the tonic.
//!
//! # Why it matters
//! The entry of the second voice is heard by itself; a perfect consonance makes it clear.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  | C5      | D5    |  |
//!   tenor   counter | rest A3 | B3 G3 |  |
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
//! Cherubini 1835 (14), Lavignac 1895, Bridge 1877: perfect. Lehmann 1907: any consonance.
//!
//! # Where schools differ
//! Perfect, or any consonance.
//!
//! # Switches
//! - `enters-with`: what the first note after an opening rest makes with the cantus
//!   - `a-perfect-consonance`: a unison or octave; above the cantus and on the tonic also a fifth
//!     (Cherubini 1835; Grove 1883; Lavignac 1895; Bridge 1877)
//!   - `any-consonance`: any consonance (Lehmann 1907)

use bicinium_theory::{Duration, PerfectClass};
use serde::Deserialize;

use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What the entry after a rest may be.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct OpeningAfterRest {
    enters_with: Entry,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Entry {
    /// A unison or octave; above the cantus and on the tonic also a fifth (Cherubini, Grove, Lavignac, Bridge).
    APerfectConsonance,
    /// Any consonance (Lehmann).
    AnyConsonance,
}

impl Rule for OpeningAfterRest {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let (Some(cantus), Some(now)) = (step.setting.cantus, step.sounded()) else { return };
        let line = step.line(cantus.other());
        let is_first = line.moves.all == 0 && !line.has_gaps;
        let after_rest = step.bar() == 0 && now.onset > Duration::ZERO;
        if !is_first
            || !after_rest
            || !now.strikes(cantus.other())
            || self.admits(step, now, cantus)
        {
            return;
        }
        report.at(cantus.other(), now.onset, || {
            let wanted = match (self.enters_with, cantus) {
                (Entry::APerfectConsonance, VoiceId::Lower) => "a unison, fifth or octave",
                (Entry::APerfectConsonance, VoiceId::Upper) => "a unison or octave",
                (Entry::AnyConsonance, _) => "a consonance",
            };
            Words::new(format!(
                "After the rest the counter enters with {}, {} over {}. Enter with {wanted}.",
                wording::an_interval(now.interval()),
                now.notes.upper.pitch,
                now.notes.lower.pitch,
            ))
            .with(cantus, now.notes[cantus].onset, "what it enters against")
        });
    }
}

impl OpeningAfterRest {
    fn admits(&self, step: &Step<'_>, now: Sounded, cantus: VoiceId) -> bool {
        match (self.enters_with, now.perfect()) {
            (Entry::APerfectConsonance, Some(PerfectClass::Octave)) => true,
            (Entry::APerfectConsonance, Some(PerfectClass::Fifth)) => {
                let bass = now.notes.lower.pitch.class();
                cantus == VoiceId::Lower || bass == step.setting.key.tonic
            }
            (Entry::APerfectConsonance, None) => false,
            (Entry::AnyConsonance, _) => now.interval().is_consonant(),
        }
    }
}
