//! Sheets, judged, with refactorings applied.

use std::collections::BTreeSet;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium::features::refactorings::{Refactoring, refactorings};
use bicinium_analysis::{Finding, Level, Sheet, Shelf, Snapshot};

pub type Place = (&'static str, Level, Option<(u32, u32)>);

pub fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

pub fn applied(text: &str, edits: &[(Range<usize>, String)]) -> String {
    let mut edits = edits.to_vec();
    edits.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
    assert!(edits.is_sorted_by(|(a, _), (b, _)| a.start >= b.end), "edits overlap");
    edits.into_iter().fold(text.to_owned(), |mut text, (range, insert)| {
        text.replace_range(range, &insert);
        text
    })
}

/// What stands, by rule, level and place.
pub fn standing(snapshot: &Snapshot) -> BTreeSet<Place> {
    let all = snapshot.findings().map(|located| located.finding);
    all.filter(|finding| finding.stands()).map(key).collect()
}

fn key(finding: &Finding) -> Place {
    (finding.rule, finding.level, finding.place.map(|place| (place.bar, place.beat)))
}

/// Those of a level.
pub fn of_level(found: &BTreeSet<Place>, level: Level) -> BTreeSet<Place> {
    found.iter().filter(|found| found.1 == level).copied().collect()
}

pub fn at(text: &str, offset: usize) -> Vec<Refactoring> {
    refactorings(&judged(text), &(offset..offset))
}

/// The comments of a text.
pub fn comments(text: &str) -> Vec<&str> {
    text.lines().filter_map(|line| Some(&line[line.find("//")?..])).collect()
}

/// Every sheet among the fixtures of the rules.
pub fn sheets() -> Vec<PathBuf> {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../analysis/tests/rules");
    let folders = std::fs::read_dir(rules).unwrap().flatten();
    let files = folders.flat_map(|folder| std::fs::read_dir(folder.path()).unwrap().flatten());
    let mut paths: Vec<_> = files.map(|file| file.path()).collect();
    paths.sort();
    assert!(paths.len() > 100);
    paths
}
