//! What the protocol asks, request by request.
//!
//! Every handler changes or reads the state before its first wait, and leaves the thinking to
//! tasks of its own. It must not know how an answer is found or how it is put.

use std::sync::{Arc, OnceLock};

use tokio::sync::oneshot;
use tokio::task::spawn_blocking;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types as lsp;
use tower_lsp::{Client, LanguageServer, async_trait};

use super::alarm;
use super::client::{ClientProfile, Delivery};
use super::configuration::Configuration;
use super::convert;
use super::document::Judged;
use super::documents::Documents;
use super::newer::{TextDocumentContentParams, TextDocumentContentResult};
use super::painted::Sent;
use super::publisher::Publisher;
use super::refresher::Refresher;
use super::roots::Roots;
use super::rule_pages;
use super::settings::InForce;
use super::shown::Shown;
use super::survey::Survey;
use super::symbols::Search;
use super::transport::Outbox;
use super::watch::watch;

/// The server as one client sees it.
pub(super) struct Server {
    client: Client,
    profile: OnceLock<Arc<ClientProfile>>,
    documents: Arc<Documents>,
    settings: InForce,
    roots: Roots,
    configuration: Configuration,
    tokens: Sent,
}

impl Server {
    /// A server for this client, to which diagnostics go by way of the outbox. It has to be made
    /// within a Tokio runtime.
    pub(super) fn new(client: Client, outbox: Outbox) -> Self {
        alarm::set(client.clone());
        let publisher = Publisher::new(move |shown: Shown| outbox.send_body(shown.message()));
        let (settings, roots) = (InForce::default(), Roots::default());
        let refresher = Refresher::new(client.clone());
        let documents = Documents::new(publisher, refresher, settings.clone(), roots.clone());
        let documents = Arc::new(documents);
        let configuration = Configuration::new(client.clone(), settings.clone(), documents.clone());
        let (profile, tokens) = (OnceLock::new(), Sent::default());
        Server { client, profile, documents, settings, roots, configuration, tokens }
    }

    /// The text behind an address of the server's own.
    pub(super) async fn text_document_content(
        &self,
        params: TextDocumentContentParams,
    ) -> Result<TextDocumentContentResult> {
        let uri = params.uri.clone();
        let text = away(move || rule_pages::text(&uri)).await?;
        let nothing = || Error::invalid_params(format!("there is no text at {}", params.uri));
        let text = text.ok_or_else(nothing)?;
        Ok(TextDocumentContentResult { text })
    }

    fn profile(&self) -> Arc<ClientProfile> {
        let nothing = || Arc::new(ClientProfile::new(&lsp::ClientCapabilities::default()));
        self.profile.get_or_init(nothing).clone()
    }
}

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
    }

    async fn hover(&self, params: lsp::HoverParams) -> Result<Option<lsp::Hover>> {
        let at = params.text_document_position_params;
        let Some(asked) = self.documents.ask(&at.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| convert::hover::hover(judged, at.position, &client)).await
    }

    async fn completion(
        &self,
        params: lsp::CompletionParams,
    ) -> Result<Option<lsp::CompletionResponse>> {
        let at = params.text_document_position;
        let Some(asked) = self.documents.ask(&at.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        let complete = convert::completion::completion;
        answer(asked, move |judged| complete(judged, at.position, &client)).await
    }

    async fn code_action(
        &self,
        params: lsp::CodeActionParams,
    ) -> Result<Option<lsp::CodeActionResponse>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| Some(convert::action::actions(judged, &params, &client))).await
    }

    async fn code_lens(&self, params: lsp::CodeLensParams) -> Result<Option<Vec<lsp::CodeLens>>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| Some(convert::lens::code_lenses(judged, &client))).await
    }

    async fn document_symbol(
        &self,
        params: lsp::DocumentSymbolParams,
    ) -> Result<Option<lsp::DocumentSymbolResponse>> {
        let uri = params.text_document.uri;
        let Some(asked) = self.documents.ask(&uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| Some(convert::outline::symbols(judged, &uri, &client))).await
    }

    async fn symbol(
        &self,
        params: lsp::WorkspaceSymbolParams,
    ) -> Result<Option<Vec<lsp::SymbolInformation>>> {
        let (open, folders) = (self.documents.texts(), self.roots.folders());
        let search = Search { open, folders, encoding: self.profile().encoding };
        away(move || Some(search.search(&params.query))).await
    }

    async fn folding_range(
        &self,
        params: lsp::FoldingRangeParams,
    ) -> Result<Option<Vec<lsp::FoldingRange>>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| Some(convert::outline::folding(judged, &client))).await
    }

    async fn selection_range(
        &self,
        params: lsp::SelectionRangeParams,
    ) -> Result<Option<Vec<lsp::SelectionRange>>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        let selections = convert::outline::selections;
        answer(asked, move |judged| Some(selections(judged, &params.positions, &client))).await
    }

    async fn document_link(
        &self,
        params: lsp::DocumentLinkParams,
    ) -> Result<Option<Vec<lsp::DocumentLink>>> {
        let uri = params.text_document.uri;
        let Some(asked) = self.documents.ask(&uri) else { return Ok(None) };
        let (client, documents) = (self.profile(), self.documents.clone());
        answer(asked, move |judged| {
            let file = |target: &_| documents.file(target, &uri);
            Some(convert::link::document_links(judged, &client, file))
        })
        .await
    }

    async fn inlay_hint(
        &self,
        params: lsp::InlayHintParams,
    ) -> Result<Option<Vec<lsp::InlayHint>>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        let hints = convert::hint::inlay_hints;
        answer(asked, move |judged| Some(hints(judged, params.range, &client))).await
    }

    async fn semantic_tokens_full(
        &self,
        params: lsp::SemanticTokensParams,
    ) -> Result<Option<lsp::SemanticTokensResult>> {
        let uri = params.text_document.uri;
        let Some(asked) = self.documents.ask(&uri) else { return Ok(None) };
        let (client, sent) = (self.profile(), self.tokens.clone());
        let painted = convert::tokens::painted;
        answer(asked, move |judged| Some(sent.whole(&uri, painted(judged, &client)).into())).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: lsp::SemanticTokensDeltaParams,
    ) -> Result<Option<lsp::SemanticTokensFullDeltaResult>> {
        let (uri, previous) = (params.text_document.uri, params.previous_result_id);
        let Some(asked) = self.documents.ask(&uri) else { return Ok(None) };
        let (client, sent) = (self.profile(), self.tokens.clone());
        let painted = convert::tokens::painted;
        answer(asked, move |judged| Some(sent.since(&uri, &previous, painted(judged, &client))))
            .await
    }

    async fn semantic_tokens_range(
        &self,
        params: lsp::SemanticTokensRangeParams,
    ) -> Result<Option<lsp::SemanticTokensRangeResult>> {
        let Some(asked) = self.documents.ask(&params.text_document.uri) else { return Ok(None) };
        let client = self.profile();
        let tokens = convert::tokens::in_range;
        answer(asked, move |judged| Some(tokens(judged, params.range, &client).into())).await
    }

    async fn formatting(
        &self,
        params: lsp::DocumentFormattingParams,
    ) -> Result<Option<Vec<lsp::TextEdit>>> {
        let Some(text) = self.documents.text(&params.text_document.uri) else { return Ok(None) };
        let encoding = self.profile().encoding;
        away(move || Some(convert::format::edits(&text, encoding))).await
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
        answer(asked, move |judged| convert::report::report(judged, &params, &client)).await
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
        survey.report(params).await
    }
}

/// Waits until the document is judged and lets `work` make the answer from it.
async fn answer<T: Send + 'static>(
    asked: oneshot::Receiver<Judged>,
    work: impl FnOnce(&Judged) -> T + Send + 'static,
) -> Result<T> {
    let judged = asked.await.map_err(|_| Error::internal_error())?;
    away(move || work(&judged)).await
}

/// Does work that may take a while away from the tasks that serve the client.
async fn away<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T> {
    spawn_blocking(work).await.map_err(|_| Error::internal_error())
}
