//! The formatter's work as edits: for a whole sheet, for some of its lines, for the rows that sound
//! together with the one that is being written.
//!
//! It must not know how a sheet is laid out.

use std::ops::RangeInclusive;

use bicinium_analysis::sheet::Placed;
use bicinium_grammar::TextSize;
use tower_lsp::lsp_types as lsp;

use crate::features::layout;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// What has to be changed so that a sheet is well laid out.
pub(in crate::lsp) fn edits(judged: &Judged, client: &ClientProfile) -> Vec<lsp::TextEdit> {
    on_lines(judged, &(0..=u32::MAX), client)
}

/// The part of it on the lines that a range touches.
pub(in crate::lsp) fn edits_in(
    judged: &Judged,
    range: lsp::Range,
    client: &ClientProfile,
) -> Vec<lsp::TextEdit> {
    let (one, other) = (range.start.line, range.end.line);
    on_lines(judged, &(one.min(other)..=one.max(other)), client)
}

/// The part of it in the system at a position.
pub(in crate::lsp) fn edits_of_system(
    judged: &Judged,
    at: lsp::Position,
    client: &ClientProfile,
) -> Vec<lsp::TextEdit> {
    let offset = judged.text.offset(at, client.encoding);
    let system = judged.snapshot.block_at(offset).and_then(|block| {
        let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
        let system = layout::system_at(&block.judged.tree, within)?;
        Some(judged.text.range(block.in_sheet(system), client.encoding))
    });
    system.map(|range| edits_in(judged, range, client)).unwrap_or_default()
}

fn on_lines(
    judged: &Judged,
    lines: &RangeInclusive<u32>,
    client: &ClientProfile,
) -> Vec<lsp::TextEdit> {
    let of_block = |placed: &Placed| {
        let block = judged.block(placed);
        let edit = |(bytes, text)| lsp::TextEdit::new(block.bytes(bytes, client.encoding), text);
        let make = || layout::edits(&placed.judged.tree).into_iter().map(edit).collect();
        block.is_on(lines).then(|| block.list(&(), make))
    };
    let near = judged.snapshot.blocks().iter().filter_map(of_block).flatten();
    near.filter(|edit| lines.contains(&edit.range.start.line)).collect()
}
