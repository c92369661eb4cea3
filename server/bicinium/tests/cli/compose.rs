//! A cantus composed on the command line, and what is said of it.

use crate::run::{Folder, run};

const WISH: [&str; 6] = ["compose-cantus", "--mode", "dorian", "--length", "8", "--seed"];

fn composed(folder: &Folder, more: &[&str]) -> String {
    let ran = folder.run(&[&WISH[..], more].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{more:?}");
    ran.out
}

/// The counts of a species, as they are told.
fn counts(sheet: &str, species: &str) -> Vec<String> {
    let rows = sheet.lines().filter_map(|line| line.strip_prefix("//"));
    let mut rows = rows.map(|row| row.split_whitespace().map(str::to_owned).collect::<Vec<_>>());
    rows.find(|row| row.first().is_some_and(|first| first == species)).expect("a row")[1..].to_vec()
}

#[test]
fn the_sheet_that_is_written_has_nothing_to_mend_and_is_laid_out() {
    let folder = Folder::new();
    let ran = folder.run(&[&WISH[..], &["1", "--no-count", "-o", "a.bicinium"]].concat());
    assert_eq!((ran.code, ran.out.as_str()), (0, "a.bicinium written.\n"));
    let sheet = folder.text("a.bicinium");
    let first = "// A cantus firmus of 8 notes in D dorian, for alto; seed 1.\n";
    assert!(sheet.starts_with(first), "{sheet}");
    let ran = folder.run(&["check", "a.bicinium"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert_eq!(folder.run(&["format", "--check", "a.bicinium"]).code, 0, "{sheet}");
    let again = folder.run(&[&WISH[..], &["1", "--no-count", "-o", "a.bicinium"]].concat());
    assert_eq!(again.code, 2);
    assert!(again.err.contains("is there already"), "{}", again.err);
}

#[test]
fn a_seed_means_one_cantus() {
    let folder = Folder::new();
    let of = |seed: &str| composed(&folder, &[seed, "--no-count"]);
    assert_eq!(of("3"), of("3"));
    assert_ne!(of("3"), of("4"));
}

#[test]
fn counts_are_those_of_realize() {
    let folder = Folder::new();
    let sheet = composed(&folder, &["5", "--species", "1,2,4", "--time", "60"]);
    let row = sheet.lines().find_map(|line| line.trim().strip_prefix("line ")).expect("a line");
    let blank = "|".to_owned() + &" |".repeat(8);
    for species in ["1", "2", "4"] {
        let text = format!(
            "rulebook modal\nkey D dorian\nspecies {species}\n\n\
             exercise\n  soprano counter {blank}\n  alto cantus {row}\n\n\
             exercise\n  alto cantus {row}\n  tenor counter {blank}\n"
        );
        folder.save("open.bicinium", text);
        let count = |number: &str| {
            let arguments =
                ["realize", "open.bicinium", "--count", "--exercise", number, "--format", "json"];
            let answer: serde_json::Value =
                serde_json::from_str(&folder.run(&arguments).out).unwrap();
            assert_eq!(answer["exact"], true);
            answer["count"].as_str().unwrap().to_owned()
        };
        let told: Vec<_> = counts(&sheet, species).iter().map(|it| it.replace(',', "")).collect();
        assert_eq!(told, [count("1"), count("2")], "{sheet}");
    }
}

#[test]
fn where_there_is_no_cantus_the_rules_are_named() {
    for arguments in [&["--length", "2"][..], &["--lowest", "D4", "--highest", "F4"]] {
        let ran = run(&[&["compose-cantus", "--mode", "dorian"], arguments].concat());
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{arguments:?}");
        assert!(ran.err.contains("There is no cantus of "), "{}", ran.err);
        assert!(ran.err.contains("`cantus-"), "{}", ran.err);
    }
}

#[test]
fn a_search_that_was_ended_says_so() {
    let ran = run(&["compose-cantus", "--mode", "dorian", "--time", "0"]);
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("was drawn in time"), "{}", ran.err);
}

#[test]
fn what_cannot_be_is_refused() {
    for arguments in [
        &["--mode", "locrian"][..],
        &["--mode", "major", "--tonic", "H"],
        &["--mode", "major", "--voice", "treble"],
        &["--mode", "major", "--lowest", "C"],
        &["--mode", "major", "--tonic", "Cb", "--rulebook", "nowhere"],
    ] {
        let ran = run(&[&["compose-cantus"], arguments].concat());
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!ran.err.is_empty(), "{arguments:?}");
    }
}

#[test]
fn a_lone_cantus_can_be_filled() {
    let folder = Folder::with(
        "a.bicinium",
        "rulebook modal\nkey D dorian\n\nexercise\n  alto cantus | D4 | F4 | E4 | ? | G4 | A4 | ? | ? | D4 |\n",
    );
    let ran = folder.run(&["realize", "a.bicinium"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert!(ran.out.contains("\n  alto | D4 | F4 | E4 |"), "{}", ran.out);
    assert!(!ran.out.contains("soprano"), "{}", ran.out);
}
