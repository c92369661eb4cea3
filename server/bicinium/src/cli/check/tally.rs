//! The sentence that closes a report: how much was found. It must not know what was.

use bicinium_analysis::Level;

use super::Marking;
use crate::cli::marked::Marked;
use crate::cli::words::{count, list, wrapped};

/// What was found, in one sentence; what is milder than `mildest` was not shown.
pub(super) fn closing(marking: &Marking, mildest: Level) -> String {
    let marked = &marking.sheets;
    let sheets = count(marked.len(), "sheet", "sheets");
    let exercises = marked.iter().map(Marked::exercises).sum();
    let exercises = count(exercises, "exercise", "exercises");
    let closing =
        format!("{sheets} with {exercises}: {}.{}", found(marking), hidden(marked, mildest));
    wrapped(&closing, "")
}

fn found(marking: &Marking) -> String {
    let marked = &marking.sheets;
    let in_sheets = Level::ALL.iter().filter_map(|level| of_level(marked, *level));
    let mut parts: Vec<_> = in_rulebooks(marking).into_iter().chain(in_sheets).collect();
    if parts.is_empty() {
        parts.push("nothing to mend".to_owned());
    }
    match all(marked).filter(|(_, stands)| !stands).count() {
        0 => list(&parts),
        accepted => format!("{}; accepted: {accepted}", list(&parts)),
    }
}

fn in_rulebooks(marking: &Marking) -> Option<String> {
    let number = marking.rulebooks.iter().map(|rulebook| rulebook.problems.len()).sum();
    (number > 0).then(|| count(number, "problem in rulebooks", "problems in rulebooks"))
}

fn of_level(marked: &[Marked], level: Level) -> Option<String> {
    let (one, many) = match level {
        Level::Notation => ("problem with the notation", "problems with the notation"),
        Level::Fault => ("fault", "faults"),
        Level::Caution => ("caution", "cautions"),
        Level::Advice => ("piece of advice", "pieces of advice"),
        Level::Unfinished => ("unfinished exercise", "unfinished exercises"),
    };
    let number = all(marked).filter(|found| *found == (level, true)).count();
    (number > 0).then(|| count(number, one, many))
}

fn hidden(marked: &[Marked], mildest: Level) -> String {
    match all(marked).filter(|(level, _)| *level > mildest).count() {
        0 => String::new(),
        number => format!(" Not shown: {}.", count(number, "milder finding", "milder findings")),
    }
}

/// The level of every finding, and whether it stands.
fn all(marked: &[Marked]) -> impl Iterator<Item = (Level, bool)> {
    let findings = marked.iter().flat_map(Marked::findings);
    findings.map(|located| (located.finding.level, located.finding.stands()))
}
