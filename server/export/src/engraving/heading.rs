//! What stands over an exercise: its title, what it is, and who wrote it. Knows no notes.

use super::display::{Group, Ink, Kind};
use super::font::Font;
use super::geometry::Point;
use super::paging::Block;
use super::words::{Align, Lettering};
use crate::piece::Piece;

const TITLE: Lettering = Lettering { font: Font::Roman, size: 3.4, ink: Ink::Black };
const DETAIL: Lettering = Lettering { font: Font::Italic, size: 2.1, ink: Ink::Black };
/// Distance from the exercise before.
const APART: f64 = 5.5;

/// The heading between two edges.
pub(super) fn block(piece: &Piece<'_>, left: f64, right: f64) -> Block {
    let author = piece.exercise.by.as_deref().unwrap_or_default();
    let (title, kind) = (piece.title(), piece.kind());
    let mut group = Group::new(Kind::Words);
    group.label = Some([&*title, &kind, author].join(" ").trim_end().to_owned());
    let mut y = 0.0;
    for line in TITLE.lines(&title, right - left) {
        let at = Point::new(f64::midpoint(left, right), y);
        group.shapes.extend(TITLE.shapes(&line, at, Align::Middle));
        y += 4.2;
    }
    let detail = DETAIL.lines(&kind, right - left);
    let line = detail.first().map_or("", String::as_str);
    group.shapes.extend(DETAIL.shapes(line, Point::new(left, y), Align::Left));
    let half = (right - left) / 2.0;
    for author in DETAIL.lines(author, half) {
        if DETAIL.width(line) + DETAIL.width(&author) + 2.0 > right - left {
            y += 2.8;
        }
        group.shapes.extend(DETAIL.shapes(&author, Point::new(right, y), Align::Right));
        y += 2.8;
    }
    Block { keeps_next: true, ..Block::new(vec![group], APART) }
}
