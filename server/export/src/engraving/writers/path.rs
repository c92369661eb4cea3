//! Shapes as outlines, for writers that draw nothing else. Knows no format.

use crate::engraving::display::{Inked, Shape};
use crate::engraving::font::{Font, Stroke};
use crate::engraving::geometry::Point;

/// A sign of a font at its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Set {
    /// The font.
    pub font: Font,
    /// The sign.
    pub sign: char,
    /// Where it has its origin.
    pub at: Point,
    /// The em.
    pub size: f64,
}

/// How thick a bow is in its middle and at its ends (metadata of Bravura 1.392).
const BOW: [f64; 2] = [0.22, 0.1];

/// The signs of a shape, one by one; none of what is no row of signs.
pub(super) fn signs(shape: &Shape) -> impl Iterator<Item = Set> + '_ {
    let (font, at, size, text) = match shape {
        Shape::Signs { font, at, size, text } => (*font, *at, *size, text.as_str()),
        _ => (Font::Roman, Point::default(), 0.0, ""),
    };
    let mut x = at.x;
    text.chars().map(move |sign| {
        let set = Set { font, sign, at: Point::new(x, at.y), size };
        x += font.advance(sign) * size;
        set
    })
}

/// The outline of a shape that is no row of signs; empty of one that is.
pub(super) fn outline(shape: &Shape) -> Vec<Stroke> {
    match shape {
        Shape::Signs { .. } => Vec::new(),
        Shape::Bar(rect) => polygon(&[
            Point::new(rect.left, rect.top),
            Point::new(rect.right, rect.top),
            Point::new(rect.right, rect.bottom),
            Point::new(rect.left, rect.bottom),
        ]),
        Shape::Area(corners) | Shape::Edge { corners, .. } => polygon(corners),
        Shape::Bow { from, to, rise } => bow(*from, *to, *rise),
    }
}

/// How thick the outline is drawn; nothing where what it holds is filled.
pub(super) fn thickness(inked: &Inked) -> Option<f64> {
    match inked.shape {
        Shape::Edge { thickness, .. } => Some(thickness),
        _ => None,
    }
}

/// The outline of a sign at its place.
pub(super) fn placed(set: &Set) -> Vec<Stroke> {
    let put = |it: Point| Point::new(set.at.x + it.x * set.size, set.at.y + it.y * set.size);
    let outline = set.font.outline(set.sign).into_iter();
    let stroke = |stroke| match stroke {
        Stroke::Move(to) => Stroke::Move(put(to)),
        Stroke::Line(to) => Stroke::Line(put(to)),
        Stroke::Quad(by, to) => Stroke::Quad(put(by), put(to)),
        Stroke::Cubic(first, second, to) => Stroke::Cubic(put(first), put(second), put(to)),
        Stroke::Close => Stroke::Close,
    };
    outline.map(stroke).collect()
}

fn polygon(corners: &[Point]) -> Vec<Stroke> {
    let Some((first, rest)) = corners.split_first() else { return Vec::new() };
    let lines = rest.iter().map(|corner| Stroke::Line(*corner));
    std::iter::once(Stroke::Move(*first)).chain(lines).chain([Stroke::Close]).collect()
}

/// Two curves from end to end, farther apart in the middle.
fn bow(from: Point, to: Point, rise: f64) -> Vec<Stroke> {
    let [middle, end] = BOW;
    let inset = (to.x - from.x) * 0.25;
    let side = rise.signum();
    let edge = |off: f64, lift: f64| {
        [from.moved(inset, lift + off * side), to.moved(-inset, lift + off * side)]
    };
    let [out_left, out_right] = edge(0.0, rise);
    let [in_left, in_right] = edge(-middle / 0.75, rise);
    let tip = to.moved(0.0, -end * side);
    vec![
        Stroke::Move(from),
        Stroke::Cubic(out_left, out_right, to),
        Stroke::Line(tip),
        Stroke::Cubic(in_right, in_left, from.moved(0.0, -end * side)),
        Stroke::Close,
    ]
}
