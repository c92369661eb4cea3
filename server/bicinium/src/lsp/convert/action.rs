//! Fixes as code actions that carry their edits.
//!
//! It must not take anything from what the client sends back but the range: many clients drop the
//! data of diagnostics.

use tower_lsp::lsp_types as lsp;

use super::diagnostic::diagnostic;
use super::edit::workspace_edit;
use crate::features::fixes::{Fix, fixes};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The fixes for what is found in a range, of the kinds that the client asks for.
pub(in crate::lsp) fn actions(
    judged: &Judged,
    asked: &lsp::CodeActionParams,
    client: &ClientProfile,
) -> lsp::CodeActionResponse {
    if !wants_fixes(&asked.context) {
        return Vec::new();
    }
    let bytes = judged.text.bytes(asked.range, client.encoding);
    let uri = &asked.text_document.uri;
    let action = |fix| lsp::CodeActionOrCommand::CodeAction(action(judged, fix, uri, client));
    fixes(&judged.snapshot, &bytes).into_iter().map(action).collect()
}

/// A kind that is asked for includes those below it; the empty kind includes all.
fn wants_fixes(context: &lsp::CodeActionContext) -> bool {
    let is_above = |kind: &lsp::CodeActionKind| {
        kind.as_str().is_empty() || *kind == lsp::CodeActionKind::QUICKFIX
    };
    context.only.as_ref().is_none_or(|only| only.iter().any(is_above))
}

fn action(judged: &Judged, fix: Fix, uri: &lsp::Url, client: &ClientProfile) -> lsp::CodeAction {
    let findings = judged.snapshot.findings().enumerate();
    let mended = findings.filter(|(index, _)| fix.mends.contains(index));
    let diagnostics = mended.map(|(_, found)| diagnostic(judged, found, uri, client)).collect();
    lsp::CodeAction {
        title: fix.title,
        kind: Some(lsp::CodeActionKind::QUICKFIX),
        diagnostics: Some(diagnostics),
        is_preferred: fix.preferred.then_some(true),
        edit: Some(workspace_edit(judged, uri, fix.edits, client)),
        ..lsp::CodeAction::default()
    }
}
