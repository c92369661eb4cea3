//! Beams as they are drawn: how one slopes, and how long its stems become. Knows notes by their places and
//! positions only.

use std::ops::Range;

use super::display::{Group, Ink, Kind, Shape};
use super::geometry::Point;
use super::note::{Pointing, default_length};
use super::symbol;

/// The steepest that a beam rises or falls from end to end.
const STEEPEST: f64 = 1.0;
/// How long the stub is that belongs to one note only.
const STUB: f64 = 1.1;

/// A note under a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Beamed {
    /// The middle of its stem.
    pub x: f64,
    /// The height of its head.
    pub head: f64,
    /// How many beams it has, at least 1.
    pub beams: u8,
}

/// The heights at which the stems of a group end.
pub(super) fn tips(notes: &[Beamed], pointing: Pointing) -> Vec<f64> {
    let (Some(first), Some(last)) = (notes.first(), notes.last()) else { return Vec::new() };
    let slope = slope(notes, pointing) / (last.x - first.x).max(1.0);
    let beams = notes.iter().map(|note| note.beams).max().unwrap_or(1);
    let length = default_length(beams);
    let line = |note: &Beamed| slope * (note.x - first.x);
    let starts = notes.iter().map(|note| match pointing {
        Pointing::Up => (note.head - length).min(2.0) - line(note),
        Pointing::Down => (note.head + length).max(2.0) - line(note),
    });
    let start = match pointing {
        Pointing::Up => starts.fold(f64::INFINITY, f64::min),
        Pointing::Down => starts.fold(f64::NEG_INFINITY, f64::max),
    };
    notes.iter().map(|note| start + line(note)).collect()
}

/// How far a beam falls from its first to its last note; it is level where a note between them comes
/// nearer to it than both.
fn slope(notes: &[Beamed], pointing: Pointing) -> f64 {
    let [first, between @ .., last] = notes else { return 0.0 };
    let is_nearer = |note: &Beamed| match pointing {
        Pointing::Up => note.head < first.head.min(last.head),
        Pointing::Down => note.head > first.head.max(last.head),
    };
    if between.iter().any(is_nearer) {
        return 0.0;
    }
    ((last.head - first.head) / 2.0).clamp(-STEEPEST, STEEPEST)
}

/// The beams of a group whose stems end at the tips.
pub(super) fn draw(notes: &[Beamed], tips: &[f64], pointing: Pointing) -> Group {
    let most = notes.iter().map(|note| note.beams).max().unwrap_or(0);
    (1..=most).fold(Group::new(Kind::Beam), |group, level| {
        let stretches = stretches(notes, level);
        stretches.into_iter().fold(group, |group, stretch| {
            group.with(bar(notes, tips, pointing, level, &stretch), Ink::Black)
        })
    })
}

/// The stretches of neighbours that all have so many beams.
fn stretches(notes: &[Beamed], level: u8) -> Vec<Range<usize>> {
    let mut stretches = Vec::new();
    let mut from = 0;
    for run in notes.chunk_by(|a, b| (a.beams >= level) == (b.beams >= level)) {
        if run.first().is_some_and(|note| note.beams >= level) {
            stretches.push(from..from + run.len());
        }
        from += run.len();
    }
    stretches
}

fn bar(
    notes: &[Beamed],
    tips: &[f64],
    pointing: Pointing,
    level: u8,
    stretch: &Range<usize>,
) -> Shape {
    let (first, last) = (stretch.start, stretch.end.saturating_sub(1));
    let half = symbol::STEM / 2.0;
    let (left, right) = match (first == last, first) {
        (false, _) => (notes[first].x - half, notes[last].x + half),
        (true, 0) => (notes[first].x - half, notes[first].x + STUB),
        (true, _) => (notes[first].x - STUB, notes[first].x + half),
    };
    let inwards = match pointing {
        Pointing::Up => 1.0,
        Pointing::Down => -1.0,
    };
    let edge = inwards * f64::from(level - 1) * (symbol::BEAM + symbol::BEAM_GAP);
    let at = |x: f64, beyond: f64| Point::new(x, line_at(notes, tips, x) + edge + beyond);
    let far = inwards * symbol::BEAM;
    Shape::Area(vec![at(left, 0.0), at(right, 0.0), at(right, far), at(left, far)])
}

/// The height of the line through the tips at an x.
fn line_at(notes: &[Beamed], tips: &[f64], x: f64) -> f64 {
    let ends = (notes.first(), notes.last(), tips.first(), tips.last());
    let (Some(first), Some(last), Some(start), Some(end)) = ends else { return 0.0 };
    let width = last.x - first.x;
    if width > 0.0 { start + (end - start) * (x - first.x) / width } else { *start }
}
