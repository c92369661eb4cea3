//! Fux's own solutions are among the ways to fill the rhythms that he wrote, under the rulebook named
//! after his school; how they rank is on record in `tests/worked/fux-1725-ranks.tsv`, which
//! `BICINIUM_DRAW=1` writes anew.

#![allow(clippy::unwrap_used)]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::judge::moments;
use bicinium_analysis::{Exercise, Sheet, Shelf};
use bicinium_realizer::{Budget, Extent, Realizer, Watch};

/// How many ways are drawn to compare a solution with.
const DRAWN: usize = 1000;

fn worked() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/worked")
}

/// The exercises of a sheet, judged by the modal school.
fn exercises(text: &str) -> Vec<(String, Exercise)> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let named = snapshot.exercises().map(|(_, block, exercise)| {
        let title = block.judged.tree.text().lines().next().unwrap().to_owned();
        (title, exercise.clone())
    });
    named.collect()
}

/// The same text with every note of a counter taken out.
fn hollow(text: &str) -> String {
    let lines = text.lines().map(|line| {
        let Some((head, bars)) = line.split_once('|').filter(|(head, _)| head.contains("counter"))
        else {
            return line.to_owned();
        };
        let mut hollow = format!("{head}|");
        let mut is_note = false;
        for letter in bars.chars() {
            if ('A'..='G').contains(&letter) {
                hollow.push('?');
                is_note = true;
            } else if !is_note || matches!(letter, ' ' | '|' | '(' | ')' | '-') {
                hollow.push(letter);
                is_note = false;
            }
        }
        hollow
    });
    lines.collect::<Vec<_>>().join("\n") + "\n"
}

fn row(title: &str, written: &Exercise, hollow: &Exercise) -> String {
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(Budget::default(), &cancelled);
    let realizer = Realizer::new(hollow, &watch);
    let count = realizer.count();
    assert_eq!(count.extent, Extent::All, "{title}");
    let found = realizer.find(&moments(&written.score));
    let own = found.unwrap_or_else(|| panic!("{title} is none of the ways")).resistance;
    let best = realizer.best(1).found.first().unwrap().resistance;
    let drawn = realizer.sample(DRAWN, 1).found;
    let smoother = drawn.iter().filter(|way| way.resistance < own).count();
    format!("{title}\t{}\t{own}\t{best}\t{smoother}\n", count.number)
}

#[test]
fn his_solutions_are_among_the_ways_and_rank_high() {
    let head = format!("exercise\tways\tresistance\tof the best\tsmoother among {DRAWN} drawn\n");
    let mut table = head;
    for species in 1..=5 {
        let path = worked().join(format!("fux-1725-species-{species}.bicinium"));
        let text = std::fs::read_to_string(path).unwrap();
        let (written, open) = (exercises(&text), exercises(&hollow(&text)));
        assert_eq!(written.len(), open.len());
        for ((title, written), (_, open)) in written.iter().zip(&open) {
            let title = title.trim_start_matches("exercise ").trim_matches('"');
            write!(table, "{}", row(title, written, open)).unwrap();
        }
    }
    let path = worked().join("fux-1725-ranks.tsv");
    if std::env::var_os("BICINIUM_DRAW").is_some() {
        std::fs::write(&path, &table).unwrap();
    }
    assert_eq!(std::fs::read_to_string(path).unwrap(), table);
}
