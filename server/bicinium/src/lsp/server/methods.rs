//! What the protocol asks, request by request.
//!
//! Every handler changes or reads the state before its first wait. It must not know how an answer is
//! found or how it is put.

use std::sync::Arc;

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types as lsp;
use tower_lsp::{LanguageServer, async_trait};

use super::Server;
use super::asking::{answer, away};
use crate::features::completion::Near;
use crate::folders;
use crate::lsp::beforehand;
use crate::lsp::client::{ClientProfile, Delivery};
use crate::lsp::commands::FILL;
use crate::lsp::document::Judged;
use crate::lsp::rulebooks::nearby;
use crate::lsp::score_pages::{ADDRESS, SHOW};
use crate::lsp::survey::Survey;
use crate::lsp::transport::hand_over;
use crate::lsp::watch::watch;
use crate::lsp::{convert, names, symbols};
use crate::searching::For;

#[async_trait]
impl LanguageServer for Server {
    async fn initialize(&self, params: lsp::InitializeParams) -> Result<lsp::InitializeResult> {
        let options = params.initialization_options.as_ref();
        self.roots.begin(&params);
        self.configuration.greet(options);
        let profile = ClientProfile::new(&params.capabilities).with_options(options);
        let announced = Arc::new(profile.with_settings(self.settings.clone()));
        Ok(convert::offer::offer(self.profile.get_or_init(|| announced)))
    }

    async fn initialized(&self, _: lsp::InitializedParams) {
        tokio::spawn(watch(self.client.clone(), self.profile()));
        self.configuration.begin(&self.profile());
        beforehand::make(&self.profile());
    }

    async fn shutdown(&self) -> Result<()> {
        Ok(())
    }

    async fn did_open(&self, params: lsp::DidOpenTextDocumentParams) {
        self.documents.open(&params.text_document, &self.profile());
    }

    async fn did_change(&self, params: lsp::DidChangeTextDocumentParams) {
        self.documents.change(params, &self.profile());
    }

    async fn did_save(&self, params: lsp::DidSaveTextDocumentParams) {
        self.documents.file_changed(&params.text_document.uri, &self.profile());
    }

    async fn did_close(&self, params: lsp::DidCloseTextDocumentParams) {
        self.tokens.forget(&params.text_document.uri);
        self.documents.close(params.text_document.uri, &self.profile());
    }

    async fn did_change_watched_files(&self, params: lsp::DidChangeWatchedFilesParams) {
        let client = self.profile();
        params.changes.iter().for_each(|change| self.documents.file_changed(&change.uri, &client));
    }

    async fn did_change_configuration(&self, params: lsp::DidChangeConfigurationParams) {
        self.configuration.changed(&params.settings, &self.profile());
    }

    async fn did_change_workspace_folders(&self, params: lsp::DidChangeWorkspaceFoldersParams) {
        self.roots.change(&params.event);
        // What sheets may use hangs on the folders.
        self.documents.begin_anew();
    }

    async fn hover(&self, params: lsp::HoverParams) -> Result<Option<lsp::Hover>> {
        let lsp::TextDocumentPositionParams { text_document, position } =
            params.text_document_position_params;
        self.pointed(&text_document.uri, position);
        let (sheets, sheet) = (self.documents.sheets(), self.documents.written(&text_document.uri));
        let said = self.about(&text_document.uri, move |it, client| {
            let of_cantus = || convert::hover::cantus(&sheets, &sheet?, position, client);
            of_cantus().or_else(|| convert::hover::hover(it, position, client))
        });
        Ok(said.await?.flatten())
    }

    async fn completion(
        &self,
        params: lsp::CompletionParams,
    ) -> Result<Option<lsp::CompletionResponse>> {
        let at = params.text_document_position.clone();
        self.pointed(&at.text_document.uri, at.position);
        if let Some(text) = self.documents.rulebook(&at.text_document.uri) {
            let (complete, client) = (convert::completion::completion_in_rulebook, self.profile());
            return away(move || complete(&text, at.position, &client)).await;
        }
        let workspace = self.documents.workspace();
        let choices =
            self.about_in_time(&at.text_document.uri, For::Prompt, move |it, client, given_up| {
                let uri = &params.text_document_position.text_document.uri;
                let sheets = |folder: &str| {
                    let own = uri.to_file_path();
                    own.map_or_else(
                        |()| Vec::new(),
                        |own| folders::beside(&own, folder, &workspace),
                    )
                };
                let near = Near { schools: &nearby(uri), sheets: &sheets };
                convert::completion::completion(it, &params, &near, client, given_up)
            });
        Ok(choices.await?.flatten())
    }

    async fn code_action(
        &self,
        params: lsp::CodeActionParams,
    ) -> Result<Option<lsp::CodeActionResponse>> {
        let uri = params.text_document.uri.clone();
        self.pointed(&uri, params.range.start);
        let actions = convert::action::actions;
        self.about_in_time(&uri, For::Prompt, move |it, client, given_up| {
            actions(it, &params, client, given_up)
        })
        .await
    }

    async fn code_lens(&self, params: lsp::CodeLensParams) -> Result<Option<Vec<lsp::CodeLens>>> {
        let uri = params.text_document.uri;
        let lenses = convert::lens::code_lenses;
        self.about(&uri.clone(), move |it, client| lenses(it, &uri, client)).await
    }

    async fn code_lens_resolve(&self, lens: lsp::CodeLens) -> Result<lsp::CodeLens> {
        let Some((uri, number)) = convert::lens::subject(&lens) else { return Ok(lens) };
        let (unresolved, subject) = (lens.clone(), uri.clone());
        let resolved = self.about_in_time(&uri, For::Beside, move |it, _, given_up| {
            convert::lens::resolved(it, lens, (&subject, number), given_up)
        });
        Ok(resolved.await?.unwrap_or(unresolved))
    }

    async fn execute_command(
        &self,
        params: lsp::ExecuteCommandParams,
    ) -> Result<Option<serde_json::Value>> {
        let (arguments, documents) = (&params.arguments, &self.documents);
        match params.command.as_str() {
            FILL => {
                let token = params.work_done_progress_params.work_done_token;
                let (client, profile) = (&self.client, self.profile());
                let fill = self.commands.fill(arguments, token, documents, client, profile);
                fill.await.map(|()| None)
            }
            SHOW => self.scores.show(arguments, documents, self.profile()).await,
            ADDRESS => self.scores.tell(arguments, documents, self.profile()).await,
            unknown => Err(Error::invalid_params(format!("there is no command {unknown:?}"))),
        }
    }

    async fn document_symbol(
        &self,
        params: lsp::DocumentSymbolParams,
    ) -> Result<Option<lsp::DocumentSymbolResponse>> {
        let uri = params.text_document.uri;
        let symbols = convert::outline::symbols;
        self.about(&uri.clone(), move |it, client| symbols(it, &uri, client)).await
    }

    async fn symbol(
        &self,
        params: lsp::WorkspaceSymbolParams,
    ) -> Result<Option<Vec<lsp::SymbolInformation>>> {
        let (sheets, encoding) = (self.documents.sheets(), self.profile().encoding);
        away(move || Some(symbols::search(&sheets, &params.query, encoding))).await
    }

    async fn folding_range(
        &self,
        params: lsp::FoldingRangeParams,
    ) -> Result<Option<Vec<lsp::FoldingRange>>> {
        self.about(&params.text_document.uri, convert::outline::folding).await
    }

    async fn selection_range(
        &self,
        params: lsp::SelectionRangeParams,
    ) -> Result<Option<Vec<lsp::SelectionRange>>> {
        let (select, positions) = (convert::outline::selections, params.positions);
        let uri = params.text_document.uri;
        positions.first().into_iter().for_each(|position| self.pointed(&uri, *position));
        self.about(&uri, move |it, client| select(it, &positions, client)).await
    }

    async fn document_link(
        &self,
        params: lsp::DocumentLinkParams,
    ) -> Result<Option<Vec<lsp::DocumentLink>>> {
        let (uri, documents) = (params.text_document.uri, self.documents.clone());
        self.about(&uri.clone(), move |judged, client| {
            let file = |target: &_| documents.file(target, &uri);
            convert::link::document_links(judged, client, file)
        })
        .await
    }

    async fn inlay_hint(
        &self,
        params: lsp::InlayHintParams,
    ) -> Result<Option<Vec<lsp::InlayHint>>> {
        let hints = convert::hint::inlay_hints;
        let uri = params.text_document.uri;
        self.about(&uri, move |it, client| hints(it, params.range, client)).await
    }

    async fn document_highlight(
        &self,
        params: lsp::DocumentHighlightParams,
    ) -> Result<Option<Vec<lsp::DocumentHighlight>>> {
        let lsp::TextDocumentPositionParams { text_document, position } =
            params.text_document_position_params;
        self.pointed(&text_document.uri, position);
        let highlight = convert::highlight::document_highlights;
        self.about(&text_document.uri, move |it, client| highlight(it, position, client)).await
    }

    async fn goto_definition(
        &self,
        params: lsp::GotoDefinitionParams,
    ) -> Result<Option<lsp::GotoDefinitionResponse>> {
        let at = params.text_document_position_params;
        let found = self.about_name(at, |sheets, sheet, name, client| {
            let defined = names::defined(sheets, sheet, name)?;
            Some(convert::name::locations(&[defined], client).into())
        });
        Ok(found.await?.flatten())
    }

    async fn references(&self, params: lsp::ReferenceParams) -> Result<Option<Vec<lsp::Location>>> {
        let scope = names::Scope::of(params.context.include_declaration);
        let at = params.text_document_position;
        let found = self.about_name(at, move |sheets, sheet, name, client| {
            let places = names::places(sheets, sheet, name, scope)?;
            Some(convert::name::locations(&places, client))
        });
        Ok(found.await?.flatten())
    }

    async fn prepare_rename(
        &self,
        params: lsp::TextDocumentPositionParams,
    ) -> Result<Option<lsp::PrepareRenameResponse>> {
        let prepared = self.about_name(params, |sheets, sheet, name, client| {
            names::renamable(sheets, sheet, name)?;
            Ok(convert::name::prepared(sheet, name, client))
        });
        prepared.await?.transpose().map_err(Error::invalid_params::<String>)
    }

    async fn rename(&self, params: lsp::RenameParams) -> Result<Option<lsp::WorkspaceEdit>> {
        let (at, new) = (params.text_document_position, params.new_name);
        let renamed = self.about_name(at, move |sheets, sheet, name, client| {
            let places = names::renamed(sheets, sheet, name, &new)?;
            Ok(convert::name::renaming(places, &new, client))
        });
        renamed.await?.transpose().map_err(Error::invalid_params::<String>)
    }

    async fn semantic_tokens_full(
        &self,
        params: lsp::SemanticTokensParams,
    ) -> Result<Option<lsp::SemanticTokensResult>> {
        let (uri, sent) = (params.text_document.uri.clone(), self.tokens.clone());
        let painted = convert::tokens::painted;
        let whole = move |it: &Judged, client: &ClientProfile| {
            lsp::SemanticTokensResult::from(sent.whole(&uri, painted(it, client)))
        };
        self.about_at_length(&params.text_document.uri, whole).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: lsp::SemanticTokensDeltaParams,
    ) -> Result<Option<lsp::SemanticTokensFullDeltaResult>> {
        let (uri, previous) = (params.text_document.uri, params.previous_result_id);
        let (sent, painted) = (self.tokens.clone(), convert::tokens::painted);
        self.about(&uri.clone(), move |it, client| sent.since(&uri, &previous, painted(it, client)))
            .await
    }

    async fn semantic_tokens_range(
        &self,
        params: lsp::SemanticTokensRangeParams,
    ) -> Result<Option<lsp::SemanticTokensRangeResult>> {
        let tokens = convert::tokens::in_range;
        let uri = params.text_document.uri;
        self.about(&uri, move |it, client| tokens(it, params.range, client).into()).await
    }

    async fn formatting(
        &self,
        params: lsp::DocumentFormattingParams,
    ) -> Result<Option<Vec<lsp::TextEdit>>> {
        self.about_at_length(&params.text_document.uri, convert::format::edits).await
    }

    async fn range_formatting(
        &self,
        params: lsp::DocumentRangeFormattingParams,
    ) -> Result<Option<Vec<lsp::TextEdit>>> {
        let edits = convert::format::edits_in;
        let uri = params.text_document.uri;
        self.about(&uri, move |it, client| edits(it, params.range, client)).await
    }

    async fn on_type_formatting(
        &self,
        params: lsp::DocumentOnTypeFormattingParams,
    ) -> Result<Option<Vec<lsp::TextEdit>>> {
        let lsp::TextDocumentPositionParams { text_document, position } =
            params.text_document_position;
        let edits = convert::format::edits_of_system;
        self.about(&text_document.uri, move |it, client| edits(it, position, client)).await
    }

    async fn diagnostic(
        &self,
        params: lsp::DocumentDiagnosticParams,
    ) -> Result<lsp::DocumentDiagnosticReportResult> {
        let client = self.profile();
        if client.delivery == Delivery::Push {
            return Err(Error::method_not_found());
        }
        let Some(asked) = self.documents.ask(&params.text_document.uri) else {
            return Ok(convert::report::nothing());
        };
        let report = convert::report::report;
        hand_over(answer(asked, move |judged| report(judged, &params, &client)).await?);
        Ok(convert::report::nothing())
    }

    async fn workspace_diagnostic(
        &self,
        params: lsp::WorkspaceDiagnosticParams,
    ) -> Result<lsp::WorkspaceDiagnosticReportResult> {
        let profile = self.profile();
        if profile.delivery == Delivery::Push {
            return Err(Error::method_not_found());
        }
        let (open, unopened) = (self.documents.ask_all(), self.documents.unopened());
        let (folders, client) = (self.roots.folders(), self.client.clone());
        let survey = Survey { open, unopened, folders, client, profile };
        hand_over(survey.report(params).await?);
        Ok(lsp::WorkspaceDiagnosticReport::default().into())
    }
}
