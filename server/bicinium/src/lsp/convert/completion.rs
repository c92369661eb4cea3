//! What a hole or a blank bar may become, as completions.
//!
//! It must not know how the pitches are found.

use std::sync::atomic::AtomicBool;

use bicinium_realizer::Extent;
use tower_lsp::lsp_types as lsp;

use crate::features::realizing::{Choice, choices};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The completions at a place; nothing where there is no hole.
pub(in crate::lsp) fn completion(
    judged: &Judged,
    at: lsp::Position,
    client: &ClientProfile,
    given_up: &AtomicBool,
) -> Option<lsp::CompletionResponse> {
    let offset = judged.text.bytes(lsp::Range::new(at, at), client.encoding).start;
    let found = choices(&judged.snapshot, offset, given_up)?;
    let range = judged.text.range(found.range.clone(), client.encoding);
    let items = found.choices.iter().enumerate();
    let items = items.map(|(rank, choice)| item(rank, choice, range)).collect();
    let is_incomplete = found.extent == Extent::AtLeast;
    Some(lsp::CompletionResponse::List(lsp::CompletionList { is_incomplete, items }))
}

fn item(rank: usize, choice: &Choice, range: lsp::Range) -> lsp::CompletionItem {
    lsp::CompletionItem {
        label: choice.pitch.clone(),
        kind: Some(lsp::CompletionItemKind::VALUE),
        detail: Some(choice.detail.clone()),
        sort_text: Some(format!("{rank:03}")),
        filter_text: is_hole(range).then(|| "?".to_owned()),
        preselect: (rank == 0).then_some(true),
        text_edit: Some(lsp::TextEdit::new(range, choice.text.clone()).into()),
        ..lsp::CompletionItem::default()
    }
}

/// Whether something stands there that is replaced.
fn is_hole(range: lsp::Range) -> bool {
    range.start != range.end
}
