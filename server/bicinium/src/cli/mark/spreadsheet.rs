//! The marks as comma-separated values: a line for each student and exercise. The names of the columns
//! are a promise to those who go on with them. It must not know how a mark is made.

use bicinium_analysis::Level;
use bicinium_coursework::{Answer, Points, Student, Task};

use super::Report;

/// The columns.
const COLUMNS: [&str; 17] = [
    "student",
    "sheet",
    "exercise",
    "title",
    "handed in",
    "complete",
    "open bars",
    "not as set",
    "notation",
    "faults",
    "cautions",
    "advice",
    "licences",
    "worth",
    "bonus",
    "points",
    "done well",
];

/// All lines.
///
/// # Errors
///
/// None that the writer of such files is known to make with text in memory.
pub(super) fn rows(report: &Report<'_>) -> csv::Result<String> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for student in &report.class.students {
        let answers = student.answers.iter().zip(&report.class.assignment.tasks);
        for ((answer, task), worth) in answers.zip(&report.class.worth) {
            writer.write_record(row(student, task, *worth, answer.as_ref()))?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn row(student: &Student, task: &Task, worth: Points, answer: Option<&Answer>) -> [String; 17] {
    let yes = |is: bool| if is { "yes" } else { "no" }.to_owned();
    let told = |tell: &dyn Fn(&Answer) -> String| answer.map(tell).unwrap_or_default();
    let number = |level| told(&|it| it.standing(level).to_string());
    let aspects = |it: &Answer| {
        let names: Vec<_> = it.not_as_set.iter().map(|departure| departure.aspect.name()).collect();
        names.join(" ")
    };
    let bars =
        |it: &Answer| it.open_bars.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    [
        text(&student.name),
        text(&student.sheet),
        task.number.to_string(),
        text(task.title.as_deref().unwrap_or_default()),
        yes(answer.is_some()),
        yes(answer.is_some_and(Answer::is_complete)),
        told(&bars),
        told(&aspects),
        number(Level::Notation),
        number(Level::Fault),
        number(Level::Caution),
        number(Level::Advice),
        told(&|it| it.licences().count().to_string()),
        worth.to_string(),
        told(&|it| it.reckoning.bonus.values().copied().sum::<Points>().to_string()),
        answer.map_or(Points::NONE, |it| it.reckoning.points).to_string(),
        told(&|it| it.merits.iter().map(|merit| merit.kind.name()).collect::<Vec<_>>().join(" ")),
    ]
}

/// Text that a spreadsheet does not take for a formula.
fn text(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
