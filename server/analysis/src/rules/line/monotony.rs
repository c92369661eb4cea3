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

use std::ops::Range;

use bicinium_theory::{Duration, Pitch};
use rustc_hash::{FxBuildHasher, FxHashMap};
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
            let line = Written::of(close, voice);
            let mut at = 0;
            while at < line.bars.len() {
                let length = line.repeated(at);
                if let Some(length) = length {
                    tell(close.setting, voice, &line.bars[at..at + 2 * length], report);
                }
                at += length.unwrap_or(1);
            }
        }
    }

    fn sight(&self) -> Sight {
        Sight::WHOLE
    }
}

/// The bars of a line.
struct Written {
    bars: Vec<Bar>,
    /// For each bar a number that those alone share which are written alike.
    faces: Vec<usize>,
    /// For each note, the next one of another pitch.
    next_other: Vec<usize>,
    /// For each bar, the next one that looks the same as it does, the bar behind included.
    next_alike: Vec<Option<usize>>,
}

/// One bar of a line.
struct Bar {
    start: Duration,
    /// The numbers of the notes that begin in it.
    notes: Range<usize>,
    /// Whether all of it is written.
    is_written: bool,
}

/// A note with its place in its bar.
type Placed = (Duration, Pitch);

impl Written {
    fn of(close: &Close<'_>, voice: VoiceId) -> Self {
        let setting = close.setting;
        let bar_of = |moment: &Moment| setting.bar_of(moment.onset);
        let count = close.moments.len();
        let (mut bars, mut notes) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for moments in close.moments.chunk_by(|a, b| bar_of(a) == bar_of(b)) {
            let first = notes.len();
            let struck = moments.iter().filter_map(|moment| moment.struck(voice));
            notes.extend(struck.map(|note| (setting.within_bar(note.onset), note.pitch)));
            let is_open =
                |it: &Moment| matches!(it.strokes[voice], Stroke::Unknown | Stroke::Ended);
            bars.push(Bar {
                start: moments[0].onset,
                notes: first..notes.len(),
                is_written: !moments.iter().any(is_open),
            });
        }
        let faces = faces(&bars, &notes);
        let (next_other, next_alike) = (next_other(&notes), next_alike(&faces));
        Self { bars, faces, next_other, next_alike }
    }

    /// How many bars from one on come again at once.
    fn repeated(&self, at: usize) -> Option<usize> {
        let later = std::iter::successors(self.next_alike[at], |next| self.next_alike[*next]);
        let lengths = later.map(|next| next - at).take_while(|it| at + 2 * it <= self.bars.len());
        let comes_again = |length: &usize| {
            let (figure, again) = self.faces[at..at + 2 * length].split_at(*length);
            figure == again && self.moves(at..at + length)
        };
        lengths.filter(|length| *length > 1).find(comes_again)
    }

    /// Whether more than one pitch stands in some bars.
    fn moves(&self, bars: Range<usize>) -> bool {
        let notes = self.bars[bars.start].notes.start..self.bars[bars.end - 1].notes.end;
        self.next_other.get(notes.start).is_some_and(|other| *other < notes.end)
    }
}

/// For each bar a number that those alone share which are written alike; one that is not written whole is
/// like no other.
fn faces(bars: &[Bar], notes: &[Placed]) -> Vec<usize> {
    let mut known = FxHashMap::with_capacity_and_hasher(bars.len(), FxBuildHasher);
    let first = |(number, bar): (usize, &Bar)| {
        let notes = Some(&notes[bar.notes.clone()]).filter(|_| bar.is_written);
        notes.map_or(number, |notes| *known.entry(notes).or_insert(number))
    };
    bars.iter().enumerate().map(first).collect()
}

/// For each bar, the next one that looks the same as it does, the bar behind included.
fn next_alike(faces: &[usize]) -> Vec<Option<usize>> {
    let mut places = FxHashMap::with_capacity_and_hasher(faces.len(), FxBuildHasher);
    let mut next = vec![None; faces.len()];
    for (at, pair) in faces.windows(2).enumerate().rev() {
        next[at] = places.insert((pair[0], pair[1]), at);
    }
    next
}

/// For each note, the number of the next one of another pitch; their count if there is none.
fn next_other(notes: &[Placed]) -> Vec<usize> {
    let mut next = vec![notes.len(); notes.len()];
    for (at, pair) in notes.windows(2).enumerate().rev() {
        next[at] = if pair[0].1 == pair[1].1 { next[at + 1] } else { at + 1 };
    }
    next
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
