//! Ties: bows from head to head, and from or to the edge of a system. Knows no durations.

use super::display::{Group, Ink, Kind, Shape};
use super::geometry::Point;
use super::note::Pointing;

/// Distance of a tie from the middle of a head.
const OFF: f64 = 0.62;
/// Distance of a tie from the edges of the heads.
const CLEAR: f64 = 0.15;

/// A tie between two edges at the height of a head, on the side that the stem does not take.
pub(super) fn tie(left: f64, right: f64, head: f64, stem: Pointing) -> Group {
    let (from, to) = (left + CLEAR, right - CLEAR);
    let (from, to) = if to > from { (from, to) } else { (left, right.max(left)) };
    let height = (0.45 + 0.05 * (to - from)).min(1.3);
    let side = if stem == Pointing::Up { 1.0 } else { -1.0 };
    let y = head + side * OFF;
    let bow = Shape::Bow { from: Point::new(from, y), to: Point::new(to, y), rise: side * height };
    Group::new(Kind::Tie).with(bow, Ink::Black)
}
