//! What is said of a finding where it stands, and of the name of a rule.

use bicinium_analysis::finding::Finding;
use bicinium_analysis::rules;

use super::Section;
use crate::features::page;

/// The page of a rule; `None` if there is no rule of that name.
pub(super) fn say(name: &str) -> Option<Vec<Section>> {
    rules::named(name).map(page::whole)
}

/// What was found at one place. The gravest finding is explained; of the others it is said what is
/// wrong, so that there is not too much to read.
pub(super) fn findings<'f>(found: impl Iterator<Item = &'f Finding>) -> Vec<Section> {
    let mut found: Vec<_> = found.collect();
    found.sort_by_key(|finding| (!finding.stands(), finding.level));
    let Some((gravest, others)) = found.split_first() else { return Vec::new() };
    let explained = std::iter::once(finding(gravest)).chain(page::explanation(gravest.rule));
    explained.chain(others.iter().map(|other| finding(other))).collect()
}

/// A finding in one paragraph.
fn finding(finding: &Finding) -> Section {
    let accepted = match &finding.accepted {
        Some(acceptance) => match &acceptance.reason {
            Some(reason) => format!(" Accepted: {reason}."),
            None => " Accepted.".to_owned(),
        },
        None => String::new(),
    };
    let level = finding.level.name();
    Section::Text(format!("{level} ({}): {}{accepted}", finding.rule, finding.message))
}
