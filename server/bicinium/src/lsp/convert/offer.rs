//! What the server offers to a client, given what the client can do.
//!
//! It must not offer what no handler answers.

use tower_lsp::lsp_types as lsp;

use super::action::FIX_ALL;
use crate::lsp::client::{Ability, ClientProfile, Delivery, Negotiation};
use crate::lsp::commands::FILL;
use crate::lsp::score_pages::{ADDRESS, SHOW};
use crate::lsp::text::Encoding;

/// The name under which the server speaks: of itself, and as the source of diagnostics.
pub(in crate::lsp) const NAME: &str = "bicinium";

/// The reply to `initialize`.
pub(in crate::lsp) fn offer(client: &ClientProfile) -> lsp::InitializeResult {
    lsp::InitializeResult {
        capabilities: capabilities(client),
        server_info: Some(lsp::ServerInfo {
            name: NAME.to_owned(),
            version: Some(env!("CARGO_PKG_VERSION").to_owned()),
        }),
    }
}

fn capabilities(client: &ClientProfile) -> lsp::ServerCapabilities {
    lsp::ServerCapabilities {
        position_encoding: position_encoding(client),
        text_document_sync: Some(synchronization().into()),
        hover_provider: Some(lsp::HoverProviderCapability::Simple(true)),
        completion_provider: Some(completions()),
        code_action_provider: code_actions(client),
        document_formatting_provider: Some(lsp::OneOf::Left(true)),
        document_range_formatting_provider: Some(lsp::OneOf::Left(true)),
        document_on_type_formatting_provider: Some(typing()),
        code_lens_provider: Some(code_lenses()),
        document_symbol_provider: Some(lsp::OneOf::Left(true)),
        workspace_symbol_provider: Some(lsp::OneOf::Left(true)),
        folding_range_provider: Some(lsp::FoldingRangeProviderCapability::Simple(true)),
        selection_range_provider: Some(lsp::SelectionRangeProviderCapability::Simple(true)),
        document_link_provider: Some(document_links()),
        inlay_hint_provider: Some(lsp::OneOf::Left(true)),
        document_highlight_provider: Some(lsp::OneOf::Left(true)),
        definition_provider: Some(lsp::OneOf::Left(true)),
        references_provider: Some(lsp::OneOf::Left(true)),
        rename_provider: Some(renaming(client)),
        semantic_tokens_provider: semantic_tokens(client),
        execute_command_provider: Some(commands()),
        diagnostic_provider: diagnostics(client),
        workspace: Some(workspace()),
        ..lsp::ServerCapabilities::default()
    }
}

/// Folders may be added and removed while the server runs.
fn workspace() -> lsp::WorkspaceServerCapabilities {
    lsp::WorkspaceServerCapabilities {
        workspace_folders: Some(lsp::WorkspaceFoldersServerCapabilities {
            supported: Some(true),
            change_notifications: Some(lsp::OneOf::Left(true)),
        }),
        file_operations: None,
    }
}

fn position_encoding(client: &ClientProfile) -> Option<lsp::PositionEncodingKind> {
    let kind = match client.encoding {
        Encoding::Utf8 => lsp::PositionEncodingKind::UTF8,
        Encoding::Utf16 => lsp::PositionEncodingKind::UTF16,
        Encoding::Utf32 => lsp::PositionEncodingKind::UTF32,
    };
    (client.negotiation == Negotiation::Offered).then_some(kind)
}

fn synchronization() -> lsp::TextDocumentSyncOptions {
    lsp::TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(lsp::TextDocumentSyncKind::INCREMENTAL),
        save: Some(lsp::TextDocumentSyncSaveOptions::Supported(true)),
        ..lsp::TextDocumentSyncOptions::default()
    }
}

fn completions() -> lsp::CompletionOptions {
    lsp::CompletionOptions {
        trigger_characters: Some(super::completion::triggers()),
        ..lsp::CompletionOptions::default()
    }
}

fn code_actions(client: &ClientProfile) -> Option<lsp::CodeActionProviderCapability> {
    client.can(Ability::CodeActionLiterals).then(|| {
        lsp::CodeActionProviderCapability::Options(lsp::CodeActionOptions {
            code_action_kinds: Some(vec![
                lsp::CodeActionKind::QUICKFIX,
                lsp::CodeActionKind::REFACTOR_REWRITE,
                lsp::CodeActionKind::REFACTOR_INLINE,
                lsp::CodeActionKind::SOURCE_FIX_ALL,
                FIX_ALL,
            ]),
            ..lsp::CodeActionOptions::default()
        })
    })
}

/// What can be had by name.
fn commands() -> lsp::ExecuteCommandOptions {
    lsp::ExecuteCommandOptions {
        commands: [FILL, SHOW, ADDRESS].map(str::to_owned).to_vec(),
        work_done_progress_options: lsp::WorkDoneProgressOptions { work_done_progress: Some(true) },
    }
}

/// Offered to all: some clients show lenses and do not say so, and the others do not ask.
fn code_lenses() -> lsp::CodeLensOptions {
    lsp::CodeLensOptions { resolve_provider: Some(true) }
}

fn document_links() -> lsp::DocumentLinkOptions {
    lsp::DocumentLinkOptions {
        resolve_provider: Some(false),
        work_done_progress_options: lsp::WorkDoneProgressOptions::default(),
    }
}

/// A barline ends a bar, and with it what has to stand under each other.
fn typing() -> lsp::DocumentOnTypeFormattingOptions {
    lsp::DocumentOnTypeFormattingOptions {
        first_trigger_character: "|".to_owned(),
        more_trigger_character: None,
    }
}

/// Only a client that says so may be told that it can ask first.
fn renaming(client: &ClientProfile) -> lsp::OneOf<bool, lsp::RenameOptions> {
    if !client.can(Ability::RenamePreparation) {
        return lsp::OneOf::Left(true);
    }
    lsp::OneOf::Right(lsp::RenameOptions {
        prepare_provider: Some(true),
        work_done_progress_options: lsp::WorkDoneProgressOptions::default(),
    })
}

fn semantic_tokens(client: &ClientProfile) -> Option<lsp::SemanticTokensServerCapabilities> {
    client.can(Ability::Tokens).then(|| {
        lsp::SemanticTokensOptions {
            legend: super::tokens::legend(),
            range: Some(true),
            full: Some(lsp::SemanticTokensFullOptions::Delta { delta: Some(true) }),
            ..lsp::SemanticTokensOptions::default()
        }
        .into()
    })
}

fn diagnostics(client: &ClientProfile) -> Option<lsp::DiagnosticServerCapabilities> {
    (client.delivery == Delivery::Pull).then(|| {
        lsp::DiagnosticServerCapabilities::Options(lsp::DiagnosticOptions {
            identifier: Some(NAME.to_owned()),
            inter_file_dependencies: true,
            workspace_diagnostics: true,
            ..lsp::DiagnosticOptions::default()
        })
    })
}
