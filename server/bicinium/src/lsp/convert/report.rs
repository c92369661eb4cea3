//! Diagnostics as the reply to a client that asks for them.
//!
//! It must not keep what it has replied: the result id is made from the diagnostics themselves.

use tower_lsp::lsp_types as lsp;

use super::diagnostic::shown;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::shown::Shown;

/// The diagnostics, or the news that they are the same as those the client has, written out.
pub(in crate::lsp) fn report(
    judged: &Judged,
    asked: &lsp::DocumentDiagnosticParams,
    client: &ClientProfile,
) -> Vec<u8> {
    let shown = shown(judged, &asked.text_document.uri, client);
    let mut report = b"{".to_vec();
    write(&shown, asked.previous_result_id.as_deref(), &mut report);
    report.push(b'}');
    report
}

/// Writes what a report says of one document, given what the client has already.
pub(super) fn write(shown: &Shown, previous: Option<&str>, report: &mut Vec<u8>) {
    let id = format!("{:016x}", shown.fingerprint());
    let is_known = previous == Some(&id);
    let kind = if is_known { "unchanged" } else { "full" };
    report.extend_from_slice(format!("\"kind\":\"{kind}\",\"resultId\":\"{id}\"").as_bytes());
    if !is_known {
        report.extend_from_slice(b",\"items\":[");
        shown.write(report);
        report.push(b']');
    }
}

/// The reply about a document that is not open.
pub(in crate::lsp) fn nothing() -> lsp::DocumentDiagnosticReportResult {
    let report = lsp::FullDocumentDiagnosticReport { result_id: None, items: Vec::new() };
    lsp::DocumentDiagnosticReport::from(lsp::RelatedFullDocumentDiagnosticReport {
        related_documents: None,
        full_document_diagnostic_report: report,
    })
    .into()
}
