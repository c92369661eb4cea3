//! The marks as one JSON value, for other programs. The names of the fields are a promise to them. It
//! must not know how a mark is made.

use bicinium_coursework::{Points, Student, Unread};
use serde::Serialize;

use super::Report;

#[derive(Serialize)]
struct Marks<'a> {
    assignment: String,
    rubric: &'a str,
    deadline: Option<&'a str>,
    exercises: Vec<Exercise<'a>>,
    students: &'a [Student],
    rules: Vec<Rule>,
    unread: &'a [Unread],
}

#[derive(Serialize)]
struct Exercise<'a> {
    /// Counted from 1.
    number: usize,
    title: Option<&'a str>,
    worth: Points,
    rulebook: &'a str,
}

#[derive(Serialize)]
struct Rule {
    rule: &'static str,
    /// How often each student broke it, in the order of the students.
    by_student: Vec<usize>,
}

/// All marks.
pub(super) fn report(report: &Report<'_>) -> serde_json::Result<String> {
    let class = report.class;
    let tasks = class.assignment.tasks.iter().zip(&class.worth);
    let exercises = tasks.map(|(task, worth)| Exercise {
        number: task.number,
        title: task.title.as_deref(),
        worth: *worth,
        rulebook: &task.rulebook.name,
    });
    let rules = class.rules().into_iter().map(|(rule, by_student)| Rule { rule, by_student });
    let marks = Marks {
        assignment: report.assignment.clone(),
        rubric: &report.rubric.title,
        deadline: class.assignment.deadline.as_deref(),
        exercises: exercises.collect(),
        students: &class.students,
        rules: rules.collect(),
        unread: &class.unread,
    };
    serde_json::to_string_pretty(&marks).map(|text| text + "\n")
}
