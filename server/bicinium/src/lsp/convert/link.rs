//! Links from names in a sheet to what they name.
//!
//! It must not know what a sheet can name.

use tower_lsp::lsp_types as lsp;

use crate::features::links::{Target, links};
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;

/// The links of a document that lead anywhere. Where a file lies is told by `file`.
pub(in crate::lsp) fn document_links(
    judged: &Judged,
    client: &ClientProfile,
    file: impl Fn(&Target) -> Option<lsp::Url>,
) -> Vec<lsp::DocumentLink> {
    let found = links(&judged.snapshot).into_iter().filter_map(|link| {
        let target = match &link.target {
            Target::Rule(name) => page(name, client),
            target @ (Target::Sheet(_) | Target::Rulebook(_)) => file(target),
        };
        let range = judged.text.range(link.range, client.encoding);
        Some(lsp::DocumentLink { range, target: Some(target?), tooltip: None, data: None })
    });
    found.collect()
}

/// The page of a rule, for clients that can follow a link to it.
fn page(rule: &str, client: &ClientProfile) -> Option<lsp::Url> {
    let page = client.settings.now().rule_pages.address(rule)?;
    let can_follow =
        page.scheme() != crate::lsp::rule_pages::SCHEME || client.can(Ability::CodeDescription);
    can_follow.then_some(page)
}
