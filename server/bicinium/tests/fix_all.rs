//! Everything mended at once, on every fixture of the rules and on slips of the pen.

#![allow(clippy::unwrap_used)]

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::fix_all::fix_all;
use bicinium_analysis::{Level, Sheet, Shelf, Snapshot};

fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

fn mended(text: &str) -> String {
    let edits: Vec<(Range<usize>, String)> = fix_all(&judged(text), text, &AtomicBool::new(false));
    edits.into_iter().rev().fold(text.to_owned(), |mut text, (range, insert)| {
        text.replace_range(range, &insert);
        text
    })
}

fn count(snapshot: &Snapshot, level: Level) -> usize {
    let standing = snapshot.findings().filter(|it| it.finding.stands());
    standing.filter(|it| it.finding.level == level).count()
}

fn sheets() -> Vec<PathBuf> {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../analysis/tests/rules");
    let folders = std::fs::read_dir(rules).unwrap().flatten();
    let files = folders.flat_map(|folder| std::fs::read_dir(folder.path()).unwrap().flatten());
    let mut paths: Vec<_> = files.map(|file| file.path()).collect();
    paths.sort();
    paths
}

#[test]
fn slips_of_the_pen_are_mended_and_the_rest_is_kept() {
    let text = "// Quay School ♯\nexercise // one\n  soprano | c5 | D5 |\n  tenor | C4 | b3 |\n";
    let expected = text.replace("c5", "C5").replace("b3", "B3");
    assert_eq!(mended(text), expected);
    assert_eq!(mended(&expected), expected);
}

#[test]
fn an_exercise_with_faults_is_better_after_it_and_nothing_more_is_done() {
    let mut better = 0;
    for path in sheets().into_iter().step_by(5) {
        let text = std::fs::read_to_string(&path).unwrap();
        let after = mended(&text);
        let tally = |text: &str| {
            let snapshot = judged(text);
            [Level::Notation, Level::Fault, Level::Caution, Level::Advice]
                .map(|level| count(&snapshot, level))
        };
        let (old, new) = (tally(&text), tally(&after));
        assert!(new <= old && new[1] <= old[1], "{}\n{after}", path.display());
        assert_eq!(mended(&after), after, "{}", path.display());
        better += usize::from(new[1] < old[1]);
    }
    assert!(better > 10, "{better}");
}
