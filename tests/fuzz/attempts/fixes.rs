//! Whatever stands in a sheet, every place of it can be asked about, and every fix can be applied: the text can still
//! be read as well as before, and where notes were changed no fault is new.

use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::fixes::{self, Fix};
use bicinium::features::hover;
use bicinium_analysis::{Level, Sheet, Shelf, Snapshot};

/// Asks about every place of a sheet, and does all that is offered.
pub fn attempt(text: &str) {
    if text.len() > 600 {
        return;
    }
    let before = snapshot(text);
    (0..=text.len() + 1).step_by(3).for_each(|offset| drop(hover::hover(&before, offset)));
    let offered = fixes::fixes(&before, &(0..text.len()), &AtomicBool::new(false));
    for fix in offered.iter().take(20) {
        assert!(!fix.title.is_empty());
        let written = applied(text, fix);
        let after = snapshot(&written);
        let (unread, faults) = (count(&before, is_notation), count(&before, is_fault));
        let told = || format!("{}\n{text}\nbecame\n{written}", fix.title);
        if is_of_notes(&before, fix) {
            assert!(count(&after, is_notation) <= unread, "{}", told());
            assert!(count(&after, is_fault) <= faults, "{}", told());
        }
    }
}

fn snapshot(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

/// Whether a fix mends only what the judge has found.
fn is_of_notes(snapshot: &Snapshot, fix: &Fix) -> bool {
    let levels: Vec<_> = snapshot.findings().map(|it| it.finding.level).collect();
    fix.mends.iter().all(|number| levels[*number] != Level::Notation)
}

fn is_notation(level: Level) -> bool {
    level == Level::Notation
}

fn is_fault(level: Level) -> bool {
    level == Level::Fault
}

fn count(snapshot: &Snapshot, is_meant: fn(Level) -> bool) -> usize {
    snapshot.findings().filter(|it| is_meant(it.finding.level) && it.finding.stands()).count()
}

/// The text with a fix, whose changes must not meet.
fn applied(text: &str, fix: &Fix) -> String {
    let mut edits: Vec<(Range<usize>, &str)> =
        fix.edits.iter().map(|(range, insert)| (range.clone(), insert.as_str())).collect();
    edits.sort_by_key(|(range, _)| (range.start, range.end));
    assert!(edits.windows(2).all(|pair| pair[0].0.end <= pair[1].0.start), "{edits:?}");
    let mut written = text.to_owned();
    for (range, insert) in edits.into_iter().rev() {
        written.replace_range(range, insert);
    }
    written
}
