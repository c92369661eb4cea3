//! Diagnostics of the whole workspace as the reply to a client that asks for them: full where
//! something has changed, short where not.
//!
//! It must not know which documents are open.

use std::collections::HashMap;

use tower_lsp::lsp_types as lsp;

use super::diagnostic::diagnostics;
use super::report::result_id;
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

    /// What is to be told of a document. It is not asked about again.
    pub(in crate::lsp) fn report(
        &mut self,
        uri: &lsp::Url,
        judged: &Judged,
        version: Option<i64>,
        client: &ClientProfile,
    ) -> lsp::WorkspaceDocumentDiagnosticReport {
        let id = result_id(judged, uri, client);
        if self.ids.remove(uri).as_ref() == Some(&id) {
            return unchanged(uri, version, id);
        }
        full(uri, version, Some(id), diagnostics(judged, uri, client))
    }

    /// That there is nothing any more in the documents that have not been asked about.
    pub(in crate::lsp) fn gone(
        self,
    ) -> impl Iterator<Item = lsp::WorkspaceDocumentDiagnosticReport> {
        self.ids.into_keys().map(|uri| full(&uri, None, None, Vec::new()))
    }
}

fn full(
    uri: &lsp::Url,
    version: Option<i64>,
    result_id: Option<String>,
    items: Vec<lsp::Diagnostic>,
) -> lsp::WorkspaceDocumentDiagnosticReport {
    lsp::WorkspaceDocumentDiagnosticReport::Full(lsp::WorkspaceFullDocumentDiagnosticReport {
        uri: uri.clone(),
        version,
        full_document_diagnostic_report: lsp::FullDocumentDiagnosticReport { result_id, items },
    })
}

fn unchanged(
    uri: &lsp::Url,
    version: Option<i64>,
    result_id: String,
) -> lsp::WorkspaceDocumentDiagnosticReport {
    let report = lsp::WorkspaceUnchangedDocumentDiagnosticReport {
        uri: uri.clone(),
        version,
        unchanged_document_diagnostic_report: lsp::UnchangedDocumentDiagnosticReport { result_id },
    };
    lsp::WorkspaceDocumentDiagnosticReport::Unchanged(report)
}
