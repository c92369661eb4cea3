//! What each stage of judging costs, and what an edit costs wherever it falls: in sheets of ever
//! more exercises and in exercises of ever more bars. Good for ratios within one run.

#![allow(missing_docs)]

#[path = "../../../tests/texts/mod.rs"]
mod texts;

use std::sync::Arc;

use bicinium_analysis::judge::judge;
use bicinium_analysis::score::lower;
use bicinium_analysis::score::settings::Settings;
use bicinium_analysis::{Rulebook, Sheet, Shelf};
use bicinium_grammar::{BlockTree, SheetTree, ast, format};
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

const EXERCISES: [usize; 5] = [1, 10, 100, 1_000, 10_000];
const BARS: [usize; 3] = [10, 100, 1_000];
const PLACES: [(&str, f64); 3] = [("top", 0.0), ("middle", 0.5), ("end", 1.0)];
const BOOKS: [&str; 2] = ["modal", "tonal"];

/// An exercise as the stages hand it on.
struct Stages {
    block: ast::ExerciseBlock,
    settings: Settings,
    rulebook: Arc<Rulebook>,
}

impl Stages {
    fn of(book: &str) -> Self {
        let tree = BlockTree::parse(&texts::exercise(book, 100));
        let ast::Block::Exercise(block) = tree.ast() else { panic!("the text is an exercise") };
        let settings = Settings::default().with(block.settings(), &mut Vec::new());
        let rulebook = Shelf::default().get(book).expect("a built-in rulebook").clone();
        Self { block, settings, rulebook }
    }

    fn score(&self) -> bicinium_analysis::score::Score {
        let rows = &mut lower::Readings::default();
        lower::exercise(&self.block, &self.settings, &|_| None, rows, &mut Vec::new()).score
    }
}

#[divan::bench]
fn parsing_100_bars(bencher: Bencher) {
    let text = texts::exercise("modal", 100);
    let length = divan::counter::BytesCount::new(text.len());
    bencher.counter(length).bench(|| SheetTree::parse(black_box(&text)));
}

#[divan::bench]
fn formatting_100_bars(bencher: Bencher) {
    let text = texts::exercise("modal", 100);
    let length = divan::counter::BytesCount::new(text.len());
    bencher.counter(length).bench(|| format(black_box(&text)));
}

#[divan::bench]
fn lowering_100_bars(bencher: Bencher) {
    let stages = Stages::of("modal");
    bencher.bench_local(|| stages.score());
}

#[divan::bench(args = BOOKS)]
fn judging_100_bars(bencher: Bencher, book: &str) {
    let stages = Stages::of(book);
    let score = stages.score();
    let rules = stages.rulebook.rules(stages.settings.species);
    bencher.bench_local(|| judge(black_box(&score), rules));
}

#[divan::bench(args = BOOKS)]
fn whole_check_of_100_exercises(bencher: Bencher, book: &str) {
    let text = texts::sheet(book, 100);
    let shelf = Arc::new(Shelf::default());
    bencher.bench(|| Sheet::new(black_box(&text), shelf.clone()));
}

#[divan::bench(args = EXERCISES, consts = [0, 1, 2], sample_count = 20)]
fn edit_in_a_sheet<const PLACE: usize>(bencher: Bencher, exercises: usize) {
    edit(bencher, &texts::sheet("modal", exercises), PLACES[PLACE].1);
}

#[divan::bench(args = BARS, consts = [0, 1, 2], sample_count = 20)]
fn edit_in_an_exercise_modal<const PLACE: usize>(bencher: Bencher, bars: usize) {
    edit(bencher, &texts::exercise("modal", bars), PLACES[PLACE].1);
}

#[divan::bench(args = BARS, consts = [0, 1, 2], sample_count = 20)]
fn edit_in_an_exercise_tonal<const PLACE: usize>(bencher: Bencher, bars: usize) {
    edit(bencher, &texts::exercise("tonal", bars), PLACES[PLACE].1);
}

/// Changes a note back and forth, and takes a snapshot each time.
fn edit(bencher: Bencher, text: &str, place: f64) {
    let at = texts::note_near(text, place);
    let mut sheet = Sheet::new(text, Arc::new(Shelf::default()));
    let mut faces = ["F4", "G4"].iter().cycle();
    bencher.bench_local(|| {
        sheet.edit(at..at + 2, faces.next().expect("a cycle has no end"));
        sheet.snapshot()
    });
}
