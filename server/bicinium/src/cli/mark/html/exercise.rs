//! One exercise of a student: its points and how they came about, its rows with what was found in
//! place, and what was done well. It must not know the other exercises.

use bicinium_analysis::Level;
use bicinium_coursework::mark::{Cause, Deduction, Found};
use bicinium_coursework::{Answer, Points, Student, Task};
use maud::{Markup, html};

use super::prose;
use super::sheet;
use super::student::Told;
use crate::cli::words::{count, list};

/// How many of the things that were done well are told.
const MERITS: usize = 3;

/// Everything about one exercise.
pub(super) fn part<'a>(
    task: &Task,
    worth: Points,
    answer: Option<&'a Answer>,
    student: &'a Student,
    told: &mut Told<'a>,
) -> Markup {
    let Some(answer) = answer else {
        return html! {
            h3 { (task.name()) ": 0 of " (worth) }
            p { "Not handed in." }
        };
    };
    let findings: Vec<&Found> =
        answer.findings.iter().filter(|it| it.level.0 != Level::Unfinished).collect();
    html! {
        h3 { (task.name()) ": " (answer.reckoning.points) " of " (worth) }
        (state(answer))
        (reckoning(answer))
        (sheet::with_findings(&student.text, &answer.range, &findings, told))
        (merits(answer))
    }
}

/// What is not written, and what is not as set.
fn state(answer: &Answer) -> Markup {
    let bars: Vec<_> = answer.open_bars.iter().map(ToString::to_string).collect();
    let noun = if bars.len() == 1 { "bar" } else { "bars" };
    html! {
        @if !answer.begun {
            p .wrong { "Nothing is written yet." }
        } @else if !bars.is_empty() {
            p .wrong { "Not complete: something is still to be written in " (noun) " " (list(&bars)) "." }
        }
        @for departure in &answer.not_as_set { p .wrong { (prose(&departure.message)) } }
    }
}

fn reckoning(answer: &Answer) -> Markup {
    let reckoning = &answer.reckoning;
    html! {
        @if !reckoning.deductions.is_empty() || !reckoning.bonus.is_empty() {
            ul .reckoning {
                @for deduction in &reckoning.deductions {
                    li { "−" (deduction.off) " for " (cause(deduction)) }
                }
                @for (kind, points) in &reckoning.bonus {
                    li { "+" (points) " for " (kind.name().replace('-', " ")) }
                }
            }
        }
    }
}

fn cause(deduction: &Deduction) -> String {
    let number = deduction.number;
    match &deduction.cause {
        Cause::NothingWritten => "an exercise that is not begun".to_owned(),
        Cause::Unfinished => format!("{} not written", count(number, "bar", "bars")),
        Cause::NotAsSet(aspect) => format!("the {} that is not as set", aspect.name()),
        Cause::Rule(rule) => format!("{} of {rule}", count(number, "finding", "findings")),
        Cause::Licences => count(number, "licence", "licences"),
        Cause::Level(level) => match level.0 {
            Level::Notation => {
                format!("{} that cannot be read", count(number, "place", "places"))
            }
            Level::Fault => count(number, "fault", "faults"),
            Level::Caution => count(number, "caution", "cautions"),
            Level::Advice => count(number, "piece of advice", "pieces of advice"),
            Level::Unfinished => count(number, "place not finished", "places not finished"),
        },
    }
}

fn merits(answer: &Answer) -> Markup {
    html! {
        @if !answer.merits.is_empty() {
            p .well { "Done well: " @for merit in answer.merits.iter().take(MERITS) { (merit.words) " " } }
        }
    }
}
