//! One bar of all rows of a system, set so that what begins at the same moment stands in the same
//! column. This module must not know what the rows are.

use rowan::NodeOrToken;

use super::line::word;
use super::share::Share;
use crate::syntax::{SyntaxKind, SyntaxNode, SyntaxToken};

/// One note or numeral of a bar and the parentheses that cling to it.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    begin: Share,
    /// Parentheses before the note; they hang out of its column to the left.
    open: usize,
    text: String,
}

/// The cells of a bar; `None` if it is divided too finely to be set in columns.
pub(super) fn cells(bar: &SyntaxNode) -> Option<Vec<Cell>> {
    let mut cells = Vec::new();
    divide(bar, Share::BAR, &mut cells)?;
    Some(cells)
}

/// The text of each row's bar, all of the same width.
pub(super) fn set(rows: &[&[Cell]]) -> Vec<String> {
    let mut lines = vec![Line::default(); rows.len()];
    let mut cells: Vec<(usize, &Cell)> = Vec::new();
    for (row, bar) in rows.iter().enumerate() {
        cells.extend(bar.iter().map(|cell| (row, cell)));
    }
    cells.sort_by_key(|(_, cell)| cell.begin);
    let mut column = 0;
    for together in cells.chunk_by(|(_, left), (_, right)| left.begin == right.begin) {
        let places = together.iter().map(|(row, cell)| lines[*row].earliest(cell));
        column = places.max().unwrap_or(0).max(column);
        for (row, cell) in together {
            lines[*row].put(cell, column);
        }
        column += 1;
    }
    let width = lines.iter().map(|line| line.width).max().unwrap_or(0);
    lines.into_iter().map(|line| line.padded(width)).collect()
}

/// A bar of one row while it is being set.
#[derive(Clone, Debug, Default)]
struct Line {
    text: String,
    /// Characters of the text.
    width: usize,
}

impl Line {
    /// The first column in which the note of `cell` can stand.
    fn earliest(&self, cell: &Cell) -> usize {
        let gap = usize::from(self.width > 0);
        self.width + gap + cell.open
    }

    fn put(&mut self, cell: &Cell, column: usize) {
        *self = std::mem::take(self).filled(column - cell.open);
        self.text.push_str(&cell.text);
        self.width += cell.text.chars().count();
    }

    fn filled(mut self, width: usize) -> Self {
        self.text.extend(std::iter::repeat_n(' ', width.saturating_sub(self.width)));
        self.width = self.width.max(width);
        self
    }

    fn padded(self, width: usize) -> String {
        self.filled(width).text
    }
}

/// Collects the cells of a bar or a group that begins at `begin`. Groups are never deeper than the
/// parser lets them be.
fn divide(node: &SyntaxNode, begin: Share, cells: &mut Vec<Cell>) -> Option<()> {
    let items: Vec<_> = node.children_with_tokens().filter(is_item).collect();
    for (index, item) in items.iter().enumerate() {
        let begin = begin.divide(index, items.len())?;
        match item {
            NodeOrToken::Token(token) => cells.push(cell(token, begin)),
            NodeOrToken::Node(group) => {
                let first = cells.len();
                divide(group, begin, cells)?;
                enclose(&mut cells[first..]);
            }
        }
    }
    Some(())
}

fn is_item(element: &rowan::SyntaxElement<crate::syntax::Bicinium>) -> bool {
    let kind = element.kind();
    !kind.is_trivia() && !matches!(kind, SyntaxKind::Open | SyntaxKind::Close)
}

fn cell(token: &SyntaxToken, begin: Share) -> Cell {
    Cell { begin, open: 0, text: word(token) }
}

fn enclose(cells: &mut [Cell]) {
    if let Some(first) = cells.first_mut() {
        first.open += 1;
        first.text.insert(0, '(');
    }
    if let Some(last) = cells.last_mut() {
        last.text.push(')');
    }
}
