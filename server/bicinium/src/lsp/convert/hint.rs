//! Hints between the signs of a sheet, as inlay hints.
//!
//! It must not know what they say.

use tower_lsp::lsp_types as lsp;

use crate::features::hints::{Hint, hints};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The hints in a range, of the kinds that are set.
pub(in crate::lsp) fn inlay_hints(
    judged: &Judged,
    range: lsp::Range,
    client: &ClientProfile,
) -> Vec<lsp::InlayHint> {
    let bytes = judged.text.bytes(range, client.encoding);
    let kinds = &client.settings.now().hints;
    let hint = |hint: Hint| lsp::InlayHint {
        position: judged.text.position(hint.at, client.encoding),
        label: lsp::InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: hint.said.map(lsp::InlayHintTooltip::String),
        padding_left: None,
        padding_right: None,
        data: None,
    };
    hints(&judged.snapshot, &bytes, kinds).into_iter().map(hint).collect()
}
