//! A block laid out, and the rows in it that sound together. What is said stays the same; how it is
//! laid out is the formatter's business.

use std::ops::Range;

use bicinium_grammar::{BlockTree, TextRange, TextSize, format};

use super::folding::extent;

/// A range of bytes and what stands there instead; it lies on one line.
pub type Edit = (Range<usize>, String);

/// What has to be replaced to lay out a block, in bytes from its start.
pub fn edits(block: &BlockTree) -> Vec<Edit> {
    format::edits_of_block(block)
}

/// The rows that sound together with the one at a place of a block; nothing where there is none.
pub fn system_at(block: &BlockTree, at: TextSize) -> Option<TextRange> {
    let systems = block.ast().systems();
    let mut extents = systems.iter().filter_map(|rows| extent(rows));
    extents.find(|range| range.contains_inclusive(at))
}
