//! Findings as diagnostics.
//!
//! It must not know whether they are pushed or pulled.

use bicinium_analysis::{Finding, Level, Located, Related};
use tower_lsp::lsp_types as lsp;

use super::offer::NAME;
use crate::features::page;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;

/// All findings of a document, ready to be pushed.
pub(in crate::lsp) fn published(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> lsp::PublishDiagnosticsParams {
    let version = client.can(Ability::DiagnosticVersion).then_some(judged.version);
    lsp::PublishDiagnosticsParams::new(uri.clone(), diagnostics(judged, uri, client), version)
}

/// All findings of a document, in the order of its text.
pub(super) fn diagnostics(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::Diagnostic> {
    let findings = judged.snapshot.findings();
    findings.map(|found| diagnostic(judged, found, uri, client)).collect()
}

/// One finding. Accepted ones are shown as a hint with the reason.
pub(super) fn diagnostic(
    judged: &Judged,
    found: Located<'_>,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> lsp::Diagnostic {
    let related =
        client.can(Ability::RelatedInformation).then(|| related(judged, found, uri, client));
    lsp::Diagnostic {
        range: judged.text.range(found.range(), client.encoding),
        severity: Some(severity(found.finding)),
        code: Some(lsp::NumberOrString::String(found.finding.rule.to_owned())),
        code_description: description(found.finding, client),
        source: Some(NAME.to_owned()),
        message: message(found.finding, client),
        related_information: related.filter(|related| !related.is_empty()),
        ..lsp::Diagnostic::default()
    }
}

fn severity(finding: &Finding) -> lsp::DiagnosticSeverity {
    match finding.level {
        _ if finding.accepted.is_some() => lsp::DiagnosticSeverity::HINT,
        Level::Notation | Level::Fault => lsp::DiagnosticSeverity::ERROR,
        Level::Caution => lsp::DiagnosticSeverity::WARNING,
        Level::Advice => lsp::DiagnosticSeverity::INFORMATION,
        Level::Unfinished => lsp::DiagnosticSeverity::HINT,
    }
}

/// Where the rule is explained, for clients that show it.
fn description(finding: &Finding, client: &ClientProfile) -> Option<lsp::CodeDescription> {
    let page = client.rule_pages.address(finding.rule);
    let href = page.filter(|_| client.can(Ability::CodeDescription))?;
    Some(lsp::CodeDescription { href })
}

/// What is wrong; for clients that show no link to the rule, also what the rule is for.
fn message(finding: &Finding, client: &ClientProfile) -> String {
    let wrong = wrong(finding);
    let purpose = page::purpose(finding.rule).filter(|_| !client.can(Ability::CodeDescription));
    purpose.map_or_else(|| wrong.clone(), |purpose| format!("{wrong}\n\n{purpose}"))
}

fn wrong(finding: &Finding) -> String {
    let Some(acceptance) = &finding.accepted else { return finding.message.clone() };
    match &acceptance.reason {
        Some(reason) => format!("Accepted, because {reason}. {}", finding.message),
        None => format!("Accepted. {}", finding.message),
    }
}

fn related(
    judged: &Judged,
    found: Located<'_>,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::DiagnosticRelatedInformation> {
    let licence = found.finding.accepted.as_ref().map(|acceptance| Related {
        range: acceptance.range,
        message: "Accepted by this licence.".to_owned(),
    });
    let places = found.finding.related.iter().chain(&licence);
    let at = |place: &Related| {
        let range = judged.text.range(found.block.in_sheet(place.range), client.encoding);
        lsp::Location::new(uri.clone(), range)
    };
    let information = |place: &Related| lsp::DiagnosticRelatedInformation {
        location: at(place),
        message: place.message.clone(),
    };
    places.map(information).collect()
}
