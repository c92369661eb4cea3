//! What clients ask that the types of the protocol do not know, request by request.
//!
//! It must not know how an answer is found or how it is put.

use std::future::{Ready, ready};

use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{TextDocumentPositionParams, WorkDoneProgressCancelParams};

use super::Server;
use super::asking::away;
use crate::lsp::newer::{TextDocumentContentParams, TextDocumentContentResult};
use crate::lsp::rule_pages;
use crate::lsp::score_pages::Tidings;

impl Server {
    /// The text behind an address of the server's own.
    pub(in crate::lsp) async fn text_document_content(
        &self,
        params: TextDocumentContentParams,
    ) -> Result<TextDocumentContentResult> {
        let uri = params.uri.clone();
        let text = away(move || rule_pages::text(&uri)).await?;
        let nothing = || Error::invalid_params(format!("there is no text at {}", params.uri));
        let text = text.ok_or_else(nothing)?;
        Ok(TextDocumentContentResult { text })
    }

    /// The cursor has moved.
    pub(in crate::lsp) fn cursor_moved(&self, at: TextDocumentPositionParams) -> Ready<()> {
        let TextDocumentPositionParams { text_document, position } = at;
        self.scores.point(&text_document.uri, position, &self.profile(), Tidings::Client);
        ready(())
    }

    /// The client does not want any more what is done under a token.
    pub(in crate::lsp) fn progress_cancelled(
        &self,
        params: WorkDoneProgressCancelParams,
    ) -> Ready<()> {
        self.commands.cancel(params);
        ready(())
    }
}
