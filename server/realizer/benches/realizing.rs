//! What it costs to find what can still be written: above a cantus of eleven notes nothing is written,
//! and all ways are counted, drawn or ranked. Good for ratios within one run; the count in first
//! species is the measure for the others.

#![allow(missing_docs)]
#![expect(
    clippy::redundant_closure_for_method_calls,
    reason = "a method of a type with a lifetime is not general enough"
)]

use std::sync::Arc;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use bicinium_analysis::{Exercise, Sheet, Shelf};
use bicinium_realizer::{Budget, Realizer, Watch};
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

/// The cantus in D of J. J. Fux, 1725.
const CANTUS: &str = "D4 | F4 | E4 | D4 | G4 | F4 | A4 | G4 | F4 | E4 | D4";
const BARS: usize = 11;
/// A search is over when it is over.
const BUDGET: Budget = Budget { trials: u64::MAX, time: Duration::from_secs(600) };

/// The blank exercise of a species.
fn blank(species: u8) -> Exercise {
    let blank = " |".repeat(BARS);
    let text = format!(
        "rulebook modal\nkey D dorian\nspecies {species}\n\nexercise\n  soprano counter |{blank}\n  \
         alto cantus | {CANTUS} |\n"
    );
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let exercise = snapshot.exercises().next().map(|known| known.2.clone());
    exercise.expect("the text is an exercise")
}

/// Asks about a blank exercise, from the beginning each time.
fn ask<T>(bencher: Bencher, species: u8, question: impl Fn(&Realizer<'_>) -> T) {
    let exercise = blank(species);
    bencher.bench_local(|| {
        let cancelled = AtomicBool::new(false);
        let watch = Watch::new(BUDGET, &cancelled);
        question(&Realizer::new(black_box(&exercise), &watch))
    });
}

#[divan::bench(args = [1, 2, 3, 4], sample_count = 5, sample_size = 1)]
fn count(bencher: Bencher, species: u8) {
    ask(bencher, species, |realizer| realizer.count());
}

#[divan::bench(args = [1, 2, 3, 4, 5], sample_count = 5, sample_size = 1)]
fn best_ten(bencher: Bencher, species: u8) {
    ask(bencher, species, |realizer| realizer.best(10));
}

#[divan::bench(args = [1, 2, 3, 4], sample_count = 5, sample_size = 1)]
fn a_thousand_drawn(bencher: Bencher, species: u8) {
    ask(bencher, species, |realizer| realizer.sample(1000, 7));
}

#[divan::bench(args = [1, 2, 4], sample_count = 5, sample_size = 1)]
fn viable_everywhere(bencher: Bencher, species: u8) {
    ask(bencher, species, |realizer| realizer.openings());
}

#[divan::bench(args = [8, 11, 14], sample_count = 5, sample_size = 1)]
fn a_thousand_cantus_drawn(bencher: Bencher, notes: usize) {
    let blank = " |".repeat(notes);
    let text = format!("rulebook modal\nkey D dorian\n\nexercise\n  alto cantus |{blank}\n");
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let (_, _, exercise) = snapshot.exercises().next().expect("the text is an exercise");
    bencher.bench_local(|| {
        let cancelled = AtomicBool::new(false);
        let watch = Watch::new(BUDGET, &cancelled);
        Realizer::new(black_box(exercise), &watch).sample(1000, 7)
    });
}
