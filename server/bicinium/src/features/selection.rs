//! What a reader may mean by a place, from the narrowest to the widest: the note, its group, the bar,
//! the row, the system, the exercise, the sheet.

use std::ops::Range;

use bicinium_analysis::Snapshot;
use bicinium_grammar::TextSize;

use super::folding::extent;

/// The stretches around a byte, in bytes of the sheet; each holds the one before and is longer. The last
/// one is the whole sheet.
pub fn around(snapshot: &Snapshot, offset: usize) -> Vec<Range<usize>> {
    let end = snapshot
        .blocks()
        .last()
        .map_or(0, |block| block.start + usize::from(block.judged.tree.text_len()));
    let offset = offset.min(end);
    let mut stretches = Vec::new();
    if let Some(block) = snapshot.block_at(offset)
        && let Ok(within) = TextSize::try_from(offset - block.start)
    {
        let tree = block.judged.tree.ast();
        let systems = tree.systems();
        let systems = systems.iter().filter_map(|rows| extent(rows));
        let wide = systems.chain([tree.written_range()]);
        let ranges = tree.around(within).into_iter().chain(wide);
        stretches.extend(ranges.map(|range| block.in_sheet(range)));
    }
    stretches.push(0..end);
    nested(stretches, offset)
}

/// Those around the offset that hold all before them.
fn nested(stretches: Vec<Range<usize>>, offset: usize) -> Vec<Range<usize>> {
    let mut nested: Vec<Range<usize>> = Vec::new();
    for range in stretches {
        let inner = nested.last().cloned().unwrap_or(offset..offset);
        let holds = range.start <= inner.start && inner.end <= range.end;
        if holds && (nested.is_empty() || range != inner) {
            nested.push(range);
        }
    }
    nested
}
