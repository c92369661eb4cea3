//! Fixes, and ways to fill holes, as code actions that carry their edits.
//!
//! It must not take anything from what the client sends back but the range: many clients drop the
//! data of diagnostics.

use tower_lsp::lsp_types as lsp;

use super::diagnostic::diagnostic;
use super::edit::workspace_edit;
use crate::features::fixes::{Fix, fixes};
use crate::features::realizing::{Filling, fillings};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The fixes for what is found in a range, of the kinds that the client asks for.
pub(in crate::lsp) fn actions(
    judged: &Judged,
    asked: &lsp::CodeActionParams,
    client: &ClientProfile,
) -> lsp::CodeActionResponse {
    let bytes = judged.text.bytes(asked.range, client.encoding);
    let uri = &asked.text_document.uri;
    let mut actions = Vec::new();
    if wants(&asked.context, &lsp::CodeActionKind::QUICKFIX) {
        let fixes = fixes(&judged.snapshot, &bytes).into_iter();
        actions.extend(fixes.map(|fix| action(judged, fix, uri, client)));
    }
    if wants(&asked.context, &lsp::CodeActionKind::REFACTOR_REWRITE) {
        let fillings = fillings(&judged.snapshot, bytes.start).into_iter();
        actions.extend(fillings.map(|filling| rewriting(judged, filling, uri, client)));
    }
    actions.into_iter().map(lsp::CodeActionOrCommand::CodeAction).collect()
}

/// A kind that is asked for includes those below it; the empty kind includes all.
fn wants(context: &lsp::CodeActionContext, wanted: &lsp::CodeActionKind) -> bool {
    let is_above = |kind: &lsp::CodeActionKind| {
        let below = wanted.as_str().strip_prefix(kind.as_str());
        below.is_some_and(|rest| {
            kind.as_str().is_empty() || rest.is_empty() || rest.starts_with('.')
        })
    };
    context.only.as_ref().is_none_or(|only| only.iter().any(is_above))
}

fn rewriting(
    judged: &Judged,
    filling: Filling,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> lsp::CodeAction {
    lsp::CodeAction {
        title: filling.title,
        kind: Some(lsp::CodeActionKind::REFACTOR_REWRITE),
        edit: Some(workspace_edit(judged, uri, filling.edits, client)),
        ..lsp::CodeAction::default()
    }
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
