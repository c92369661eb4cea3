//! The school that the first page of the project shows: it has to be as it is said there.

use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::{Level, Sheet, Shelf};

/// The rulebook between the fences of the first page.
fn example() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../README.md");
    let page = std::fs::read_to_string(path).unwrap();
    let (_, after) = page.split_once("```toml\n").unwrap();
    after.split_once("```").unwrap().0.to_owned()
}

/// What is found by a rule in an exercise under a rulebook.
fn found(rulebook: &str, rule: &str, exercise: &str) -> Vec<(u32, Level)> {
    let mut shelf = Shelf::default();
    shelf.add(&format!("name = \"harbour\"\n{}", example())).unwrap();
    let sheet = Sheet::new(&format!("rulebook {rulebook}\n{exercise}"), Arc::new(shelf));
    let snapshot = sheet.snapshot();
    let findings: Vec<_> = snapshot.findings().map(|located| located.finding).collect();
    assert!(!findings.iter().any(|finding| finding.level == Level::Notation));
    let of_rule = findings.iter().filter(|finding| finding.rule == rule);
    of_rule.map(|finding| (finding.place.unwrap().bar, finding.level)).collect()
}

fn assert_differs(rule: &str, exercise: &str, tonal: &[(u32, Level)], harbour: &[(u32, Level)]) {
    assert_eq!(found("tonal", rule, exercise), tonal, "{rule}");
    assert_eq!(found("harbour", rule, exercise), harbour, "{rule}");
}

#[test]
fn it_is_as_short_as_it_is_said() {
    assert_eq!(example().trim_end().lines().count(), 15);
}

#[test]
fn a_fault_is_advice_there() {
    let crossed = "key C major\nexercise\n  species 1\n  alto cantus | | E4 | D4 | E4 | |\n  \
                   tenor counter | | C4 | F4 | C4 | |\n";
    assert_differs("crossing", crossed, &[(3, Level::Fault)], &[(3, Level::Advice)]);
}

#[test]
fn what_is_allowed_is_forbidden_there() {
    let leap = "key C major\nexercise\n  species 2\n  soprano cantus | | E5 | F5 | E5 | |\n  \
                tenor counter | | C4 A4 | F4 D4 | C4 G3 | |\n";
    assert_differs("major-sixth-leap", leap, &[], &[(2, Level::Fault)]);
}

#[test]
fn the_compass_is_another_there() {
    let low = "key C major\nexercise\n  species 1\n  soprano cantus | | C5 | D5 | C5 | |\n  \
               alto counter | | A3 | F3 | A3 | |\n";
    assert_differs("compass", low, &[], &[(3, Level::Fault)]);
}

#[test]
fn one_species_differs_there() {
    let equal = |species, bars| {
        format!(
            "key C major\nexercise\n  species {species}\n  soprano cantus | | E5 | C5 | D5 | |\n  \
             tenor counter | {bars} |\n"
        )
    };
    let first = equal(1, " | A3 | A3 | B3 | ");
    assert_differs("repeated-note", &first, &[], &[(3, Level::Fault)]);
}
