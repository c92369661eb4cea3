//! What all pages have around what they say: head, style, foot, and how running text is set. It
//! must not know what they say.

use bicinium_analysis::rules::Entry;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// The name of the file that leads to all pages.
pub(super) const INDEX: &str = "index.html";

/// What tells pages of rules from all other files, also from other pages that bicinium makes.
pub(super) const SIGNATURE: &str = r#"<meta name="generator" content="bicinium rules">"#;

const STYLE: &str = include_str!("style.css");

/// The name of the file of a rule.
pub(super) fn file_name(entry: &Entry) -> String {
    format!("{}.html", entry.name)
}

/// A whole file around what it says.
pub(super) fn document(title: &str, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                (PreEscaped(SIGNATURE))
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                (body)
                footer { "Rules of strict two-voice counterpoint, as bicinium judges them." }
            }
        }
    }
}

/// Paragraphs.
pub(super) fn paragraphs(text: &str) -> Markup {
    html! { @for paragraph in text.split("\n\n") { p { (prose(paragraph)) } } }
}

/// Running text; what stands between backquotes is set as it is written in a sheet or a rulebook.
pub(super) fn prose(text: &str) -> Markup {
    html! {
        @for (number, part) in text.split('`').enumerate() {
            @if number % 2 == 1 { code { (part) } } @else { (part) }
        }
    }
}
