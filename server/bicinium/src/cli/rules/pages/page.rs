//! The page of one rule as an HTML file. It must not know what any rule is about.

use bicinium_analysis::Shelf;
use bicinium_analysis::rulebook::{self, Question};
use bicinium_analysis::rules::switch::{Answer, Written};
use bicinium_analysis::rules::{Entry, page::Page};
use maud::{Markup, html};

use super::frame::{INDEX, document, paragraphs, prose};
use super::sheet;
use crate::cli::switches::{Given, given, who};
use crate::features::levels::Levels;

/// The whole file.
pub(super) fn html(entry: &Entry, shelf: &Shelf) -> Markup {
    let page = Page::of(entry.source);
    let body = html! {
        nav { a href=(INDEX) { "All rules" } }
        header {
            p.group { (entry.group.name()) }
            h1 { (entry.name) }
            div.lead { (paragraphs(&page.finds)) }
        }
        main {
            h2 { "Why it matters" }
            (paragraphs(&page.why))
            (sheet::figure("Broken", &page.broken, entry.name))
            (sheet::figure("Mended", &page.mended, entry.name))
            h2 { "Where schools differ" }
            (paragraphs(&page.differences))
            (levels(entry, shelf))
            @if !page.switches.is_empty() {
                h2 { "Switches" }
                @for question in rulebook::switches() {
                    @if question.about.name() == entry.name { (asked(&question, shelf)) }
                }
            }
            h2 { "Sources" }
            (paragraphs(&page.sources))
        }
    };
    document(&format!("{}, a rule of strict counterpoint", entry.name), &body)
}

fn levels(entry: &Entry, shelf: &Shelf) -> Markup {
    html! {
        table.levels {
            @for book in shelf.all() {
                tr {
                    th scope="row" { (book.name) }
                    td { (Levels::of(book, entry.name).words()) }
                }
            }
        }
    }
}

fn asked(question: &Question, shelf: &Shelf) -> Markup {
    let switch = &question.switch;
    let given = given(question, shelf);
    html! {
        section.switch {
            h3 { code { (switch.key) } }
            p { (prose(&switch.question)) }
            dl { @for answer in &switch.answers { (answered(answer, &given)) } }
        }
    }
}

fn answered(answer: &Answer, given: &[Given]) -> Markup {
    let who = answer.written.value().and_then(|value| who(given, &value));
    html! {
        dt {
            @match &answer.written {
                Written::So(words) => code { (words) },
                Written::Like(words) => em { (words) },
            }
        }
        dd {
            (prose(&answer.meaning))
            span.holders { (answer.holders) }
            @if let Some(who) = who { span.who { (who) } }
        }
    }
}
