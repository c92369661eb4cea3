//! Whatever is open in a sheet, a way to fill it leaves no fault when it is written.

use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use bicinium::features::realizing::edits;
use bicinium_analysis::{Level, Sheet, Shelf};
use bicinium_realizer::{Budget, Realizer, Watch};

const BUDGET: Budget = Budget { trials: 20_000, time: Duration::from_secs(1) };

/// Fills what is open in each exercise of a sheet.
pub fn attempt(text: &str) {
    if text.len() > 600 {
        return;
    }
    let shelf = Arc::new(Shelf::default());
    let snapshot = Sheet::new(text, shelf.clone()).snapshot();
    let is_readable = snapshot.findings().all(|it| it.finding.level != Level::Notation);
    for (_, block, exercise) in snapshot.exercises().filter(|_| is_readable) {
        let cancelled = AtomicBool::new(false);
        let watch = Watch::new(BUDGET, &cancelled);
        for way in Realizer::new(exercise, &watch).best(2).found {
            let mut written = text.to_owned();
            for (range, insert) in edits(block, exercise, &way).into_iter().rev() {
                written.replace_range(range, &insert);
            }
            let (start, end) = (block.start, block.start + block.judged.tree.text().len());
            let rest = text.len() - end;
            let filled = Sheet::new(&written, shelf.clone()).snapshot();
            let own = start..written.len() - rest;
            let faults = filled.findings().filter(|it| {
                it.finding.level <= Level::Fault
                    && it.finding.stands()
                    && own.contains(&it.range().start)
            });
            assert_eq!(faults.count(), 0, "{text}\nfilled:\n{written}");
        }
    }
}
