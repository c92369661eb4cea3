//! The rules as a log lists them: the whole catalogue with its pages, then what else was found. It
//! must not know what any rule is about.

use std::collections::BTreeSet;

use bicinium_analysis::rules::{self, page::Page};
use serde_sarif::sarif::{MultiformatMessageString, ReportingDescriptor, Result as Entry};

/// Every rule of the catalogue, and the names under which results speak that are no rules.
pub(super) fn rules(results: &[Entry]) -> Vec<ReportingDescriptor> {
    let mut others: BTreeSet<_> =
        results.iter().filter_map(|result| result.rule_id.as_deref()).collect();
    for entry in rules::all() {
        others.remove(entry.name);
    }
    let of_catalogue = rules::all().map(of_catalogue);
    let others = others.into_iter().map(|name| ReportingDescriptor::builder().id(name).build());
    of_catalogue.chain(others).collect()
}

fn of_catalogue(entry: &rules::Entry) -> ReportingDescriptor {
    let page = Page::of(entry.source);
    ReportingDescriptor::builder()
        .id(entry.name)
        .short_description(&page.summary().to_owned())
        .full_description(&page.finds)
        .help(help(&page))
        .build()
}

fn help(page: &Page) -> MultiformatMessageString {
    let Page { finds, why, broken, mended, sources, differences, .. } = page;
    let markdown = format!(
        "{finds}\n\n{why}\n\n**Broken**\n\n```bicinium\n{broken}```\n\n**Mended**\n\n\
         ```bicinium\n{mended}```\n\n**Sources:** {sources}\n\n**Where schools differ:** {differences}"
    );
    let text = format!(
        "{finds}\n\n{why}\n\nBroken:\n{broken}\nMended:\n{mended}\nSources: {sources}\n\n\
         Where schools differ: {differences}"
    );
    MultiformatMessageString::builder().text(text).markdown(markdown).build()
}
