//! What belongs to a place, as highlights.
//!
//! It must not know why it belongs to it.

use tower_lsp::lsp_types as lsp;

use crate::features::highlights::{Highlight, Tie, highlights};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The highlights for a position.
pub(in crate::lsp) fn document_highlights(
    judged: &Judged,
    at: lsp::Position,
    client: &ClientProfile,
) -> Vec<lsp::DocumentHighlight> {
    let offset = judged.text.offset(at, client.encoding);
    let highlight = |it: Highlight| lsp::DocumentHighlight {
        range: judged.text.range(it.range, client.encoding),
        kind: Some(match it.tie {
            Tie::Itself => lsp::DocumentHighlightKind::WRITE,
            Tie::Partner => lsp::DocumentHighlightKind::READ,
            Tie::Harmony => lsp::DocumentHighlightKind::TEXT,
        }),
    };
    highlights(&judged.snapshot, offset).into_iter().map(highlight).collect()
}
