//! # What it finds
//! A cantus that differs from its definition, in any one transposition.
//!
//! # Why it matters
//! The cantus is given. What is written against another line is the answer to another question.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! cantus quay
//!   line | C4 | D4 | E4 | D4 | C4 |
//!
//! exercise
//!   rulebook modal
//!   key C ionian
//!   soprano counter     | G4 | F4 | A4 | B4 | C5 |
//!   tenor   cantus quay | C4 | D4 | F4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! cantus quay
//!   line | C4 | D4 | E4 | D4 | C4 |
//!
//! exercise
//!   rulebook modal
//!   key C ionian
//!   soprano counter     | G4 | F4 | G4 | B4 | C5 |
//!   tenor   cantus quay | C4 | D4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! They do not.

use bicinium_theory::Pitch;
use serde::Deserialize;

use crate::judge::{Close, Heard, Report, Sight, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CantusAltered {}

impl Rule for CantusAltered {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let (Some(voice), Some(definition)) = (close.setting.cantus, &close.setting.definition)
        else {
            return;
        };
        let struck: Vec<_> = close.moments.iter().filter_map(|m| m.struck(voice)).collect();
        let bar = |note: &Heard| close.setting.bar_of(note.onset);
        let in_bars = struck.iter().map(|note| (bar(note), note.pitch));
        let Some(by) = definition.transposition(in_bars) else { return };
        for note in &struck {
            let meant = definition.note_in(bar(note), by);
            if meant != Some(note.pitch) {
                tell(close, voice, *note, meant, report);
            }
        }
        too_short(close, voice, &struck, definition.notes.len(), report);
    }

    fn sight(&self) -> Sight {
        Sight::of(Trace::Cantus)
    }
}

fn tell(close: &Close<'_>, voice: VoiceId, note: Heard, meant: Option<Pitch>, report: &mut Report) {
    report.at(voice, note.onset, || {
        let place = wording::place(close.setting, note.onset);
        let remedy = match meant {
            Some(pitch) => format!("the definition has {pitch}"),
            None => "the definition has ended".to_owned(),
        };
        Words::new(format!("The cantus is altered: {} in {place}, where {remedy}.", note.pitch))
    });
}

fn too_short(
    close: &Close<'_>,
    voice: VoiceId,
    struck: &[Heard],
    length: usize,
    report: &mut Report,
) {
    let bars = close.setting.bars_of[voice] as usize;
    let (Some(last), true) = (struck.last(), bars < length) else { return };
    report.at(voice, last.onset, || {
        let noun = if bars == 1 { "bar" } else { "bars" };
        Words::new(format!(
            "The cantus breaks off after {bars} {noun}; its definition has {length}."
        ))
    });
}
