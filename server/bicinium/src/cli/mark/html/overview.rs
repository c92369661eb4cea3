//! The class: who, which exercise, and which rules are misunderstood by many. It must not know what
//! stands in a sheet.

use bicinium_analysis::Level;
use bicinium_coursework::{Answer, Class, Student};
use maud::{Markup, html};

use crate::cli::mark::Report;
use crate::cli::words::count;

/// As many students as a table of rules can show side by side.
const SIDE_BY_SIDE: usize = 40;

/// Everything about the class.
pub(super) fn class(report: &Report<'_>) -> Markup {
    let class = report.class;
    html! {
        section aria-labelledby="class" {
            h2 id="class" { "The class" }
            (points(class))
            (bonus(class))
            (unread(report))
        }
        section aria-labelledby="rules" {
            h2 id="rules" { "What is misunderstood" }
            (rules(class))
        }
    }
}

fn points(class: &Class) -> Markup {
    html! {
        section .wide aria-label="Points of the class" tabindex="0" {
            table .class {
                caption { span { "Points of each student. A name leads to the sheet." } }
                thead { tr {
                    th scope="col" { "Student" }
                    @for task in &class.assignment.tasks {
                        th scope="col" .number { (task.number) span .title { (task.name()) } }
                    }
                    th scope="col" .number { "All" }
                    th scope="col" .number { "Share" }
                    th scope="col" .number { "Faults" }
                    th scope="col" .number { "Cautions" }
                } }
                tbody {
                    @for (index, student) in class.students.iter().enumerate() {
                        (line(class, index, student))
                    }
                }
                tfoot { tr {
                    th scope="row" { "Can be had" }
                    @for worth in &class.worth { td .number { (worth) } }
                    td .number { (class.full()) } td {} td {} td {}
                } }
            }
        }
    }
}

fn line(class: &Class, index: usize, student: &Student) -> Markup {
    html! {
        tr {
            th scope="row" { a href={ "#student-" (index + 1) } { (student.name) } }
            @for answer in &student.answers { td .number { (cell(answer.as_ref())) } }
            td .number { strong { (student.points) } }
            td .number { (student.points.percent_of(class.full())) " %" }
            td .number { (student.standing(Level::Fault)) }
            td .number { (student.standing(Level::Caution)) }
        }
    }
}

fn cell(answer: Option<&Answer>) -> Markup {
    let Some(answer) = answer else { return html! { span .note { "not handed in" } } };
    html! {
        (answer.reckoning.points)
        @if !answer.begun { span .note { "not begun" } }
        @else if !answer.is_complete() { span .note { "not complete" } }
        @if answer.begun && !answer.not_as_set.is_empty() { span .note { "not as set" } }
    }
}

/// What it means that somebody has more than can be had.
fn bonus(class: &Class) -> Markup {
    let mut answers = class.students.iter().flat_map(|it| it.answers.iter().flatten());
    let is_used = answers.any(|answer| answer.reckoning.points > answer.reckoning.worth);
    html! {
        @if is_used {
            p .note {
                "More points than can be had, or more than 100 %, come of a bonus: the rubric gives it for what is \
                 done well, and beside each exercise stands for what."
            }
        }
    }
}

fn unread(report: &Report<'_>) -> Markup {
    let unread = &report.class.unread;
    html! {
        @if !unread.is_empty() {
            h3 { "Could not be marked" }
            ul { @for sheet in unread { li { code { (sheet.sheet) } ": " (sheet.reason) } } }
        }
        @if report.passed_over > 0 {
            p .note { (count(report.passed_over, "sheet", "sheets")) " without an exercise passed over." }
        }
    }
}

fn rules(class: &Class) -> Markup {
    let rules = class.rules();
    if rules.is_empty() {
        return html! { p { "No fault and no caution stands in any sheet." } };
    }
    let students =
        if class.students.len() <= SIDE_BY_SIDE { class.students.as_slice() } else { &[] };
    html! {
        section .wide aria-label="Rules and students" tabindex="0" {
            table .heat {
                caption { span {
                    "How often each rule was broken: first the rules that most students broke. The stronger the colour, the \
                     oftener; the number says the same."
                } }
                thead { tr {
                    th scope="col" { "Rule" }
                    th scope="col" .number { "Students" }
                    th scope="col" .number { "Times" }
                    @for student in students { th scope="col" .name { span { (student.name) } } }
                } }
                tbody { @for (rule, row) in &rules {
                    tr {
                        th scope="row" { code { (rule) } }
                        td .number { (row.iter().filter(|number| **number > 0).count()) }
                        td .number { (row.iter().sum::<usize>()) }
                        @for number in row.iter().take(students.len()) {
                            td .{ "heat-" (heat(*number)) } { @if *number > 0 { (number) } }
                        }
                    }
                } }
            }
        }
    }
}

/// How dark a field is, 0 to 4.
fn heat(number: usize) -> usize {
    match number {
        0..=3 => number,
        _ => 4,
    }
}
