//! The marks for people at a terminal: a line for each student, at most 80 columns wide. It must not
//! know how a mark is made.

use bicinium_analysis::Level;
use bicinium_coursework::{Answer, Class, Student};
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use super::Report;
use crate::cli::words::{count, list, shown, wrapped};

/// The widest name that is shown, in columns.
const NAME: usize = 17;
/// How many exercises stand side by side.
const SIDE_BY_SIDE: usize = 5;
/// The columns of one exercise.
const EXERCISE: usize = 6;
/// How many of the things that somebody did well are shown.
const MERITS: usize = 2;
/// What it means to have more than an exercise is worth.
const BONUS: &str = "Points above what an exercise is worth are a bonus for what is done well.";
/// How many of the rules that were broken are shown.
const RULES: usize = 8;

/// The whole table.
pub(super) fn told(report: &Report<'_>) -> String {
    let class = report.class;
    let mut parts = vec![heading(report)];
    let numbers: Vec<_> = (0..class.worth.len()).collect();
    let chunks: Vec<_> = numbers.chunks(SIDE_BY_SIDE).collect();
    for (index, chunk) in chunks.iter().enumerate() {
        parts.push(columns(class, chunk, index + 1 == chunks.len()));
    }
    parts.extend(signs(class));
    parts.extend(rules(class));
    parts.extend(best(class));
    parts.push(closing(report));
    parts.join("\n\n") + "\n"
}

fn heading(report: &Report<'_>) -> String {
    let class = report.class;
    let deadline = class.assignment.deadline.as_ref();
    let due = deadline.map_or_else(String::new, |text| format!(" Due: {text}."));
    let text = format!("{}, marked by \"{}\".{due}", report.assignment, report.rubric.title);
    let tasks = class.assignment.tasks.iter().zip(&class.worth);
    let tasks = tasks.map(|(task, worth)| {
        wrapped(&shown(&format!("{}. {} ({worth})", task.number, task.name())), "  ")
    });
    let tasks = tasks.collect::<Vec<_>>().join("\n");
    format!("{}\n{tasks}", wrapped(&shown(&text), ""))
}

/// A line for each student with the exercises of these numbers; the sums only in the last.
fn columns(class: &Class, numbers: &[usize], is_last: bool) -> String {
    let head = numbers.iter().map(|number| cell(&(number + 1).to_string()));
    let sums = |all: &str, share: &str, faults: &str, cautions: &str| {
        if is_last { format!("{all:>8}{share:>6}{faults:>8}{cautions:>10}") } else { String::new() }
    };
    let line = |name: &str, cells: String, sums: String| {
        format!("{}{cells}{sums}", padded(name)).trim_end().to_owned()
    };
    let mut lines = vec![line("", head.collect(), sums("all", "%", "faults", "cautions"))];
    for student in &class.students {
        let cells = numbers.iter().map(|number| cell(&answer(student.answers[*number].as_ref())));
        let share = student.points.percent_of(class.full()).to_string();
        let [faults, cautions] = [Level::Fault, Level::Caution].map(|it| student.standing(it));
        let sums =
            sums(&student.points.to_string(), &share, &faults.to_string(), &cautions.to_string());
        lines.push(line(&shown(&student.name), cells.collect(), sums));
    }
    let worth = numbers.iter().map(|number| cell(&class.worth[*number].to_string()));
    lines.push(line("of", worth.collect(), sums(&class.full().to_string(), "", "", "")));
    lines.join("\n")
}

/// Points, with a sign for what is not as it should be.
fn answer(answer: Option<&Answer>) -> String {
    let Some(answer) = answer else { return "- ".to_owned() };
    let sign = match answer {
        _ if !answer.begun => "0",
        _ if !answer.not_as_set.is_empty() => "*",
        _ if !answer.is_complete() => "?",
        _ => " ",
    };
    if sign == "0" { "0?".to_owned() } else { format!("{}{sign}", answer.reckoning.points) }
}

fn cell(text: &str) -> String {
    // A sign stands in a column of its own, so that numbers stand under each other.
    let text = if text.ends_with(['*', '?', ' ']) { text.to_owned() } else { format!("{text} ") };
    format!("{text:>EXERCISE$}")
}

/// A name in its column, cut where it is too long.
fn padded(name: &str) -> String {
    let mut cut = String::new();
    for character in name.chars() {
        if cut.width() + character.width().unwrap_or(0) >= NAME {
            break;
        }
        cut.push(character);
    }
    let room = NAME - cut.width();
    cut + &" ".repeat(room)
}

/// What the signs mean that are used.
fn signs(class: &Class) -> Option<String> {
    let answers: Vec<_> = class.students.iter().flat_map(|it| &it.answers).collect();
    let is_used =
        |test: &dyn Fn(&Answer) -> bool| answers.iter().any(|it| it.as_ref().is_some_and(test));
    let signs = [
        (is_used(&|it| it.begun && !it.not_as_set.is_empty()), "* not as it was set"),
        (is_used(&|it| !it.is_complete()), "? not complete"),
        (answers.iter().any(|it| it.is_none()), "- not handed in"),
    ];
    let used: Vec<_> = signs.iter().filter(|(used, _)| *used).map(|(_, sign)| *sign).collect();
    let signs = (!used.is_empty()).then(|| used.join(", ") + ".");
    let has_bonus = is_used(&|it| it.reckoning.points > it.reckoning.worth);
    let bonus = has_bonus.then(|| BONUS.to_owned());
    let told: Vec<_> = signs.into_iter().chain(bonus).collect();
    (!told.is_empty()).then(|| wrapped(&told.join(" "), ""))
}

/// The rules that most students broke.
fn rules(class: &Class) -> Option<String> {
    let rules = class.rules();
    if rules.is_empty() {
        return None;
    }
    let line = |(rule, row): &(&str, Vec<usize>)| {
        let students = row.iter().filter(|number| **number > 0).count();
        let times = count(row.iter().sum(), "time", "times");
        let students = count(students, "student", "students");
        format!("  {rule:<24}{students:>12}{times:>11}")
    };
    let lines: Vec<_> = rules.iter().take(RULES).map(line).collect();
    let more = rules.len().saturating_sub(RULES);
    let more = if more > 0 {
        format!("\n  and {}", count(more, "more rule", "more rules"))
    } else {
        String::new()
    };
    Some(format!("What was broken by most:\n{}{more}", lines.join("\n")))
}

/// What each student did best.
fn best(class: &Class) -> Option<String> {
    let line = |student: &Student| {
        let (number, answer) = student.best()?;
        let merits: Vec<_> = answer.merits.iter().take(MERITS).map(|it| &*it.words).collect();
        let text = format!("{}, exercise {number}: {}", student.name, merits.join(" "));
        Some(crate::cli::words::hanging(&shown(&text), "  ", "    "))
    };
    let lines: Vec<_> = class.students.iter().filter_map(line).collect();
    (!lines.is_empty()).then(|| format!("What they did best:\n{}", lines.join("\n")))
}

fn closing(report: &Report<'_>) -> String {
    let class = report.class;
    let mut parts = vec![count(class.students.len(), "sheet marked", "sheets marked")];
    if !class.unread.is_empty() {
        parts.push(format!("{} could not be", class.unread.len()));
    }
    if report.passed_over > 0 {
        let over = count(report.passed_over, "sheet", "sheets");
        parts.push(format!("{over} without an exercise passed over"));
    }
    let licences = class.students.iter().flat_map(|it| it.answers.iter().flatten());
    let licences = licences.map(|answer| answer.licences().count()).sum::<usize>();
    let licences = match licences {
        0 => String::new(),
        number => format!(" {} for you to judge.", count(number, "licence is", "licences are")),
    };
    wrapped(&format!("{}.{licences}", list(&parts)), "")
}
