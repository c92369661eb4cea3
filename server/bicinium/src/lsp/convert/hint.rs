//! Hints between the signs of a sheet, as inlay hints.
//!
//! It must not know what they say.

use bicinium_analysis::sheet::Placed;
use bicinium_grammar::TextRange;
use tower_lsp::lsp_types as lsp;

use crate::features::hints::{Hint, hints};
use crate::lsp::blocks::Block;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::text::Encoding;

/// The hints in a range, of the kinds that are set.
pub(in crate::lsp) fn inlay_hints(
    judged: &Judged,
    range: lsp::Range,
    client: &ClientProfile,
) -> Vec<lsp::InlayHint> {
    let (start, end) = (range.start.min(range.end), range.start.max(range.end));
    let lines = start.line..=end.line;
    let kinds = &client.settings.now().hints;
    let of_block = |placed: &Placed| {
        let block = judged.block(placed);
        let hint = |it| inlay_hint(it, block, client.encoding);
        let is_near = block.is_on(&lines);
        is_near.then(|| {
            let make = || hints(&placed.judged, kinds).into_iter().map(hint).collect();
            block.list(kinds, make)
        })
    };
    let near = judged.snapshot.blocks().iter().filter_map(of_block).flatten();
    near.filter(|hint| start <= hint.position && hint.position <= end).collect()
}

fn inlay_hint(hint: Hint, block: Block<'_>, encoding: Encoding) -> lsp::InlayHint {
    lsp::InlayHint {
        position: block.range(TextRange::empty(hint.at), encoding).start,
        label: lsp::InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: hint.said.map(lsp::InlayHintTooltip::String),
        padding_left: None,
        padding_right: None,
        data: None,
    }
}
