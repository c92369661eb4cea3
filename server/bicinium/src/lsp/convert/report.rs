//! Diagnostics as the reply to a client that asks for them.
//!
//! It must not keep what it has replied: the result id is made from the diagnostics themselves.

use tower_lsp::lsp_types as lsp;

use super::diagnostic::{diagnostics, fingerprint};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The diagnostics, or the news that they are the same as those the client has.
pub(in crate::lsp) fn report(
    judged: &Judged,
    asked: &lsp::DocumentDiagnosticParams,
    client: &ClientProfile,
) -> lsp::DocumentDiagnosticReportResult {
    let uri = &asked.text_document.uri;
    let id = result_id(judged, uri, client);
    if asked.previous_result_id.as_ref() == Some(&id) {
        return unchanged(id).into();
    }
    full(Some(id), diagnostics(judged, uri, client)).into()
}

/// What stands for all that is shown of a document.
pub(super) fn result_id(judged: &Judged, uri: &lsp::Url, client: &ClientProfile) -> String {
    format!("{:016x}", fingerprint(judged, uri, client))
}

/// The reply about a document that is not open.
pub(in crate::lsp) fn nothing() -> lsp::DocumentDiagnosticReportResult {
    full(None, Vec::new()).into()
}

fn full(result_id: Option<String>, items: Vec<lsp::Diagnostic>) -> lsp::DocumentDiagnosticReport {
    lsp::RelatedFullDocumentDiagnosticReport {
        related_documents: None,
        full_document_diagnostic_report: lsp::FullDocumentDiagnosticReport { result_id, items },
    }
    .into()
}

fn unchanged(result_id: String) -> lsp::DocumentDiagnosticReport {
    lsp::RelatedUnchangedDocumentDiagnosticReport {
        related_documents: None,
        unchanged_document_diagnostic_report: lsp::UnchangedDocumentDiagnosticReport { result_id },
    }
    .into()
}
