//! # What it finds
//! Two or more bars of a line that come again at once, note for note.
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

use crate::judge::{Close, Moment, Report, Sight, Stroke, Words};
use crate::rules::Rule;
use crate::score::{Setting, VoiceId};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Monotony {}

impl Rule for Monotony {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            let bars = bars(close, voice);
            let mut rest = bars.as_slice();
            while !rest.is_empty() {
                let length = repeated(rest);
                if let Some(length) = length {
                    tell(close.setting, voice, &rest[..2 * length], report);
                }
                rest = &rest[length.unwrap_or(1)..];
            }
        }
    }

    fn sight(&self) -> Sight {
        Sight::WHOLE
    }
}

/// One bar of a line.
struct Bar {
    start: Duration,
    /// The notes that begin in it, each with its place; nothing if any of it is not written.
    notes: Option<Vec<(Duration, Pitch)>>,
}

impl Bar {
    fn new(setting: &Setting, voice: VoiceId, moments: &[Moment]) -> Option<Self> {
        let start = moments.first()?.onset;
        let is_open =
            |moment: &Moment| matches!(moment.strokes[voice], Stroke::Unknown | Stroke::Ended);
        let struck = moments.iter().filter_map(|moment| moment.struck(voice));
        let notes = struck.map(|note| (setting.within_bar(note.onset), note.pitch)).collect();
        Some(Self { start, notes: (!moments.iter().any(is_open)).then_some(notes) })
    }
}

fn bars(close: &Close<'_>, voice: VoiceId) -> Vec<Bar> {
    let bar_of = |moment: &Moment| close.setting.bar_of(moment.onset);
    let bars = close.moments.chunk_by(|a, b| bar_of(a) == bar_of(b));
    bars.filter_map(|moments| Bar::new(close.setting, voice, moments)).collect()
}

/// How many of the first bars come again at once.
fn repeated(bars: &[Bar]) -> Option<usize> {
    (2..=bars.len() / 2).find(|length| {
        let (figure, rest) = bars.split_at(*length);
        moves(figure) && figure.iter().zip(rest).all(|(bar, again)| bar.notes == again.notes)
    })
}

/// Whether all bars are written and more than one pitch stands in them.
fn moves(figure: &[Bar]) -> bool {
    let mut pitches: Vec<_> = figure.iter().flat_map(|bar| &bar.notes).flatten().collect();
    pitches.dedup_by_key(|(_, pitch)| *pitch);
    figure.iter().all(|bar| bar.notes.is_some()) && pitches.len() > 1
}

/// Tells of bars whose second half repeats the first.
fn tell(setting: &Setting, voice: VoiceId, bars: &[Bar], report: &mut Report) {
    let (figure, again) = bars.split_at(bars.len() / 2);
    let (Some(first), Some(repeat)) = (figure.first(), again.first()) else { return };
    report.at(voice, repeat.start, || {
        Words::new(format!(
            "Bars {} repeat bars {} note for note. Let the line go on to something else.",
            numbers(setting, again),
            numbers(setting, figure),
        ))
        .with(voice, first.start, "the figure begins here")
    });
}

/// "3 and 4", "3 to 5".
fn numbers(setting: &Setting, figure: &[Bar]) -> String {
    let number = |bar: &Bar| setting.bar_of(bar.start) + 1;
    match figure {
        [first, last] => format!("{} and {}", number(first), number(last)),
        [first, .., last] => format!("{} to {}", number(first), number(last)),
        _ => String::new(),
    }
}
