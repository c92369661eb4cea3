//! One student: how it went, every exercise, and what else stands in the sheet. It must not know the
//! other students.

use std::collections::BTreeSet;

use bicinium_coursework::mark::Found;
use bicinium_coursework::{Class, Student};
use maud::{Markup, html};

use super::{exercise, sheet};
use crate::cli::words::count;

/// How many of the things that were done best are told.
const MERITS: usize = 2;

/// What is told of a student so far, so that nothing is told twice.
pub(super) struct Told<'a> {
    /// What the places of this student's findings begin with.
    pub(super) prefix: String,
    /// How many findings have been told.
    pub(super) findings: usize,
    /// The rules of which has been told why they matter.
    pub(super) rules: BTreeSet<&'a str>,
}

/// The section of a student.
pub(super) fn section(class: &Class, index: usize) -> Markup {
    let student = &class.students[index];
    let id = format!("student-{}", index + 1);
    let mut told = Told { prefix: id.clone(), findings: 0, rules: BTreeSet::new() };
    let tasks = class.assignment.tasks.iter().zip(&class.worth).zip(&student.answers);
    html! {
        section .student aria-labelledby=(id) {
            h2 id=(id) { (student.name) }
            p .sum {
                strong { (student.points) } " of " (class.full()) " points ("
                (student.points.percent_of(class.full())) " %)"
                @if student.sheet != student.name { span .note { (student.sheet) } }
            }
            (best(class, student))
            @for ((task, worth), answer) in tasks {
                (exercise::part(task, *worth, answer.as_ref(), student, &mut told))
            }
            (elsewhere(student, &mut told))
            p .back { a href="#class" { "Back to the class" } }
        }
    }
}

fn best(class: &Class, student: &Student) -> Markup {
    let Some((number, answer)) = student.best() else { return html! {} };
    let name = class.assignment.tasks.get(number - 1).map(bicinium_coursework::Task::name);
    html! {
        p .best {
            "Done best: " (name.unwrap_or_default()) "."
            @for merit in answer.merits.iter().take(MERITS) { " " (merit.words) }
        }
    }
}

fn elsewhere<'a>(student: &'a Student, told: &mut Told<'a>) -> Markup {
    let wrong: Vec<&Found> = student.elsewhere.iter().filter(|found| found.stands()).collect();
    let is_worth_telling = !wrong.is_empty() || student.not_set > 0;
    html! {
        @if is_worth_telling {
            h3 { "Elsewhere in the sheet" }
            @if student.not_set > 0 {
                p { (count(student.not_set, "exercise answers", "exercises answer")) " nothing that was set." }
            }
            (sheet::with_findings(&student.text, &(0..student.text.len()), &wrong, told))
        }
    }
}
