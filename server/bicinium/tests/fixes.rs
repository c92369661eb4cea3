//! Every fix on every fixture of the rules: applied, the sheet reads as before, the finding is
//! gone, no fault is new; and taking the preferred fix again and again comes to an end.

#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::fixes::{Fix, fixes};
use bicinium_analysis::{Finding, Level, Sheet, Shelf, Snapshot};

/// Nobody gives up waiting.
static STILL_WAITED_FOR: AtomicBool = AtomicBool::new(false);

fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

fn applied(text: &str, fix: &Fix) -> String {
    let mut edits = fix.edits.clone();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.0.start));
    let mut text = text.to_owned();
    for (range, insert) in edits {
        text.replace_range(range, &insert);
    }
    text
}

/// The faults of a sheet as rule, bar and beat, without those that are accepted.
fn faults(snapshot: &Snapshot) -> Vec<(&'static str, Option<(u32, u32)>)> {
    let standing = standing(snapshot).into_iter();
    let faults = standing.filter(|finding| finding.level <= Level::Fault);
    faults.map(|finding| (finding.rule, place(&finding))).collect()
}

fn standing(snapshot: &Snapshot) -> Vec<Finding> {
    let all = snapshot.findings().map(|located| located.finding);
    all.filter(|finding| finding.stands()).cloned().collect()
}

fn place(finding: &Finding) -> Option<(u32, u32)> {
    finding.place.map(|place| (place.bar, place.beat))
}

fn is_same(a: &Finding, b: &Finding) -> bool {
    a.rule == b.rule && a.place == b.place && a.voice == b.voice && a.place.is_some()
}

fn sheets() -> Vec<PathBuf> {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../analysis/tests/rules");
    let folders = std::fs::read_dir(rules).unwrap().flatten();
    let files = folders.flat_map(|folder| std::fs::read_dir(folder.path()).unwrap().flatten());
    let mut paths: Vec<_> = files.map(|file| file.path()).collect();
    paths.sort();
    assert!(paths.len() > 10);
    paths
}

#[test]
fn every_fix_of_every_fixture_keeps_its_promise() {
    let (mut count, mut pairs) = (0, 0);
    for path in sheets() {
        let text = std::fs::read_to_string(&path).unwrap();
        let before = judged(&text);
        for (number, located) in before.findings().enumerate() {
            let of_finding = |fix: &Fix| fix.mends.contains(&number);
            let offered = fixes(&before, &located.range(), &STILL_WAITED_FOR);
            assert_offered_once(&path, &offered);
            for fix in offered.into_iter().filter(of_finding) {
                check(&path, &text, located.finding, &fix);
                count += 1;
                pairs += usize::from(tells_of_two(&fix));
            }
        }
    }
    assert!(count > 50, "only {count} fixes were tried");
    assert!(pairs > 5, "only {pairs} change two notes");
}

/// What mends several findings is offered once for all of them.
fn assert_offered_once(path: &Path, offered: &[Fix]) {
    for (number, fix) in offered.iter().enumerate() {
        let again = offered[..number].iter().find(|other| other.edits == fix.edits);
        assert_eq!(again, None, "{}", path.display());
    }
}

/// Whether a fix writes two notes, and then names them beside each other.
fn tells_of_two(fix: &Fix) -> bool {
    let [(_, first), (_, second)] = fix.edits.as_slice() else { return false };
    let writes = fix.title.starts_with("Write ");
    let told = format!("Write {first} and {second} instead of ");
    assert!(!writes || fix.title.starts_with(&told), "{}", fix.title);
    writes
}

fn check(path: &Path, text: &str, finding: &Finding, fix: &Fix) {
    let told = || format!("{}: {} for {}", path.display(), fix.title, finding.rule);
    let after = judged(&applied(text, fix));
    let left = standing(&after);
    assert!(!left.iter().any(|other| is_same(other, finding)), "{}: still there", told());
    let known = faults(&judged(text));
    for fault in faults(&after) {
        assert!(known.contains(&fault), "{}: brings {fault:?}", told());
    }
}

#[test]
fn taking_the_preferred_fix_again_and_again_comes_to_an_end() {
    for path in sheets() {
        let mut text = std::fs::read_to_string(&path).unwrap();
        let mut rounds = 0;
        while let Some(fix) = preferred(&judged(&text)) {
            text = applied(&text, &fix);
            rounds += 1;
            assert!(rounds < 100, "{}: no end\n{text}", path.display());
        }
    }
}

fn preferred(snapshot: &Snapshot) -> Option<Fix> {
    let ranges: Vec<_> = snapshot.findings().map(|located| located.range()).collect();
    let all = ranges.into_iter().flat_map(|range| fixes(snapshot, &range, &STILL_WAITED_FOR));
    all.into_iter().find(|fix| fix.preferred)
}

#[test]
fn a_cantus_is_restored_note_by_note_and_what_is_no_note_stays() {
    let text = "key D dorian\n\ncantus quay\n  line | D4 | F4 | E4 | G4 | D4 |\n\nexercise\n  species 1\n  \
                alto cantus quay | D4 | slow down | ? | A4 | D4 |\n  bass counter | | | | | |\n";
    let offered = fixes(&judged(text), &(0..text.len()), &STILL_WAITED_FOR);
    let restore = offered.iter().find(|fix| fix.title.starts_with("Restore the cantus")).unwrap();
    assert_eq!(applied(text, restore), text.replace("A4 |", "G4 |"));
}
