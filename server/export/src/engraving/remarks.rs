//! What the marks of an exercise stand for, in the words of the analysis, below the music. Knows no
//! positions of notes.

use super::content::Flag;
use super::display::{Group, Ink, Kind};
use super::font::Font;
use super::geometry::Point;
use super::marks::{self, Side};
use super::paging::Block;
use super::words::{Align, Lettering};
use crate::piece::Piece;

const PLAIN: Lettering = Lettering { font: Font::Roman, size: 1.95, ink: Ink::Black };
const RULE: Lettering = Lettering { font: Font::Italic, size: 1.95, ink: Ink::Grey };
/// From the margin to the words.
const INDENT: f64 = 3.4;
/// From baseline to baseline.
const LINE: f64 = 2.5;

/// One block for each finding that is marked.
pub(super) fn blocks(piece: &Piece<'_>, left: f64, right: f64) -> Vec<Block> {
    let block = |(number, finding): (usize, &bicinium_analysis::Finding)| {
        let mut mark = marks::mark(Flag { number, level: finding.level }, Side::Above);
        if let Some(bounds) = mark.bounds() {
            mark.shift(left - bounds.left, 1.2);
        }
        let mut words = Group::new(Kind::Remark);
        let head = format!("{}: {}", finding.level.name(), finding.rule);
        words.shapes.extend(RULE.shapes(&head, Point::new(left + INDENT, 0.0), Align::Left));
        let mut y = 0.0;
        for line in PLAIN.lines(&finding.message, right - left - INDENT) {
            y += LINE;
            words.shapes.extend(PLAIN.shapes(&line, Point::new(left + INDENT, y), Align::Left));
        }
        let gap = if number == 1 { 3.0 } else { 1.4 };
        Block::new(vec![mark, words], gap)
    };
    piece.told().map(block).collect()
}
