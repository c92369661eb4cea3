//! # What it finds
//! An opening that does not establish the tonic: with the counter above, an interval other than
//! unison, fifth or octave; with the counter below, one other than unison or octave.
//!
//! # Why it matters
//! The first harmony says what the home of the music is. A third or sixth, or a lower voice off
//! the tonic, leaves it open.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | B4 |  |
//!   tenor   counter | A3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | B4 |  |
//!   tenor   counter | C4 | G3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Cherubini 1835 (1); Lavignac 1895 (2); Lehmann 1907; below: Bridge 1877,
//! York, common practice.
//!
//! # Where schools differ
//! They do not, where both voices begin together; after a rest see opening-after-rest.

use bicinium_theory::{Duration, PerfectClass};
use serde::Deserialize;

use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpeningInterval {}

impl Rule for OpeningInterval {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let (Some(cantus), Some(now)) = (step.setting.cantus, step.sounded()) else { return };
        if step.now.onset != Duration::ZERO || is_good(now, cantus) {
            return;
        }
        let counter = cantus.other();
        report.at(counter, now.onset, || {
            let wanted = match counter {
                VoiceId::Upper => "a unison, fifth or octave over the cantus",
                VoiceId::Lower => "the tonic, a unison or octave under the cantus",
            };
            Words::new(format!(
                "The opening is {}, {} over {}. Begin with {wanted}.",
                wording::an_interval(now.interval()),
                now.notes.upper.pitch,
                now.notes.lower.pitch,
            ))
            .with(cantus, now.onset, "the first note of the cantus")
        });
    }
}

fn is_good(now: Sounded, cantus: VoiceId) -> bool {
    match (now.perfect(), cantus) {
        (Some(PerfectClass::Octave), _) => true,
        (Some(PerfectClass::Fifth), VoiceId::Lower) => now.bass() == VoiceId::Lower,
        _ => false,
    }
}
