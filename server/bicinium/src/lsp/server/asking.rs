//! How an answer is found: the state is read before the first wait, and the thinking is left to
//! tasks of its own.
//!
//! It must not know what is asked.

use std::sync::atomic::AtomicBool;

use serde::Serialize;
use tokio::sync::oneshot;
use tokio::task::spawn_blocking;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types as lsp;

use super::Server;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::names::{self, Named};
use crate::lsp::rehearsal::{self, Moment};
use crate::lsp::score_pages::Tidings;
use crate::lsp::sheets::{Sheets, Written};
use crate::lsp::transport::{hand_over, written_out};
use crate::searching::{For, search};

impl Server {
    /// The answer to a question about a document as it is now; nothing if it is not open.
    pub(super) async fn about<T: Send + 'static>(
        &self,
        uri: &lsp::Url,
        work: impl FnOnce(&Judged, &ClientProfile) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let Some(asked) = self.documents.ask(uri) else { return Ok(None) };
        let client = self.profile();
        answer(asked, move |judged| Some(work(judged, &client))).await
    }

    /// The same for an answer of many parts, which is handed over written out; what is returned is not
    /// looked at.
    pub(super) async fn about_at_length<T: Serialize>(
        &self,
        uri: &lsp::Url,
        work: impl FnOnce(&Judged, &ClientProfile) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let written = self.about(uri, move |it, client| written_out(&work(it, client))).await?;
        written.into_iter().for_each(hand_over);
        Ok(None)
    }

    /// The same for a question that takes its time: the work ends once nobody waits for it, and an
    /// answer about a text that has changed since is not given.
    pub(super) async fn about_in_time<T: Send + 'static>(
        &self,
        uri: &lsp::Url,
        purpose: For,
        work: impl FnOnce(&Judged, &ClientProfile, &AtomicBool) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let Some((question, asked)) = self.documents.question(uri) else { return Ok(None) };
        let (client, given_up) = (self.profile(), question.given_up());
        let judged = asked.await.map_err(|_| Error::internal_error())?;
        let work = move || {
            rehearsal::at(Moment::Searching, &judged.text);
            work(&judged, &client, &given_up)
        };
        let answer = search(purpose, work).await.ok_or_else(Error::internal_error)?;
        if question.is_overtaken() { Err(Error::content_modified()) } else { Ok(Some(answer)) }
    }

    /// The same of the name at a place, for which all sheets may matter; nothing if there is none.
    pub(super) async fn about_name<T: Send + 'static>(
        &self,
        at: lsp::TextDocumentPositionParams,
        work: impl FnOnce(&Sheets, &Written, &Named, &ClientProfile) -> T + Send + 'static,
    ) -> Result<Option<T>> {
        let Some(sheet) = self.documents.written(&at.text_document.uri) else { return Ok(None) };
        let (sheets, client) = (self.documents.sheets(), self.profile());
        away(move || {
            let named = names::named(&sheet, sheet.text.offset(at.position, client.encoding))?;
            Some(work(&sheets, &sheet, &named, &client))
        })
        .await
    }

    /// Takes note of a place about which something is asked: the cursor may be there.
    pub(super) fn pointed(&self, uri: &lsp::Url, position: lsp::Position) {
        self.scores.point(uri, position, &self.profile(), Tidings::Questions);
    }
}

/// Waits until the document is judged and lets `work` make the answer from it.
pub(super) async fn answer<T: Send + 'static>(
    asked: oneshot::Receiver<Judged>,
    work: impl FnOnce(&Judged) -> T + Send + 'static,
) -> Result<T> {
    let judged = asked.await.map_err(|_| Error::internal_error())?;
    away(move || {
        rehearsal::at(Moment::Answering, &judged.text);
        work(&judged)
    })
    .await
}

/// Does work that may take a while away from the tasks that serve the client.
pub(super) async fn away<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T> {
    spawn_blocking(work).await.map_err(|_| Error::internal_error())
}
