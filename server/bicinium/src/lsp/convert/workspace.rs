//! Diagnostics of the whole workspace as the reply to a client that asks for them: full where
//! something has changed, short where not.
//!
//! It must not know which documents are open.

use std::collections::HashMap;

use serde_json::Value;
use tower_lsp::lsp_types as lsp;

use super::diagnostic::shown;
use super::report;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// What the client has already, by document.
pub(in crate::lsp) struct Previous {
    ids: HashMap<lsp::Url, String>,
}

impl Previous {
    /// Reads what a client says that it has.
    pub(in crate::lsp) fn new(ids: Vec<lsp::PreviousResultId>) -> Self {
        Previous { ids: ids.into_iter().map(|id| (id.uri, id.value)).collect() }
    }

    /// What is to be told of a document, written out. It is not asked about again.
    pub(in crate::lsp) fn report(
        &mut self,
        uri: &lsp::Url,
        judged: &Judged,
        version: Option<i64>,
        client: &ClientProfile,
    ) -> Vec<u8> {
        let mut report = of(uri, version);
        let previous = self.ids.remove(uri);
        report::write(&shown(judged, uri, client), previous.as_deref(), &mut report);
        report.push(b'}');
        report
    }

    /// That there is nothing any more in the documents that have not been asked about.
    pub(in crate::lsp) fn gone(self) -> impl Iterator<Item = Vec<u8>> {
        self.ids.into_keys().map(|uri| [&*of(&uri, None), br#""kind":"full","items":[]}"#].concat())
    }
}

/// The reply for a workspace with such reports on its documents.
pub(in crate::lsp) fn reply(reports: &[Vec<u8>]) -> Vec<u8> {
    [br#"{"items":["#, &*reports.join(&b','), b"]}"].concat()
}

/// How a report on a document begins.
fn of(uri: &lsp::Url, version: Option<i64>) -> Vec<u8> {
    let (uri, version) = (Value::from(uri.as_str()), Value::from(version));
    format!("{{\"uri\":{uri},\"version\":{version},").into_bytes()
}
