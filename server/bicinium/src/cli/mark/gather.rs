//! Reads the assignment and the hand-ins, and has each judged. What cannot be read costs nobody else
//! anything. It must not know what a mark is made of.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use bicinium_analysis::Level;
use bicinium_coursework::{Assignment, HandIn, Rubric, Student, Unread};

use super::Refused;
use crate::cli::crew;
use crate::cli::desk::Desk;
use crate::cli::lines::Lines;
use crate::cli::marked::Marked;
use crate::cli::progress::Progress;
use crate::cli::sources::{self, Found, Source};
use crate::cli::telling::told;
use crate::features::new_sheet::from_assignment;

/// What was handed in.
pub(super) struct Gathered {
    /// What could be marked.
    pub(super) students: Vec<Student>,
    /// What could not.
    pub(super) unread: Vec<Unread>,
    /// How many sheets that were only found in a folder have no exercise at all.
    pub(super) passed_over: usize,
}

/// What a sheet sets, as `new` writes it out for those who hand it in; a sheet with notation that cannot
/// be read sets nothing.
pub(super) fn assignment(path: &Path, desk: &Desk) -> Result<Assignment, Refused> {
    let refused = |complaint| Refused { shown: String::new(), complaint };
    let source = Source::at(path);
    let text = source.read().map_err(refused)?;
    let judged = |text: &str| Marked::new(source.clone(), text.to_owned(), &mut desk.afresh());
    let judge = |text: &str| judged(text).into_snapshot();
    let marked = judged(&from_assignment(&text, None, &str::to_owned, &judge));
    let name = source.name();
    if marked.down_to(Level::Notation).next().is_some() {
        // Told as it stands in the file.
        let shown = wrong(&name, &judged(&text)).join("\n");
        let complaint = format!("Against {name} nothing can be marked until this is mended.");
        return Err(Refused { shown, complaint });
    }
    let assignment = Assignment::of(marked.snapshot());
    if assignment.tasks.is_empty() {
        return Err(refused(format!("{name} sets no exercise.")));
    }
    Ok(assignment)
}

/// What cannot be read in a sheet.
fn wrong(name: &str, sheet: &Marked) -> Vec<String> {
    let lines = Lines::new(&sheet.text);
    sheet.down_to(Level::Notation).map(|located| told(name, &lines, located)).collect()
}

/// Everything that was handed in, marked.
pub(super) fn hand_ins(
    paths: &[PathBuf],
    against: &Path,
    assignment: &Assignment,
    rubric: &Rubric,
    desk: &Desk,
) -> Gathered {
    let Found { mut sources, complaints } = sources::find(paths);
    let set = std::fs::canonicalize(against).ok();
    sources.retain(|source| set.is_none() || std::fs::canonicalize(source.path()).ok() != set);
    let named: Vec<_> = paths.iter().map(|path| Source::at(path)).collect();
    let progress = Progress::new("Marking");
    let done = AtomicUsize::new(0);
    let all = sources.len().max(1);
    let first = assignment.tasks.first().map(|task| task.rulebook.clone());
    let desk = first.map_or_else(|| desk.afresh(), |rulebook| desk.bound_to(rulebook));
    let work = |source: &Source, desk: &mut Desk| {
        let marked = catch_unwind(AssertUnwindSafe(|| one(source, desk, assignment, rubric)));
        let so_far = done.fetch_add(1, Ordering::Relaxed) + 1;
        progress.show(share(so_far) / share(all));
        marked.unwrap_or_else(|_| Err("it cannot be judged".to_owned()))
    };
    let marked = crew::all(&sources, || desk.afresh(), work);
    let unread =
        complaints.into_iter().map(|reason| Unread { sheet: "A folder".to_owned(), reason });
    let mut gathered = Gathered { students: Vec::new(), unread: unread.collect(), passed_over: 0 };
    for (source, marked) in sources.iter().zip(marked) {
        match marked {
            Ok(Some(student)) => gathered.students.push(student),
            Ok(None) if !named.contains(source) => gathered.passed_over += 1,
            Ok(None) => gathered.miss(source, "there is no exercise in it"),
            Err(reason) => gathered.miss(source, &reason),
        }
    }
    gathered
}

fn share(number: usize) -> f64 {
    f64::from(u32::try_from(number).unwrap_or(u32::MAX))
}

impl Gathered {
    fn miss(&mut self, source: &Source, reason: &str) {
        let (sheet, reason) = (source.name(), format!("{reason}."));
        self.unread.push(Unread { sheet, reason });
    }
}

/// One hand-in, marked; `None` if it has no exercise.
fn one(
    source: &Source,
    desk: &mut Desk,
    assignment: &Assignment,
    rubric: &Rubric,
) -> Result<Option<Student>, String> {
    let text = source.text()?;
    let (sheet, _) = desk.judge(&text, source);
    let judged = sheet.snapshot();
    if judged.exercises().next().is_none() {
        return Ok(None);
    }
    let by_another = |number, rulebook: &_| sheet.by_another(number, rulebook);
    let stem = source.path().file_stem().unwrap_or_default().to_string_lossy();
    let (name, path) = (&*stem, source.name());
    let hand_in =
        HandIn { sheet: &path, name, text: &text, judged: &judged, by_another: &by_another };
    Ok(Some(Student::of(&hand_in, assignment, rubric)))
}
