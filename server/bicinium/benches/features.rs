//! What an answer costs, in the middle of sheets of ever more exercises: hover, fixes, completion at a hole and of a
//! word, and all hints, tokens and layout at once. Good for ratios within one run.

#![allow(missing_docs)]

#[path = "../../../tests/texts/mod.rs"]
mod texts;

use std::collections::BTreeSet;
use std::hint::black_box;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::completion::{Near, words};
use bicinium::features::hints::{HintKind, hints};
use bicinium::features::realizing::choices;
use bicinium::features::{fixes, hover, layout, tokens};
use bicinium_analysis::{Sheet, Shelf, Snapshot};
use divan::Bencher;

fn main() {
    divan::main();
}

const EXERCISES: [usize; 4] = [1, 10, 100, 1_000];

/// A sheet with something else in the place of a note in its middle, and where that is.
fn sheet(exercises: usize, instead: &str) -> (Arc<Snapshot>, usize) {
    let mut text = texts::sheet("modal", exercises);
    let at = texts::note_near(&text, 0.5);
    text.replace_range(at..at + 2, instead);
    (Sheet::new(&text, Arc::new(Shelf::default())).snapshot(), at)
}

#[divan::bench(args = EXERCISES)]
fn hover_on_a_note(bencher: Bencher, exercises: usize) {
    let (snapshot, at) = sheet(exercises, "G4");
    bencher.bench_local(|| hover::hover(black_box(&snapshot), at));
}

#[divan::bench(args = EXERCISES, sample_count = 20)]
fn fixes_for_a_fault(bencher: Bencher, exercises: usize) {
    let (snapshot, at) = sheet(exercises, "F4");
    let still_wanted = AtomicBool::new(false);
    bencher.bench_local(|| fixes::fixes(black_box(&snapshot), &(at..at + 2), &still_wanted));
}

#[divan::bench(args = EXERCISES, sample_count = 20)]
fn choices_for_a_hole(bencher: Bencher, exercises: usize) {
    let (snapshot, at) = sheet(exercises, "?");
    let still_wanted = AtomicBool::new(false);
    bencher.bench_local(|| choices(black_box(&snapshot), at, &still_wanted));
}

#[divan::bench(args = EXERCISES)]
fn words_of_a_line(bencher: Bencher, exercises: usize) {
    let (snapshot, at) = sheet(exercises, "G4");
    let start = snapshot.block_at(at).map_or(0, |block| block.start);
    let near = Near { schools: &[], sheets: &|_| Vec::new() };
    bencher.bench_local(|| words(black_box(&snapshot), start, &near));
}

#[divan::bench(args = EXERCISES)]
fn all_hints(bencher: Bencher, exercises: usize) {
    let (snapshot, _) = sheet(exercises, "G4");
    let kinds = BTreeSet::from([HintKind::Intervals, HintKind::Harmonies, HintKind::Suspensions]);
    let count =
        || snapshot.blocks().iter().map(|it| hints(&it.judged, &kinds).len()).sum::<usize>();
    bencher.bench_local(count);
}

#[divan::bench(args = EXERCISES)]
fn all_tokens(bencher: Bencher, exercises: usize) {
    let (snapshot, _) = sheet(exercises, "G4");
    let count =
        || snapshot.blocks().iter().map(|it| tokens::tokens(&it.judged).len()).sum::<usize>();
    bencher.bench_local(count);
}

#[divan::bench(args = EXERCISES)]
fn whole_layout(bencher: Bencher, exercises: usize) {
    let (snapshot, _) = sheet(exercises, "G4");
    let blocks = || snapshot.blocks().iter();
    bencher.bench_local(|| blocks().map(|it| layout::edits(&it.judged.tree).len()).sum::<usize>());
}
