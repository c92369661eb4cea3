//! Links from names in a sheet to what they name.
//!
//! It must not know what a sheet can name.

use bicinium_analysis::sheet::Placed;
use tower_lsp::lsp_types as lsp;

use crate::features::links::{Target, links};
use crate::lsp::blocks::Lined;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;

/// The links of a document that lead anywhere. Where a file lies is told by `file`.
pub(in crate::lsp) fn document_links(
    judged: &Judged,
    client: &ClientProfile,
    file: impl Fn(&Target) -> Option<lsp::Url>,
) -> Vec<lsp::DocumentLink> {
    let named = |placed: &Placed| {
        let block = judged.block(placed);
        block.list(&(), || {
            let links = links(&placed.judged).into_iter();
            links.map(|it| Named(block.range(it.range, client.encoding), it.target)).collect()
        })
    };
    let link = |Named(range, target): Named| {
        let target = match &target {
            Target::Rule(name) => page(name, client),
            target @ (Target::Sheet(_) | Target::Rulebook(_)) => file(target),
        };
        Some(lsp::DocumentLink { range, target: Some(target?), tooltip: None, data: None })
    };
    judged.snapshot.blocks().iter().flat_map(named).filter_map(link).collect()
}

/// Where something is named, and what. Where it lies may change while the block stays as it is.
#[derive(Clone)]
struct Named(lsp::Range, Target);

impl Lined for Named {
    fn change_lines(&mut self, change: &dyn Fn(&mut u32)) {
        self.0.change_lines(change);
    }
}

/// The page of a rule, for clients that can follow a link to it.
fn page(rule: &str, client: &ClientProfile) -> Option<lsp::Url> {
    let page = client.settings.now().rule_pages.address(rule)?;
    let can_follow =
        page.scheme() != crate::lsp::rule_pages::SCHEME || client.can(Ability::CodeDescription);
    can_follow.then_some(page)
}
