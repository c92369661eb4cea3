//! What is made of the blocks of a document for its client. It is kept with each block, in lines that
//! are counted from the block's first one, so that a block which has only moved is moved and not made
//! again.
//!
//! It must not know what is made.

use std::any::Any;
use std::ops::{Deref, Range, RangeInclusive};
use std::sync::Arc;

use bicinium_analysis::sheet::{Judged as JudgedBlock, Noted, Placed};
use bicinium_grammar::TextRange;
use tower_lsp::lsp_types as lsp;

use super::document::Judged;
use super::text::{Encoding, Text};

/// A block where it stands in a document.
#[derive(Clone, Copy)]
pub(super) struct Block<'d> {
    /// The block.
    pub(super) judged: &'d Arc<JudgedBlock>,
    /// The line at which it begins, counted from 0.
    pub(super) line: u32,
    start: usize,
    text: &'d Text,
}

/// Something that was made of a block, given something else. Of each type there is one with a block.
pub(super) struct Made<G, T> {
    given: G,
    thing: T,
}

impl<G, T> Deref for Made<G, T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.thing
    }
}

/// Something that names lines.
pub(super) trait Lined {
    /// Changes every line that it names.
    fn change_lines(&mut self, change: &dyn Fn(&mut u32));
}

impl Judged {
    /// The block at a place.
    pub(super) fn block<'d>(&'d self, placed: &'d Placed) -> Block<'d> {
        self.at(placed.start, placed.line, &placed.judged)
    }

    /// A block in which something was found.
    pub(super) fn noted<'d>(&'d self, noted: Noted<'d>) -> Block<'d> {
        self.at(noted.start, noted.line, noted.judged)
    }

    fn at<'d>(&'d self, start: usize, line: usize, judged: &'d Arc<JudgedBlock>) -> Block<'d> {
        let line = u32::try_from(line).unwrap_or(u32::MAX);
        Block { judged, line, start, text: &self.text }
    }
}

impl Block<'_> {
    /// Whether any of these lines is one of the block's.
    pub(super) fn is_on(&self, lines: &RangeInclusive<u32>) -> bool {
        let line_ends = u32::try_from(self.judged.line_ends).unwrap_or(u32::MAX);
        self.line <= *lines.end() && *lines.start() <= self.line.saturating_add(line_ends)
    }

    /// The range that a client shows for a part of the block, in lines of the block.
    pub(super) fn range(&self, range: TextRange, encoding: Encoding) -> lsp::Range {
        self.bytes(range.into(), encoding)
    }

    /// The same for bytes from the start of the block.
    pub(super) fn bytes(&self, range: Range<usize>, encoding: Encoding) -> lsp::Range {
        let bytes = self.start + range.start..self.start + range.end;
        let mut range = self.text.range(bytes, encoding);
        self.count_within(&mut range);
        range
    }

    /// What `make` makes of the block, which hangs on nothing else but what is given; any line in it
    /// is counted from the beginning of the block.
    pub(super) fn keep<G, T>(&self, given: &G, make: impl FnOnce() -> T) -> Arc<Made<G, T>>
    where
        G: PartialEq + Clone + Any + Send + Sync,
        T: Any + Send + Sync,
    {
        let is_current = |known: &Made<G, T>| known.given == *given;
        self.judged.kept.get_or_make(is_current, || Made { given: given.clone(), thing: make() })
    }

    /// The same for a list, as it stands in the document.
    pub(super) fn list<G, T>(&self, given: &G, make: impl FnOnce() -> Vec<T>) -> Vec<T>
    where
        G: PartialEq + Clone + Any + Send + Sync,
        T: Lined + Clone + Any + Send + Sync,
    {
        let mut list = self.keep(given, make).to_vec();
        let into_document = |line: &mut u32| *line = line.saturating_add(self.line);
        for thing in &mut list {
            thing.change_lines(&into_document);
        }
        list
    }

    /// Counts lines of the document from the beginning of the block.
    pub(super) fn count_within(&self, thing: &mut impl Lined) {
        thing.change_lines(&|line| *line = line.saturating_sub(self.line));
    }
}

impl Lined for lsp::Range {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        change(&mut self.start.line);
        change(&mut self.end.line);
    }
}

impl Lined for lsp::Diagnostic {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        self.range.change_lines(change);
        let related = self.related_information.iter_mut().flatten();
        related.for_each(|it| it.location.range.change_lines(change));
    }
}

impl Lined for lsp::DocumentSymbol {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        self.range.change_lines(change);
        self.selection_range.change_lines(change);
        self.children.iter_mut().flatten().for_each(|child| child.change_lines(change));
    }
}

impl Lined for lsp::FoldingRange {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        change(&mut self.start_line);
        change(&mut self.end_line);
    }
}

impl Lined for lsp::TextEdit {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        self.range.change_lines(change);
    }
}

impl Lined for lsp::CodeLens {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        self.range.change_lines(change);
    }
}

impl Lined for lsp::InlayHint {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        change(&mut self.position.line);
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::sync::Arc;

    use bicinium_analysis::{Sheet, Shelf};
    use tower_lsp::lsp_types::Range;

    use super::{Encoding, Judged};
    use crate::lsp::text::Text;

    const SHEET: &str = "// one\nexercise\n  bass | C3 |\nexercise\n  bass | D3 |\n";

    fn judged(sheet: &Sheet, text: &str) -> Judged {
        Judged { text: Text::from(text), version: 1, snapshot: sheet.snapshot() }
    }

    /// The whole ranges of all blocks, and how many had to be made.
    fn wholes(judged: &Judged, given: u8) -> (Vec<Range>, usize) {
        let made = Cell::new(0);
        let whole = |placed| {
            let block = judged.block(placed);
            block.list(&given, || {
                made.set(made.get() + 1);
                vec![block.range(placed.judged.tree.ast().written_range(), Encoding::Utf16)]
            })
        };
        let ranges = judged.snapshot.blocks().iter().flat_map(whole).collect();
        (ranges, made.get())
    }

    #[test]
    fn a_block_that_has_moved_is_moved_and_not_made_again() {
        let mut sheet = Sheet::new(SHEET, Arc::new(Shelf::default()));
        let (_, made) = wholes(&judged(&sheet, SHEET), 0);
        assert_eq!(made, 3);
        for insert in ["\n// more", "\r\n\r\n", "\r", "\nexercise"] {
            let mut text = SHEET.to_owned();
            text.insert_str(6, insert);
            sheet.edit(6..6, insert);
            let (moved, made) = wholes(&judged(&sheet, &text), 0);
            let anew = Sheet::new(&text, Arc::new(Shelf::default()));
            assert_eq!(moved, wholes(&judged(&anew, &text), 0).0, "{insert:?}");
            assert!(made <= 2, "{made} blocks were made again after {insert:?}");
            sheet.edit(6..6 + insert.len(), "");
        }
    }

    #[test]
    fn what_is_made_is_made_again_when_something_else_is_given() {
        let sheet = Sheet::new(SHEET, Arc::new(Shelf::default()));
        let made = |given| wholes(&judged(&sheet, SHEET), given).1;
        assert_eq!([made(0), made(0), made(1), made(1)], [3, 0, 3, 0]);
    }
}
