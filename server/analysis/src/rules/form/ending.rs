//! # What it finds
//! An end that is not an octave or unison on the final, or a voice that does not come to it by
//! step.
//!
//! # Why it matters
//! The two lines close upon one note, each from its neighbour; anything else leaves the end open.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | B4 | E5 |
//!   tenor   cantus  |  | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | B4 | C5 |
//!   tenor   cantus  |  | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory; Lavignac 1895 (3); Fux 1725 ends all examples so. The fall 5–1 in the lower
//! voice: Lehmann 1907, common practice. The fifth degree before the last note of the upper voice:
//! Lehmann 1907 (32).
//!
//! # Where schools differ
//! Conservatoire teaching lets the lower voice also fall from the fifth degree to the first; Lehmann
//! lets the upper voice rise from it.
//!
//! # Switches
//! - `upper-voice`: how the upper voice comes to the final
//!   - `by-step`: by step (Open Music Theory; Lavignac 1895; Fux 1725)
//!   - `by-step-or-from-the-fifth`: by step, or from the fifth degree (Lehmann 1907)
//!   - `in-any-way`: in any way (common practice, before close and cadence are taught)
//! - `lower-voice`: how the lower voice comes to the final
//!   - `by-step`: by step (Open Music Theory; Lavignac 1895; Fux 1725)
//!   - `by-step-or-from-the-fifth`: by step, or from the fifth degree (Lehmann 1907; common
//!     practice)
//!   - `in-any-way`: in any way (common practice, before close and cadence are taught)

use bicinium_theory::{Interval, PerfectClass};
use serde::Deserialize;

use crate::judge::{Heard, Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// How each voice may come to the final.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Ending {
    upper_voice: Approach,
    lower_voice: Approach,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Approach {
    /// By step.
    ByStep,
    /// By step, or from the fifth degree.
    ByStepOrFromTheFifth,
    /// In any way.
    InAnyWay,
}

impl Rule for Ending {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_end = step.is_last_bar() && step.is_downbeat() && step.bar() > 0;
        let Some(now) = step.sounded().filter(|_| is_end) else { return };
        if !is_on_final(step, now) {
            return off_final(step, now, report);
        }
        for voice in step.setting.written() {
            self.approach(step, voice, report);
        }
    }
}

impl Ending {
    fn admits(&self, step: &Step<'_>, voice: VoiceId, (from, interval): (Heard, Interval)) -> bool {
        let approach = match voice {
            VoiceId::Upper => self.upper_voice,
            VoiceId::Lower => self.lower_voice,
        };
        let from_fifth = step.setting.key.degree(from.pitch.class()).number == 5;
        match approach {
            Approach::ByStep => interval.is_step(),
            Approach::ByStepOrFromTheFifth => interval.is_step() || from_fifth,
            Approach::InAnyWay => true,
        }
    }

    fn approach(&self, step: &Step<'_>, voice: VoiceId, report: &mut Report) {
        let Some((from, to, interval)) = step.entered(voice) else { return };
        if self.admits(step, voice, (from, interval)) {
            return;
        }
        report.at(voice, to.onset, || {
            Words::new(format!(
                "The voice comes to its last note by {}, {}. Come to it by step.",
                wording::an_interval(interval),
                wording::from_to(from, to),
            ))
            .with(voice, from.onset, "the note before")
        });
    }
}

fn is_on_final(step: &Step<'_>, now: Sounded) -> bool {
    let tonic = step.setting.key.tonic;
    now.perfect() == Some(PerfectClass::Octave) && now.notes.lower.pitch.class() == tonic
}

fn off_final(step: &Step<'_>, now: Sounded, report: &mut Report) {
    report.together(now.onset, || {
        Words::new(format!(
            "The end is {}, {} over {}. End on a unison or octave of {}.",
            wording::an_interval(now.interval()),
            now.notes.upper.pitch,
            now.notes.lower.pitch,
            step.setting.key.tonic,
        ))
        .with(VoiceId::Upper, now.onset, "the last note of the other voice")
    });
}
