//! Blank bars between bars that are written: the note before may be held into them, and what is held after
//! them belongs to them. Held against trying every bar, written into the text.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::realizing::{choices, edits};
use bicinium_analysis::{Exercise, Level, Sheet, Shelf, Snapshot};
use bicinium_realizer::{Budget, Extent, Realization, Realizer, Watch, pitches};

const HEAD: &str = "key D dorian\n\nexercise\n";
const ABOVE: [&str; 6] = ["rest A4", "- D5", "- C5", "- B4", "- C#5", "D5"];
const CANTUS: [&str; 6] = ["D4", "F4", "E4", "G4", "E4", "D4"];
const FLORID: [&str; 6] = ["rest A4", "- D5", "- (C5 B4) C5 A4", "B4 D5", "- C#5", "D5"];

fn sheet(school: &str, species: u8, bars: &[&str]) -> String {
    format!(
        "rulebook {school}\n{HEAD}  species {species}\n  soprano counter | {} |\n  alto cantus | {} |\n",
        bars.join(" | "),
        CANTUS.join(" | ")
    )
}

fn snapshot(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

fn faults(text: &str) -> usize {
    let snapshot = snapshot(text);
    snapshot.findings().filter(|it| it.finding.level <= Level::Fault && it.finding.stands()).count()
}

fn ways(exercise: &Exercise) -> Vec<Realization> {
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(Budget::default(), &cancelled);
    let realizer = Realizer::new(exercise, &watch);
    let found = realizer.best(usize::MAX);
    assert_eq!(found.extent, Extent::All);
    assert_eq!(realizer.count().number, found.found.len().into());
    found.found
}

/// The text with each of the ways written into its blank bars.
fn written(text: &str) -> BTreeSet<String> {
    let snapshot = snapshot(text);
    let (_, block, exercise) = snapshot.exercises().next().unwrap();
    let write = |way: &Realization| {
        let mut written = text.to_owned();
        for (range, insert) in edits(block, exercise, way).into_iter().rev() {
            written.replace_range(range, &insert);
        }
        assert_eq!(faults(&written), 0, "{written}");
        written
    };
    let ways = ways(exercise);
    let texts: BTreeSet<_> = ways.iter().map(write).collect();
    assert_eq!(texts.len(), ways.len(), "every way once: {text}");
    texts
}

/// Every bar of two halves between C4 and B5 that leaves no fault, the first of them struck or held.
fn by_trying(text: &str) -> BTreeSet<String> {
    let snapshot = snapshot(text);
    let (_, _, exercise) = snapshot.exercises().next().unwrap();
    let mut pitches = pitches(&exercise.score.setting);
    pitches.retain(|pitch| (4..=5).contains(&pitch.octave()));
    let second = |first: String| pitches.iter().map(move |second| format!(" {first} {second} "));
    let held = (!text.contains("counter |  |")).then(|| "-".to_owned());
    let firsts = pitches.iter().map(ToString::to_string).chain(held);
    let bars = firsts.flat_map(second);
    let texts = bars.map(|bar| text.replacen("|  |", &format!("|{bar}|"), 1));
    texts.filter(|text| faults(text) == 0).collect()
}

#[test]
fn a_blank_bar_of_fourth_species_takes_and_gives_ties() {
    let mut ways = 0;
    for school in ["modal", "tonal"] {
        for blank in 1..ABOVE.len() - 1 {
            for next in [ABOVE[blank + 1].to_owned(), ABOVE[blank + 1].replace("- ", "D5 ")] {
                let mut bars = ABOVE.map(str::to_owned);
                bars[blank + 1] = next;
                bars[blank].clear();
                let bars: Vec<_> = bars.iter().map(String::as_str).collect();
                let text = sheet(school, 4, &bars);
                let found = written(&text);
                assert_eq!(found, by_trying(&text), "{text}");
                ways += found.len();
            }
        }
    }
    assert!(ways > 40, "{ways}");
}

#[test]
fn a_florid_line_goes_through_a_blank_bar_by_ties() {
    assert_eq!(faults(&sheet("modal", 5, &FLORID)), 0);
    for blank in 1..FLORID.len() - 1 {
        let mut bars = FLORID;
        bars[blank] = "";
        let found = written(&sheet("modal", 5, &bars));
        let bar = format!("| {} |", FLORID[blank]);
        assert!(found.iter().any(|text| text.contains(&bar)), "{bar} is not among {found:#?}");
    }
}

/// How the bars begin that are offered for the first blank one: struck or held over, and the first note.
fn offered(text: &str) -> BTreeSet<String> {
    let offset = text.find("|  |").unwrap() + 2;
    let found = choices(&snapshot(text), offset, &AtomicBool::new(false)).unwrap();
    assert_eq!(found.extent, Extent::All);
    found.choices.iter().map(|choice| beginning(&choice.text)).collect()
}

fn beginning(bar: &str) -> String {
    let mut signs = bar.split_whitespace();
    let first = signs.next().unwrap();
    if first == "-" { format!("- {}", signs.next().unwrap()) } else { first.to_owned() }
}

#[test]
fn a_blank_bar_is_offered_what_is_held_over_and_what_is_struck() {
    let mut held = 0;
    for school in ["modal", "tonal"] {
        for blank in 1..ABOVE.len() - 1 {
            let mut bars = ABOVE;
            bars[blank] = "";
            let text = sheet(school, 4, &bars);
            let [before, after] = [text.find("|  |").unwrap() + 1, text.find("|  |").unwrap() + 3];
            let behind = text.len() - after;
            let tried = by_trying(&text);
            let tried = tried.iter().map(|text| beginning(&text[before..text.len() - behind]));
            let (tried, offered) = (tried.collect::<BTreeSet<_>>(), offered(&text));
            assert_eq!(offered, tried, "{text}");
            held += offered.iter().filter(|bar| bar.starts_with('-')).count();
        }
    }
    assert!(held > 4, "{held}");
    let mut bars = FLORID;
    bars[2] = "";
    let offered = offered(&sheet("modal", 5, &bars));
    assert!(offered.iter().any(|bar| bar.starts_with('-')), "{offered:?}");
    assert!(offered.iter().any(|bar| !bar.starts_with('-')), "{offered:?}");
}
