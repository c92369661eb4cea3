//! A part of a sheet laid out: some lines, or the rows that sound together. What is said stays the same;
//! how it is laid out is the formatter's business.

use std::ops::Range;

use bicinium_grammar::{SheetTree, TextSize, format};

use super::folding::extent;

/// A range of bytes and what stands there instead.
pub type Edit = (Range<usize>, String);

/// What has to be replaced on the lines that a range of bytes touches.
pub fn edits_in_lines(text: &str, range: &Range<usize>) -> Vec<Edit> {
    let bounded = |at: usize| (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at));
    let (start, end) = (bounded(range.start).unwrap_or(0), bounded(range.end).unwrap_or(0));
    let is_end = |character: char| matches!(character, '\n' | '\r');
    let start = text[..start].rfind(is_end).map_or(0, |before| before + 1);
    let end = text[end..].find(is_end).map_or(text.len(), |after| end + after);
    let all = format::edits(text).into_iter();
    all.filter(|(bytes, _)| start <= bytes.start && bytes.end <= end).collect()
}

/// What has to be replaced in the rows that sound together with the one at a byte; nothing where there
/// is none.
pub fn edits_of_system(text: &str, offset: usize) -> Vec<Edit> {
    system_at(text, offset).map(|range| edits_in_lines(text, &range)).unwrap_or_default()
}

fn system_at(text: &str, offset: usize) -> Option<Range<usize>> {
    let sheet = SheetTree::parse(text);
    let index = sheet.block_at(offset);
    let start = sheet.start(index);
    let within = TextSize::try_from(offset.checked_sub(start)?).ok()?;
    let systems = sheet.blocks().get(index)?.ast().systems();
    let mut extents = systems.iter().filter_map(|rows| extent(rows));
    let extent = extents.find(|range| range.contains_inclusive(within))?;
    Some(start + usize::from(extent.start())..start + usize::from(extent.end()))
}
