//! Findings as diagnostics.
//!
//! It must not know whether they are pushed or pulled.

use std::sync::Arc;

use bicinium_analysis::sheet::{Noted, Placed};
use bicinium_analysis::{Finding, Level, Located, Related};
use tower_lsp::lsp_types as lsp;

use super::offer::NAME;
use crate::features::page;
use crate::features::realizing::known_dead_end;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;
use crate::lsp::rendered::Rendered;
use crate::lsp::rule_pages::RulePages;
use crate::lsp::shown::Shown;

/// All findings of a document, ready to be sent.
pub(in crate::lsp) fn shown(judged: &Judged, uri: &lsp::Url, client: &ClientProfile) -> Shown {
    let version = client.can(Ability::DiagnosticVersion).then_some(judged.version);
    let pages = client.settings.now().rule_pages.clone();
    let render = |noted: Noted<'_>| {
        let block = judged.noted(noted);
        let make = || Arc::new(Rendered::new(&in_block(judged, noted, uri, client)));
        (noted.line, (**block.keep(&given(noted, &pages), make)).clone())
    };
    Shown { uri: uri.clone(), version, parts: judged.snapshot.noted().map(render).collect() }
}

/// On what the diagnostics of a block hang besides: where the pages of rules are to which it has
/// links, and whether the exercise can be finished.
fn given(noted: Noted<'_>, pages: &RulePages) -> (RulePages, Option<Finding>) {
    (pages.clone(), known_dead_end(noted.judged))
}

/// The findings of a block, in its own lines.
fn in_block(
    judged: &Judged,
    noted: Noted<'_>,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::Diagnostic> {
    let Noted { start, line, judged: block } = noted;
    let placed = Placed { start, line, number: None, judged: block.clone() };
    let end = known_dead_end(block);
    let located =
        block.findings.iter().chain(&end).map(|it| Located { block: &placed, finding: it });
    let mut diagnostics: Vec<_> =
        located.map(|located| diagnostic(judged, located, uri, client)).collect();
    for diagnostic in &mut diagnostics {
        judged.noted(noted).count_within(diagnostic);
    }
    diagnostics
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
    let page = client.settings.now().rule_pages.address(finding.rule);
    let href = page.filter(|_| client.can(Ability::CodeDescription))?;
    Some(lsp::CodeDescription { href })
}

/// What is wrong; for clients that show no link to the rule, also what the rule is for.
fn message(finding: &Finding, client: &ClientProfile) -> String {
    let wrong = wrong(finding);
    if client.can(Ability::CodeDescription) {
        return wrong;
    }
    let purpose = page::purpose(finding.rule);
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
