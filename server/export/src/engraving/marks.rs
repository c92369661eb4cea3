//! The marks of findings: a number in a frame that tells by its shape how much it matters, even without
//! colour. A fault is a full pennant, a caution an open one, advice a ring; all point to their note.

use bicinium_analysis::finding::Level;

use super::content::Flag;
use super::display::{Group, Ink, Kind, Shape, text_width};
use super::font::Font;
use super::geometry::Point;

/// On which side of its staff a mark stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// Above, pointing down.
    Above,
    /// Below, pointing up.
    Below,
}

/// The em of the number.
const NUMBER: f64 = 1.7;
/// The height of a mark without its point.
const BODY: f64 = 1.9;
/// The height of the point.
const POINT: f64 = 0.6;

/// A mark with its middle at the x zero. Its point is at the height zero.
pub(super) fn mark(flag: Flag, side: Side) -> Group {
    let text = flag.number.to_string();
    let width = text_width(Font::Roman, NUMBER, &text);
    let half = (width / 2.0 + 0.45).max(BODY / 2.0);
    let down = if side == Side::Above { -1.0 } else { 1.0 };
    let center = down * (POINT + BODY / 2.0);
    let ink = ink(flag.level);
    let (frame, letters) = match flag.level {
        Level::Notation | Level::Fault => (Shape::Area(pennant(half, down)), Ink::White),
        Level::Caution => (edge(pennant(half, down), 0.16), ink),
        Level::Advice | Level::Unfinished => (edge(ring(half, center), 0.12), ink),
    };
    let baseline = Point::new(-width / 2.0, center + 0.55);
    let number = Shape::Signs { font: Font::Roman, at: baseline, size: NUMBER, text };
    let mut group = Group::new(Kind::Mark).with(frame, ink).with(number, letters);
    group.label = Some(format!("{} {}", flag.level.name(), flag.number));
    group
}

/// The colour of a level.
pub(super) fn ink(level: Level) -> Ink {
    match level {
        Level::Notation | Level::Fault => Ink::Fault,
        Level::Caution => Ink::Caution,
        Level::Advice | Level::Unfinished => Ink::Advice,
    }
}

fn edge(corners: Vec<Point>, thickness: f64) -> Shape {
    Shape::Edge { corners, thickness }
}

fn pennant(half: f64, down: f64) -> Vec<Point> {
    let (near, far) = (down * POINT, down * (POINT + BODY));
    let corner = |x: f64, y: f64| Point::new(x, y);
    vec![
        corner(0.0, 0.0),
        corner(half, near),
        corner(half, far),
        corner(-half, far),
        corner(-half, near),
    ]
}

/// A ring as a polygon of many corners.
fn ring(half: f64, center: f64) -> Vec<Point> {
    let corner = |nth: u8| {
        let turn = f64::from(nth) / 24.0 * std::f64::consts::TAU;
        Point::new(half * turn.cos(), center + BODY / 2.0 * turn.sin())
    };
    (0..24).map(corner).collect()
}
