//! Everything mended that can be mended without asking: the preferred fix of one finding after the
//! other, until nothing is left or no fix makes the sheet better. Knows findings and fixes, not rules.
//!
//! A fix is kept only if it leaves less to say and brings no fault; a slip of the pen is mended in
//! any case, though the music may have faults that could not be seen before.

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use bicinium_analysis::sheet::Lent;
use bicinium_analysis::{Level, Sheet, Snapshot};

use super::fixes::fixes;
use super::lines::differences;
use super::patience::Patience;

/// How long somebody waits for it; what is mended by then is mended.
const LONGEST: Duration = Duration::from_secs(10);

/// How often the sheet is gone through; each time something has become better.
const ROUNDS: usize = 8;

/// A stretch of bytes and what stands there instead.
type Edit = (Range<usize>, String);

/// The changes of a text that mend what is found in it; the snapshot is of this text.
pub fn fix_all(snapshot: &Snapshot, text: &str, cancelled: &AtomicBool) -> Vec<Edit> {
    let mut bench = Bench::new(snapshot, text);
    let patience = Patience::new(LONGEST, cancelled);
    let mut rounds = 0;
    while bench.go_through(patience, cancelled) && rounds < ROUNDS {
        rounds += 1;
    }
    differences(text, &bench.text)
}

/// A sheet of its own, on which fixes are tried.
struct Bench {
    text: String,
    sheet: Sheet,
}

impl Bench {
    fn new(snapshot: &Snapshot, text: &str) -> Self {
        let mut sheet = Sheet::new(text, Arc::new(snapshot.shelf().clone()));
        let own: BTreeSet<_> = sheet.definitions().keys().cloned().collect();
        let mut lent = snapshot.definitions().clone();
        lent.retain(|name, _| !own.contains(name));
        for path in sheet.uses() {
            let lent = Lent { definitions: lent.clone(), leads_back: None };
            sheet.provide(&path, Ok(lent));
        }
        Self { text: text.to_owned(), sheet }
    }

    /// Takes the preferred fix of every finding that has one; whether anything has become better.
    fn go_through(&mut self, patience: Patience<'_>, cancelled: &AtomicBool) -> bool {
        let (mut number, mut is_better) = (0, false);
        while !patience.is_over() {
            let snapshot = self.sheet.snapshot();
            let Some(located) = snapshot.findings().nth(number) else { return is_better };
            let range = located.range();
            let fix = located.finding.stands().then(|| fixes(&snapshot, &range, cancelled));
            let mut fixes = fix.into_iter().flatten();
            let preferred = fixes.find(|fix| fix.preferred && fix.mends.contains(&number));
            if preferred.is_some_and(|fix| self.try_out(&snapshot, fix.edits)) {
                is_better = true;
            } else {
                number += 1;
            }
        }
        false
    }

    /// Makes the changes, and keeps them if the sheet is better for it.
    fn try_out(&mut self, before: &Snapshot, mut edits: Vec<Edit>) -> bool {
        edits.sort_by_key(|(range, _)| std::cmp::Reverse(range.start));
        let undo: Vec<_> = edits.into_iter().map(|edit| self.edit(edit)).collect();
        if is_better(before, &self.sheet.snapshot()) {
            return true;
        }
        for edit in undo.into_iter().rev() {
            self.edit(edit);
        }
        false
    }

    /// Makes a change, and returns the one that undoes it.
    fn edit(&mut self, (range, insert): Edit) -> Edit {
        let old = self.text[range.clone()].to_owned();
        self.text.replace_range(range.clone(), &insert);
        self.sheet.edit(range.clone(), &insert);
        (range.start..range.start + insert.len(), old)
    }
}

fn is_better(before: &Snapshot, after: &Snapshot) -> bool {
    let (old, new) = (tally(before), tally(after));
    new[0] < old[0] || (new < old && faults(after).is_subset(&faults(before)))
}

/// How many findings of each level stand, the gravest first.
fn tally(snapshot: &Snapshot) -> [usize; 4] {
    [Level::Notation, Level::Fault, Level::Caution, Level::Advice].map(|level| {
        let standing = snapshot.findings().filter(|it| it.finding.stands());
        standing.filter(|it| it.finding.level == level).count()
    })
}

/// A fault by exercise, rule, bar and beat.
type Fault = (Option<usize>, &'static str, Option<(u32, u32)>);

/// The faults that stand.
fn faults(snapshot: &Snapshot) -> BTreeSet<Fault> {
    let standing = snapshot.findings().filter(|it| it.finding.stands());
    let faults = standing.filter(|it| it.finding.level == Level::Fault);
    let key = |it: bicinium_analysis::Located<'_>| {
        let place = it.finding.place.map(|place| (place.bar, place.beat));
        (it.block.number, it.finding.rule, place)
    };
    faults.map(key).collect()
}
