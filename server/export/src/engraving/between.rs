//! What stands under the upper staff: interval figures between the staves, and Roman numerals with the
//! lines that prolong them. Shows what the analysis says, and reckons nothing.

use super::content::{Bar, Harmony};
use super::display::{Group, Ink, Kind, Shape, text_width};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::spacing::Gap;
use super::symbol;

/// The em of interval figures.
const FIGURE: f64 = 3.6;
/// The em of numerals.
const NUMERAL: f64 = 2.6;
/// The em of the figures beside a numeral.
const INVERSION: f64 = 1.55;
/// Distance of numerals from each other.
const APART: f64 = 0.7;

/// An interval figure with its middle at an x, its lower edge at zero.
pub(super) fn figure(number: u16, middle: f64) -> Group {
    let text = symbol::figures(number.into());
    let mut group = Group::new(Kind::Figure);
    let bounds = Shape::signs(text.clone(), Point::default(), FIGURE).bounds();
    let bounds = bounds.unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0));
    let at = Point::new(middle - f64::midpoint(bounds.left, bounds.right), -bounds.bottom);
    group = group.with(Shape::signs(text, at, FIGURE), Ink::Black);
    group.label = Some(number.to_string());
    group
}

/// A numeral with its figures stacked behind it, on a baseline at zero.
pub(super) fn numeral(text: &str) -> Group {
    let split = text.find(|c: char| c.is_ascii_digit()).unwrap_or(text.len());
    let (root, figures) = text.split_at(split);
    let signs =
        |at, size, text: &str| Shape::Signs { font: Font::Roman, at, size, text: text.into() };
    let mut group =
        Group::new(Kind::Numeral).with(signs(Point::default(), NUMERAL, root), Ink::Black);
    let x = text_width(Font::Roman, NUMERAL, root) + 0.1;
    let figures: Vec<_> = figures.split('/').filter(|figure| !figure.is_empty()).collect();
    let lift = if figures.len() > 1 { 1.4 } else { 0.95 };
    for (row, figure) in (0_u8..).zip(figures) {
        let y = f64::from(row) * 1.15 - lift;
        group = group.with(signs(Point::new(x, y), INVERSION, figure), Ink::Black);
    }
    group.label = Some(text.to_owned());
    group
}

/// Widens the gaps of a bar until its numerals do not touch.
pub(super) fn keep_numerals_apart(bar: &Bar, gaps: &mut [Gap]) {
    let mut last: Option<(usize, f64)> = None;
    for (index, column) in bar.columns.iter().enumerate() {
        let Some(harmony) = &column.harmony else { continue };
        if let Some((from, width)) = last {
            widen(&mut gaps[from + 1..=index], width);
        }
        last = Some((index, width(harmony)));
    }
    if let Some((from, width)) = last {
        widen(&mut gaps[from + 1..], width);
    }
}

fn width(harmony: &Harmony) -> f64 {
    numeral(&harmony.text).bounds().map_or(0.0, Rect::width) + APART
}

fn widen(gaps: &mut [Gap], width: f64) {
    let there: f64 = gaps.iter().map(|gap| gap.least).sum();
    let lacking = width - there;
    if lacking > 0.0
        && let Some(last) = gaps.last_mut()
    {
        last.least += lacking;
    }
}

/// The line that prolongs a numeral, at half the height of its letters.
pub(super) fn prolongation(from: f64, to: f64) -> Group {
    let (y, half) = (-0.75, symbol::LEDGER / 2.0);
    Group::new(Kind::Numeral).with(Shape::Bar(Rect::new(from, y - half, to, y + half)), Ink::Black)
}
