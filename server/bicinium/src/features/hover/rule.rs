//! What is said about a rule: its page. And what is said of a finding where it stands.

use bicinium_analysis::finding::Finding;
use bicinium_analysis::rules::{self, page::Page};

use super::Section;

/// The page of a rule; `None` if there is no rule of that name.
pub(super) fn say(name: &str) -> Option<Vec<Section>> {
    let entry = rules::named(name)?;
    let page = Page::of(entry.source);
    Some(vec![
        Section::Heading(entry.name.to_owned()),
        Section::Text(page.finds),
        Section::Text(page.why),
        Section::Fact("sources", page.sources),
        Section::Fact("schools", page.differences),
    ])
}

/// A finding in one paragraph, with the rule and its sources.
pub(super) fn finding(finding: &Finding) -> Section {
    let level = finding.level.name();
    let sources = rules::named(finding.rule).map(|entry| Page::of(entry.source).sources);
    let sources = sources.map(|sources| format!(" Source: {sources}")).unwrap_or_default();
    let accepted = finding.accepted.as_ref().map(|acceptance| match &acceptance.reason {
        Some(reason) => format!(" Accepted: {reason}."),
        None => " Accepted.".to_owned(),
    });
    let accepted = accepted.unwrap_or_default();
    Section::Text(format!("{level} ({}): {}{accepted}{sources}", finding.rule, finding.message))
}
