//! The file that leads to all pages: every rule in one line, group by group, with its level in each
//! rulebook. It must not know what any rule is about.

use bicinium_analysis::Shelf;
use bicinium_analysis::rules::{self, Entry, page::Page};
use maud::{Markup, html};

use super::frame::{document, file_name, prose};
use crate::cli::rules::table::in_short;
use crate::features::levels::Levels;

/// The whole file.
pub(super) fn html(shelf: &Shelf) -> Markup {
    let rules: Vec<_> = rules::all().collect();
    let body = html! {
        header {
            h1 { "The rules" }
            p.lead {
                "What is judged in strict counterpoint for two voices, with the level that each "
                "rulebook gives it. A star stands where the level differs from species to species."
            }
        }
        main {
            @for group in rules.chunk_by(|a, b| a.group == b.group) {
                (table(group, shelf))
            }
        }
    };
    document("The rules of strict counterpoint", &body)
}

fn table(group: &[&Entry], shelf: &Shelf) -> Markup {
    html! {
        @if let Some(first) = group.first() {
            h2 { (first.group.name()) }
        }
        div.wide {
            table {
                thead {
                    tr {
                        th scope="col" { "rule" }
                        @for name in shelf.names() { th scope="col" { (name) } }
                    }
                }
                tbody { @for entry in group { (row(entry, shelf)) } }
            }
        }
    }
}

fn row(entry: &Entry, shelf: &Shelf) -> Markup {
    html! {
        tr {
            th scope="row" {
                a href=(file_name(entry)) { (entry.name) }
                span.summary { (prose(in_short(Page::of(entry.source).summary()))) }
            }
            @for book in shelf.all() {
                @let level = Levels::of(book, entry.name).short();
                td { span.(level.trim_end_matches('*')) { (level) } }
            }
        }
    }
}
