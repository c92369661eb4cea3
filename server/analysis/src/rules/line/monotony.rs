//! # What it finds
//! Two bars of a line that come again at once, note for note.
//!
//! # Why it matters
//! A figure that is only repeated says nothing new; the line waits instead of going on.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key F lydian
//!
//! exercise
//!   species 1
//!   soprano counter |  | A4 | C5 | A4 | C5 |  |
//!   tenor   cantus  |  | C4 | A3 | F4 | E4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key F lydian
//!
//! exercise
//!   species 1
//!   soprano counter |  | A4 | C5 | A4 | B4 |  |
//!   tenor   cantus  |  | C4 | A3 | F4 | E4 |  |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use bicinium_theory::{Duration, Pitch};
use serde::Deserialize;

use crate::judge::{Close, Heard, Report, Words};
use crate::rules::{Rule, wording};
use crate::score::Setting;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Monotony {}

impl Rule for Monotony {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            let notes: Vec<_> = close.moments.iter().filter_map(|m| m.struck(voice)).collect();
            let bars = (0..close.setting.bars.saturating_sub(3)).filter(|bar| {
                let first = figure(close.setting, &notes, *bar);
                first.len() > 1 && first == figure(close.setting, &notes, bar + 2)
            });
            for bar in bars {
                report.at(voice, close.setting.bar_start(bar + 2), || {
                    let (first, last) = (bar + 1, bar + 2);
                    let words = Words::new(format!(
                        "Bars {} and {} repeat bars {first} and {last} note for note. Let the line \
                         go on to something else.",
                        bar + 3,
                        bar + 4,
                    ));
                    let onset = close.setting.bar_start(bar);
                    words.with(voice, onset, wording::place(close.setting, onset))
                });
            }
        }
    }
}

/// What two bars are made of, each note with its place.
fn figure(setting: &Setting, notes: &[Heard], bar: u32) -> Vec<(Duration, Pitch)> {
    let (start, end) = (setting.bar_start(bar), setting.bar_start(bar + 2));
    let inside = notes.iter().filter(|note| start <= note.onset && note.onset < end);
    inside.map(|note| (note.onset - start, note.pitch)).collect()
}
