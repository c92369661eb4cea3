//! The marks as one page that needs nothing else: the class first, then every student with the sheet
//! and what was found in it, in place. Everything that students wrote is escaped. It must not know how
//! a mark is made.

mod exercise;
mod overview;
mod sheet;
mod student;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::Report;

const STYLE: &str = include_str!("style.css");

/// The whole page.
pub(super) fn page(report: &Report<'_>) -> Markup {
    let title = format!("Marks: {}", report.assignment);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                meta name="generator" content="bicinium mark";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (title) }
                    (about(report))
                }
                main {
                    (overview::class(report))
                    @for (index, _) in report.class.students.iter().enumerate() {
                        (student::section(report.class, index))
                    }
                }
                footer { p { "Marked by bicinium. Points are a proposal; a licence is for the teacher to judge." } }
            }
        }
    }
}

fn about(report: &Report<'_>) -> Markup {
    let books: Vec<_> =
        report.class.assignment.rulebooks().iter().map(|it| it.name.clone()).collect();
    html! {
        p {
            "Marked by “" (report.rubric.title) "”, " @if books.len() == 1 { "rulebook " } @else { "rulebooks " }
            (books.join(", ")) "."
            @if let Some(deadline) = &report.class.assignment.deadline { " Due: " (deadline) "." }
        }
    }
}

/// Running text; what stands between backquotes is set as it is written in a sheet.
fn prose(text: &str) -> Markup {
    html! {
        @for (number, part) in text.split('`').enumerate() {
            @if number % 2 == 1 { code { (part) } } @else { (part) }
        }
    }
}
