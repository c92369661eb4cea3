//! What changed between two versions of a sheet, in the words of musicians: which bars, which notes, and
//! which findings are gone or new. Made from two snapshots; must not know any file.

mod bars;
mod findings;
mod settings;
mod words;

use std::collections::BTreeMap;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};

use crate::features::words::capitalized;

pub use words::in_words;

/// What changed in one exercise, or in the sheet outside of its exercises.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changes {
    /// What it is about.
    pub heading: String,
    /// What changed, a line each.
    pub lines: Vec<String>,
}

/// An exercise with its number and its block.
type Numbered<'a> = (usize, &'a Placed, &'a Exercise);

/// What changed from one version to the other, exercise by exercise; nothing where the music, its
/// settings and all findings are the same.
pub fn comparison(old: &Snapshot, new: &Snapshot) -> Vec<Changes> {
    let (before, after): (Vec<_>, Vec<_>) = (old.exercises().collect(), new.exercises().collect());
    let pairs = pairs(&before, &after);
    let is_kept = |one: &Numbered<'_>| pairs.iter().any(|(kept, _)| kept.0 == one.0);
    let gone = before.iter().filter(|one| !is_kept(one));
    let gone = gone.map(|one| alone(one, "The exercise was taken out."));
    let came = |one: &Numbered<'_>| !pairs.iter().any(|(_, came)| came.0 == one.0);
    let came = after.iter().filter(|one| came(one)).map(|one| alone(one, "The exercise is new."));
    let of_all = settings_of_all(&pairs);
    let changed = pairs.iter().map(|(old, new)| changes(old, new, &of_all));
    let of_all = Changes { heading: "All exercises".to_owned(), lines: of_all.clone() };
    let told = [of_all].into_iter().chain(changed).chain(gone).chain(came);
    told.filter(|it| !it.lines.is_empty()).collect()
}

/// What changed in the settings of all exercises alike, where there are several.
fn settings_of_all(pairs: &[(Numbered<'_>, Numbered<'_>)]) -> Vec<String> {
    let mut each = pairs.iter().map(|(old, new)| settings::changes(old.2, new.2));
    let first = each.next().filter(|_| pairs.len() > 1).unwrap_or_default();
    each.fold(first, |mut all, own| {
        all.retain(|line| own.contains(line));
        all
    })
}

/// The exercises that are the same one in both versions: those of the same title, or else of the same
/// number among those that are left.
fn pairs<'a>(before: &[Numbered<'a>], after: &[Numbered<'a>]) -> Vec<(Numbered<'a>, Numbered<'a>)> {
    let mut left: Vec<_> = after.to_vec();
    let mut found = BTreeMap::new();
    for is_same in [has_same_title, has_same_number] {
        for old in before {
            let same = left.iter().position(|new| is_same(old, new));
            if let (false, Some(at)) = (found.contains_key(&old.0), same) {
                found.insert(old.0, (*old, left.remove(at)));
            }
        }
    }
    found.into_values().collect()
}

fn has_same_title(old: &Numbered<'_>, new: &Numbered<'_>) -> bool {
    old.2.title.is_some() && old.2.title == new.2.title
}

fn has_same_number(old: &Numbered<'_>, new: &Numbered<'_>) -> bool {
    old.0 == new.0
}

fn alone((number, _, exercise): &Numbered<'_>, what: &str) -> Changes {
    Changes { heading: heading(*number, exercise), lines: vec![what.to_owned()] }
}

fn heading(number: usize, exercise: &Exercise) -> String {
    let title = exercise.title.as_ref().map(|title| format!(", \"{title}\""));
    format!("Exercise {number}{}", title.unwrap_or_default())
}

/// What changed in an exercise beside what changed in all of them.
fn changes(old: &Numbered<'_>, new: &Numbered<'_>, of_all: &[String]) -> Changes {
    let mut lines = settings::changes(old.2, new.2);
    lines.retain(|line| !of_all.contains(line));
    let mut by_bar: BTreeMap<u32, Vec<String>> = BTreeMap::new();
    for (bar, words) in bars::changes((old.1, old.2), (new.1, new.2)) {
        by_bar.entry(bar).or_default().push(words);
    }
    let mut of_all = Vec::new();
    for (bar, words) in findings::changes(old.1, new.1) {
        match bar {
            Some(bar) => by_bar.entry(bar).or_default().push(words),
            None => of_all.push(words),
        }
    }
    let told = |(bar, words): (u32, Vec<String>)| format!("bar {bar}: {}", joined(&words));
    lines.extend(by_bar.into_iter().map(told));
    lines.extend(of_all);
    Changes { heading: heading(new.0, new.2), lines }
}

/// Parts one after the other: with a semicolon between them, or as a sentence of its own after one that
/// has ended.
fn joined(parts: &[String]) -> String {
    let mut line = String::new();
    for part in parts {
        if line.ends_with('.') {
            line.push(' ');
            line += &capitalized(part);
        } else {
            line += if line.is_empty() { "" } else { "; " };
            line += part;
        }
    }
    line
}
