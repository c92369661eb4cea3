//! Fixes, and ways to fill holes, as code actions that carry their edits.
//!
//! It must not take anything from what the client sends back but the range: many clients drop the
//! data of diagnostics.

use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::Located;
use tower_lsp::lsp_types as lsp;

use super::diagnostic::diagnostic;
use super::edit::workspace_edit;
use crate::features::fix_all::fix_all;
use crate::features::fixes::{self, Fix, fixes};
use crate::features::realizing::{Filling, fillings, known_dead_end, rewriting};
use crate::features::refactorings::{Refactoring, Subject, refactorings};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::score_pages::SHOW;

/// The kind of the action that mends everything; whoever asks for `source.fixAll` means it too.
pub(in crate::lsp) const FIX_ALL: lsp::CodeActionKind =
    lsp::CodeActionKind::new("source.fixAll.bicinium");

/// The fixes for what is found in a range, of the kinds that the client asks for.
pub(in crate::lsp) fn actions(
    judged: &Judged,
    asked: &lsp::CodeActionParams,
    client: &ClientProfile,
    given_up: &AtomicBool,
) -> lsp::CodeActionResponse {
    let bytes = judged.text.bytes(asked.range, client.encoding);
    let uri = &asked.text_document.uri;
    let mut actions = Vec::new();
    if wants(&asked.context, &lsp::CodeActionKind::QUICKFIX) {
        let fixes = fixes(&judged.snapshot, &bytes, given_up).into_iter();
        actions.extend(fixes.map(|fix| action(judged, fix, uri, client)));
        actions.extend(reopenings(judged, &bytes, uri, client));
    }
    if wants(&asked.context, &lsp::CodeActionKind::REFACTOR_REWRITE) {
        let fillings = fillings(&judged.snapshot, bytes.start, given_up).into_iter();
        let fillings = fillings.chain(rewriting(&judged.snapshot, bytes.start, given_up));
        actions.extend(fillings.map(|filling| writing(judged, filling, uri, client)));
    }
    let done = refactorings(&judged.snapshot, &bytes).into_iter();
    let done = done.map(|it| refactoring(judged, it, uri, client));
    actions
        .extend(done.filter(|it| it.kind.as_ref().is_some_and(|kind| wants(&asked.context, kind))));
    if is_for_all(judged, &asked.context, &bytes) {
        actions.extend(fixing_all(judged, uri, client, given_up));
    }
    let shown = asked.context.only.is_none().then(|| showing_score(judged, bytes.start, uri));
    let actions = actions.into_iter().map(lsp::CodeActionOrCommand::CodeAction);
    actions.chain(shown.flatten().map(lsp::CodeActionOrCommand::Command)).collect()
}

/// The page beside the editor, from within an exercise. It is of no kind, and changes nothing: a command,
/// not an action that holds one, which some clients read wrongly.
fn showing_score(judged: &Judged, offset: usize, uri: &lsp::Url) -> Option<lsp::Command> {
    judged.snapshot.block_at(offset)?.judged.exercise.as_ref()?;
    let title = "Show the score, to look at and to listen to".to_owned();
    Some(lsp::Command::new(title, SHOW.to_owned(), Some(vec![uri.as_str().into()])))
}

/// Whether everything is to be mended: it is asked for by its kind, or the whole sheet is selected.
fn is_for_all(judged: &Judged, context: &lsp::CodeActionContext, bytes: &Range<usize>) -> bool {
    let is_named = context.only.is_some() && wants(context, &FIX_ALL);
    let is_whole = bytes.start == 0 && bytes.end >= judged.text.to_string().trim_end().len();
    is_named || (context.only.is_none() && is_whole && !bytes.is_empty())
}

fn fixing_all(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
    given_up: &AtomicBool,
) -> Option<lsp::CodeAction> {
    let edits = fix_all(&judged.snapshot, &judged.text.to_string(), given_up);
    (!edits.is_empty()).then(|| lsp::CodeAction {
        title: "Mend everything that has a sure remedy".to_owned(),
        kind: Some(FIX_ALL),
        edit: Some(workspace_edit(judged, uri, edits, client)),
        ..lsp::CodeAction::default()
    })
}

fn refactoring(
    judged: &Judged,
    refactoring: Refactoring,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> lsp::CodeAction {
    lsp::CodeAction {
        title: refactoring.title,
        kind: Some(kind(refactoring.subject)),
        edit: Some(workspace_edit(judged, uri, refactoring.edits, client)),
        ..lsp::CodeAction::default()
    }
}

fn kind(subject: Subject) -> lsp::CodeActionKind {
    lsp::CodeActionKind::new(match subject {
        Subject::Transposition => "refactor.rewrite.transpose",
        Subject::Exchange => "refactor.rewrite.exchange",
        Subject::Cantus => "refactor.inline.cantus",
        Subject::System => "refactor.rewrite.system",
        Subject::Spelling => "refactor.rewrite.respell",
        Subject::Licences => "refactor.rewrite.licences",
    })
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

fn writing(
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

/// What opens an exercise again that cannot be finished.
fn reopenings(
    judged: &Judged,
    bytes: &Range<usize>,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::CodeAction> {
    let block = judged.snapshot.block_at(bytes.start);
    let Some((block, end)) = block.and_then(|it| Some((it, known_dead_end(&it.judged)?))) else {
        return Vec::new();
    };
    let located = Located { block, finding: &end };
    if !fixes::touches(&located.range(), bytes) {
        return Vec::new();
    }
    let shown = diagnostic(judged, located, uri, client);
    let of = |fix: Fix| lsp::CodeAction {
        diagnostics: Some(vec![shown.clone()]),
        ..action(judged, fix, uri, client)
    };
    fixes::carried(block, &end).into_iter().map(of).collect()
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
