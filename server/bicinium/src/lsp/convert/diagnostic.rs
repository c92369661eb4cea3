//! Findings as diagnostics.
//!
//! It must not know whether they are pushed or pulled.

use std::hash::{DefaultHasher, Hash, Hasher};
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

/// All findings of a document, ready to be pushed. What was made of a block is kept with it.
pub(in crate::lsp) fn shown(judged: &Judged, uri: &lsp::Url, client: &ClientProfile) -> Shown {
    let version = client.can(Ability::DiagnosticVersion).then_some(judged.version);
    let render = |noted: Noted<'_>| {
        let pages = client.settings.now().rule_pages.clone();
        let end = known_dead_end(noted.judged);
        let is_current = |known: &Made<Arc<Rendered>>| known.pages == pages && known.end == end;
        let make = || {
            let rendered = Rendered::new(&diagnostics_of(judged, noted, uri, client));
            Made { pages: pages.clone(), end: end.clone(), thing: Arc::new(rendered) }
        };
        (noted.line, noted.judged.kept.get_or_make(is_current, make).thing.clone())
    };
    Shown { uri: uri.clone(), version, parts: judged.snapshot.noted().map(render).collect() }
}

/// All findings of a document, in the order of its text.
pub(super) fn diagnostics(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::Diagnostic> {
    let of_block = |noted: Noted<'_>| {
        let line = count(noted.line);
        let kept = Relative::of(judged, noted, uri, client);
        kept.thing
            .diagnostics
            .iter()
            .map(|it| moved(it.clone(), |at| at + line))
            .collect::<Vec<_>>()
    };
    judged.snapshot.noted().flat_map(of_block).collect()
}

/// A number that stands for all that is shown of a document, in the order of its text.
pub(super) fn fingerprint(judged: &Judged, uri: &lsp::Url, client: &ClientProfile) -> u64 {
    let mut hasher = DefaultHasher::new();
    for noted in judged.snapshot.noted() {
        (noted.line, Relative::of(judged, noted, uri, client).thing.fingerprint).hash(&mut hasher);
    }
    hasher.finish()
}

/// Something made of a block, and what was known when it was made: where the pages of rules are to
/// which it has links, and whether the exercise can be finished.
struct Made<T> {
    pages: RulePages,
    end: Option<Finding>,
    thing: T,
}

/// Diagnostics of a block, their lines counted from its beginning.
struct Relative {
    diagnostics: Vec<lsp::Diagnostic>,
    fingerprint: u64,
}

impl Relative {
    /// Those of a block, kept with it.
    fn of(
        judged: &Judged,
        noted: Noted<'_>,
        uri: &lsp::Url,
        client: &ClientProfile,
    ) -> Arc<Made<Self>> {
        let pages = client.settings.now().rule_pages.clone();
        let end = known_dead_end(noted.judged);
        let is_current = |known: &Made<Self>| known.pages == pages && known.end == end;
        noted.judged.kept.get_or_make(is_current, || {
            let diagnostics = diagnostics_of(judged, noted, uri, client);
            let mut hasher = DefaultHasher::new();
            format!("{diagnostics:?}").hash(&mut hasher);
            let thing = Self { diagnostics, fingerprint: hasher.finish() };
            Made { pages: pages.clone(), end: end.clone(), thing }
        })
    }
}

fn diagnostics_of(
    judged: &Judged,
    noted: Noted<'_>,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::Diagnostic> {
    let block = Placed { start: noted.start, number: None, judged: noted.judged.clone() };
    let line = count(noted.line);
    let end = known_dead_end(noted.judged);
    let all = noted.judged.findings.iter().chain(&end);
    let located = all.map(|finding| Located { block: &block, finding });
    let whole = located.map(|located| diagnostic(judged, located, uri, client));
    whole.map(|it| moved(it, |at| at.saturating_sub(line))).collect()
}

/// A diagnostic with its lines counted otherwise.
fn moved(mut diagnostic: lsp::Diagnostic, line: impl Fn(u32) -> u32) -> lsp::Diagnostic {
    let related = diagnostic.related_information.iter_mut().flatten();
    let ranges = related.map(|it| &mut it.location.range).chain([&mut diagnostic.range]);
    for range in ranges {
        range.start.line = line(range.start.line);
        range.end.line = line(range.end.line);
    }
    diagnostic
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
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
