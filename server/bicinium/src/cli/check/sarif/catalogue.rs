//! The rules as a log lists them: the whole catalogue with its pages, then what else was found. It
//! must not know what any rule is about.

use std::collections::BTreeSet;

use bicinium_analysis::rules::{self, page::Page};
use serde_sarif::sarif::{MultiformatMessageString, ReportingDescriptor, Result as Entry};

use crate::features::{page, section};

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
        .help(help(entry))
        .build()
}

fn help(entry: &rules::Entry) -> MultiformatMessageString {
    let page = page::whole(entry);
    MultiformatMessageString::builder()
        .text(section::plain(&page))
        .markdown(section::markdown(&page))
        .build()
}
