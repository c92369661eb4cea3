//! `bicinium tour`: the whole work once, on a sheet that comes with the program. Shows what
//! happened in a session with the server; it must not know the answers beforehand.

mod editor;
mod session;
mod visit;

use std::io;

use bicinium_analysis::Level;

use self::editor::Found;
use self::visit::{Step, Visit, visit};
use super::Outcome;
use super::lines::Lines;
use super::output::Output;
use super::picture::{Mark, picture, whole};
use super::style::{self, OTHER, STRONG, painted};
use super::words::{count, shown, wrapped};

/// The sheet of the tour.
const EXERCISE: &str = include_str!("exercise.bicinium");

const SHEET: &str = "\
A sheet is plain text: a row for each voice, bar beside bar. The cantus is given; the lower voice \
has been written against it.";
const MARKING: &str = "\
This is what an editor shows while you write, and what `bicinium check` prints.";
const QUESTION: &str = "\
Point at a note, and you are told what is known about it. Here is the note of the first finding:";
const MENDING: &str = "\
For each finding other notes are tried, and those are proposed that remove it and bring no new \
fault. Here the first proposal is taken each time.";
const CLEAN: &str = "\
Now write one of your own: connect your editor to `bicinium lsp`, or mark sheets with `bicinium \
check`. `bicinium rules` lists the rules, `bicinium explain RULE` explains one.";

/// Goes on the tour and shows it. It ends well if nothing is left to mend.
pub(super) fn run(output: &mut Output) -> io::Result<Outcome> {
    match visit(EXERCISE) {
        Ok(visit) => show(&visit, output),
        Err(reason) => {
            output.complain(&format!("The tour was interrupted: {reason}."));
            Ok(Outcome::Failed)
        }
    }
}

fn show(visit: &Visit, output: &mut Output) -> io::Result<Outcome> {
    let title = |number, title: &str| painted(STRONG, &format!("{number}. {title}"));
    let findings = |found: &[Found]| count(found.len(), "finding", "findings");
    let marking = format!("The marking: {}", findings(&visit.found));
    let end = format!("The exercise at the end: {}", findings(&visit.left));
    let sections = [
        (title(1, "An exercise"), SHEET, sheet(&visit.before)),
        (title(2, &marking), MARKING, each(&visit.found, |found| told(&visit.before, found))),
        (title(3, "A question"), QUESTION, answer(&visit.answer)),
        (title(4, "The mending"), MENDING, each(&visit.steps, step)),
        (title(5, &end), "", sheet(&visit.after)),
    ];
    for (title, introduction, body) in sections {
        output.line(&format!("{title}\n{}\n{body}", paragraph(introduction)))?;
    }
    if !visit.left.is_empty() {
        return Ok(Outcome::Faults);
    }
    output.write(&paragraph(CLEAN))?;
    Ok(Outcome::Clean)
}

fn paragraph(text: &str) -> String {
    if text.is_empty() { String::new() } else { format!("{}\n", wrapped(text, "")) }
}

fn sheet(text: &str) -> String {
    whole(&Lines::new(text), &[])
}

fn each<T>(items: &[T], show: impl Fn(&T) -> String) -> String {
    items.iter().map(show).collect::<Vec<_>>().join("\n")
}

fn answer(said: &str) -> String {
    let facts: Vec<_> = said.lines().filter(|line| !line.is_empty()).collect();
    each(&facts, |fact| wrapped(&shown(fact), "  ")) + "\n"
}

fn told(text: &str, found: &Found) -> String {
    let level = level(found);
    let others = found.related.iter();
    let others = others.map(|(range, label)| Mark::there(range.clone(), OTHER, label));
    let here = Mark::here(found.range.clone(), style::level(level));
    let marks: Vec<_> = std::iter::once(here).chain(others).collect();
    format!(
        "{}: {}\n{}\n\n{}",
        painted(style::level(level), level.name()),
        found.rule(),
        wrapped(&shown(found.message()), "  "),
        picture(&Lines::new(text), &marks)
    )
}

/// The level that the server shows by its severity; notation that cannot be read is as grave as a
/// fault.
fn level(found: &Found) -> Level {
    match found.severity() {
        1 => Level::Fault,
        2 => Level::Caution,
        3 => Level::Advice,
        _ => Level::Unfinished,
    }
}

fn step(step: &Step) -> String {
    let new = step.changed.iter();
    let marks: Vec<_> = new.map(|range| Mark::here(range.clone(), OTHER)).collect();
    let left = count(step.left, "finding", "findings");
    let done = format!("{}: {}; {left} left.", step.found.rule(), step.title);
    format!("{}\n\n{}", wrapped(&shown(&done), "  "), picture(&Lines::new(&step.text), &marks))
}
