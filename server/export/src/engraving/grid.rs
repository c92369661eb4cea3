//! Where the bars and columns of a system stand. Knows positions, not what is drawn.

use std::ops::Range;

use super::spacing::{self, Gap, Room};

/// The bars of a system.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Grid {
    /// The bars, in order.
    pub bars: Vec<Span>,
}

/// A bar.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Span {
    /// Which bar of the exercise it is, counted from 0.
    pub index: usize,
    /// Where it begins.
    pub left: f64,
    /// The left edges of the heads in its columns.
    pub columns: Vec<f64>,
    /// Where it ends: the right edge of its barline.
    pub right: f64,
}

/// The bars that share a system, and the room they have.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Place {
    /// The bars.
    pub bars: Range<usize>,
    /// Where the first begins.
    pub left: f64,
    /// Where the last ends.
    pub right: f64,
    /// Whether it is the last system, which need not fill its width.
    pub is_last: bool,
}

/// A last system that would have to be stretched more than this stays short.
const LOOSE: f64 = 1.9;
/// How far a short system is stretched.
const EASY: f64 = 1.3;

impl Grid {
    /// Sets the bars into their place.
    pub fn new(rooms: &[Room], place: &Place) -> Self {
        let rooms = &rooms[place.bars.clone()];
        let gaps: Vec<Gap> = rooms.iter().flat_map(|room| &room.gaps).copied().collect();
        let widths = widths(&gaps, place);
        let mut x = place.left;
        let mut widths = widths.into_iter();
        let span = |(index, room): (usize, &Room)| {
            let left = x;
            let mut edges = widths.by_ref().take(room.gaps.len()).map(|width| {
                x += width;
                x
            });
            let columns: Vec<_> = edges.by_ref().take(room.gaps.len() - 1).collect();
            let right = edges.next().unwrap_or(left);
            Span { index, left, columns, right }
        };
        Self { bars: place.bars.clone().zip(rooms).map(span).collect() }
    }

    /// Where the last bar ends.
    pub fn right(&self) -> f64 {
        self.bars.last().map_or(0.0, |bar| bar.right)
    }
}

fn widths(gaps: &[Gap], place: &Place) -> Vec<f64> {
    let width = place.right - place.left;
    let is_loose = spacing::stretch_to(gaps, width).is_some_and(|stretch| stretch > LOOSE);
    if place.is_last && is_loose {
        return gaps.iter().map(|gap| gap.at(EASY)).collect();
    }
    spacing::filled(gaps, width)
}
