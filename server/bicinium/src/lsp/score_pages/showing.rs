//! Two commands: to show the score of a sheet, in the browser where the client can open it and by a message
//! with its address elsewhere; and only to tell its address, for clients that have a place of their own
//! for it.
//!
//! It must not know what is on a page.

use std::sync::Arc;
use std::time::Duration;

use serde_json::Value;
use tokio::time::timeout;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{MessageType, ShowDocumentParams, Url};

use super::ScorePages;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::documents::Documents;

/// The name of the command that shows the score; it takes the address of the sheet.
pub(in crate::lsp) const SHOW: &str = "bicinium.showScore";
/// The name of the command that only tells where the score is.
pub(in crate::lsp) const ADDRESS: &str = "bicinium.scoreAddress";

/// How long a client may take to open a browser.
const PATIENCE: Duration = Duration::from_secs(60);

impl ScorePages {
    /// Shows the score of a sheet; the answer is the address of the page, or nothing if there is none.
    pub(in crate::lsp) async fn show(
        &self,
        arguments: &[Value],
        documents: &Arc<Documents>,
        profile: Arc<ClientProfile>,
    ) -> Result<Option<Value>> {
        let address = self.tell(arguments, documents, profile.clone()).await?;
        if let Some(address) = address.as_ref().and_then(Value::as_str) {
            tokio::spawn(open(self.client.clone(), profile, address.to_owned()));
        }
        Ok(address)
    }

    /// Tells where the score of a sheet is.
    pub(in crate::lsp) async fn tell(
        &self,
        arguments: &[Value],
        documents: &Arc<Documents>,
        profile: Arc<ClientProfile>,
    ) -> Result<Option<Value>> {
        let uri = arguments.first().and_then(Value::as_str).and_then(|uri| Url::parse(uri).ok());
        let uri = uri.ok_or_else(|| Error::invalid_params("it takes the address of a sheet"))?;
        let Some(asked) = documents.ask(&uri) else {
            self.say("The sheet is not open, so its score cannot be shown.".to_owned()).await;
            return Ok(None);
        };
        let judged = asked.await.map_err(|_| Error::internal_error())?;
        match self.address(&uri, judged, profile, Arc::downgrade(documents)).await {
            Ok(address) => {
                self.catch_up(&uri, documents).await;
                Ok(Some(address.into()))
            }
            Err(error) => {
                self.say(format!("The score cannot be shown: {error}.")).await;
                Ok(None)
            }
        }
    }

    /// Shows what has become of a sheet while its page was made.
    async fn catch_up(&self, uri: &Url, documents: &Documents) {
        let Some(asked) = documents.ask(uri) else { return self.closed(uri) };
        if let Ok(judged) = asked.await
            && self.shown_version(uri) != Some(judged.version)
        {
            self.judged(uri, &judged);
        }
    }

    async fn say(&self, message: String) {
        self.client.show_message(MessageType::INFO, message).await;
    }
}

async fn open(client: Client, profile: Arc<ClientProfile>, address: String) {
    let Ok(uri) = Url::parse(&address) else { return };
    let (external, take_focus) = (Some(true), Some(true));
    let params = ShowDocumentParams { uri, external, take_focus, selection: None };
    let is_open = profile.can(Ability::ShowDocument)
        && matches!(timeout(PATIENCE, client.show_document(params)).await, Ok(Ok(true)));
    if !is_open {
        client.show_message(MessageType::INFO, format!("The score is at {address}")).await;
    }
}
