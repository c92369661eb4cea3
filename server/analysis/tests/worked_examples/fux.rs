//! The two-part examples of J. J. Fux, 1725, in the modal school.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use bicinium_analysis::score::Event;
use bicinium_analysis::{Level, Sheet, Shelf};
use bicinium_theory::Pitch;

use super::sheets::{Example, examples};
use super::tables::rows;

/// The examples of a species.
pub fn of_species(species: u8) -> Vec<Example> {
    examples(&format!("fux-1725-species-{species}"), "modal")
}

/// The number of examples, and the faults.
fn judged(species: u8) -> (usize, Vec<String>) {
    let examples = of_species(species);
    let told = examples.iter().flat_map(|example| {
        let figure = example.figure().to_owned();
        example.told(Level::Fault).into_iter().map(move |line| format!("{figure} {line}"))
    });
    (examples.len(), told.collect())
}

#[test]
fn first_species_has_no_fault() {
    assert_eq!(judged(1), (6, Vec::new()));
}

#[test]
fn second_species_has_no_fault() {
    assert_eq!(judged(2), (8, Vec::new()));
}

#[test]
fn third_species_has_no_fault() {
    assert_eq!(judged(3), (4, Vec::new()));
}

#[test]
fn fourth_species_has_no_fault() {
    assert_eq!(judged(4), (4, Vec::new()));
}

#[test]
fn fifth_species_has_no_fault() {
    assert_eq!(judged(5), (8, Vec::new()));
}

#[test]
fn his_cantus_by_themselves_have_no_fault() {
    let cantus: BTreeSet<_> = (1..=5).flat_map(of_species).filter_map(|it| alone(&it)).collect();
    assert_eq!(cantus.len(), 5, "{cantus:?}");
    for text in cantus {
        let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        // Which of our voices might sing it is no matter of his.
        let faults = findings.filter(|it| it.level <= Level::Fault && it.rule != "compass");
        let faults: Vec<_> = faults.map(|finding| &finding.message).collect();
        assert_eq!(faults, Vec::<&String>::new(), "{text}");
    }
}

/// The cantus of an example by itself, in the octave of a soprano.
fn alone(example: &Example) -> Option<String> {
    let score = &example.exercise.score;
    let events = &score.lines[score.setting.cantus?].events;
    let pitches: Vec<_> = events.iter().filter_map(Event::pitch).collect();
    let octaves = 4 - pitches.first()?.octave();
    let moved = |pitch: &Pitch| pitch.class().at(pitch.octave() + octaves);
    let notes: Vec<_> = pitches.iter().filter_map(moved).map(|it| it.to_string()).collect();
    let (key, notes) = (score.setting.key, notes.join(" | "));
    Some(format!("rulebook modal\nkey {key}\n\nexercise\n  soprano cantus | {notes} |\n"))
}

/// How often a rule is raised below the level of a fault, and in which figures.
#[derive(Debug, Default, PartialEq)]
struct Count {
    times: usize,
    figures: BTreeSet<String>,
}

fn counts() -> BTreeMap<(String, String), Count> {
    let mut counts: BTreeMap<_, Count> = BTreeMap::new();
    for example in (1..=5).flat_map(of_species) {
        let mild = example.findings.iter().filter(|finding| finding.level > Level::Fault);
        for finding in mild {
            let key = (finding.level.name().to_owned(), finding.rule.to_owned());
            let count = counts.entry(key).or_default();
            count.times += 1;
            count.figures.insert(example.figure().to_owned());
        }
    }
    counts
}

fn counted(row: &[String]) -> ((String, String), Count) {
    let [level, rule, times, figures] = row else { unreachable!("four cells") };
    let figures = figures.split(' ').map(str::to_owned).collect();
    ((level.clone(), rule.clone()), Count { times: times.parse().unwrap(), figures })
}

#[test]
fn cautions_and_advice_are_those_of_the_table() {
    let table: BTreeMap<_, _> =
        rows("fux-1725-findings.tsv").iter().map(|row| counted(row)).collect();
    let counts = counts();
    let lines = |counts: &BTreeMap<(String, String), Count>| {
        let line = |((level, rule), count): (&(String, String), &Count)| {
            let figures: Vec<_> = count.figures.iter().map(String::as_str).collect();
            format!("{level}\t{rule}\t{}\t{}\n", count.times, figures.join(" "))
        };
        counts.iter().map(line).collect::<String>()
    };
    assert_eq!(lines(&counts), lines(&table), "found:\n{}", lines(&counts));
}

/// Rules, and what the independent count calls the same.
const COUNTED_ALIKE: [(&str, &str); 6] = [
    ("crossing", "crossing"),
    ("overlap", "overlap"),
    ("framed-tritone", "framed tritone"),
    ("high-point", "repeated high point"),
    ("shared-high-point", "high points at one time"),
    ("minor-sixth-leap", "minor sixth falling"),
];

#[test]
fn the_rules_find_what_an_independent_count_finds() {
    let census = rows("fux-1725-census.tsv");
    let counts = counts();
    for (rule, what) in COUNTED_ALIKE {
        let ours = counts.iter().filter(|known| known.0.1 == rule);
        let ours: BTreeSet<_> = ours.flat_map(|(_, count)| count.figures.clone()).collect();
        let theirs = census.iter().filter(|row| row[2] == what);
        let theirs: BTreeSet<_> =
            theirs.flat_map(|row| row[4].split(' ').map(str::to_owned)).collect();
        assert!(!theirs.is_empty(), "{what}");
        assert_eq!(ours, theirs, "{rule}");
    }
}
