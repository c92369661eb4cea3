//! What can still be written, asked on the command line.

use serde_json::Value;

use crate::run::Folder;

const OPEN: &str = "\
rulebook modal
key D dorian

exercise \"stair\"
  species 1
  soprano counter | D5 | ? | ? | D5 |  // two holes
  tenor   cantus  | D4 | F4 | E4 | D4 |

exercise \"pier\"
  species 2
  soprano counter | rest A4 |
  tenor   cantus  | D4 | F4 | E4 | D4 |
";

fn json(folder: &Folder, arguments: &[&str]) -> Value {
    let ran = folder.run(&[&["realize", "a.bicinium", "--format", "json"], arguments].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{arguments:?}");
    serde_json::from_str(&ran.out).expect("it is JSON")
}

#[test]
fn without_options_the_ways_are_counted_and_the_best_is_shown() {
    let folder = Folder::with("a.bicinium", OPEN);
    let ran = folder.run(&["realize", "a.bicinium"]);
    assert_eq!(ran.code, 0);
    assert!(ran.out.starts_with("a.bicinium, exercise 1\n"), "{}", ran.out);
    assert!(ran.out.contains(" realizations.\n  resistance "), "{}", ran.out);
    assert!(ran.out.contains("  tenor   | D4 | F4 | E4  | D4 |\n"), "{}", ran.out);
    assert!(ran.out.contains("\na.bicinium, exercise 2\n  13 realizations.\n"), "{}", ran.out);
    assert_eq!(folder.text("a.bicinium"), OPEN);
}

#[test]
fn a_count_is_a_number_in_words_of_json() {
    let folder = Folder::with("a.bicinium", OPEN);
    let count = json(&folder, &["--exercise", "2", "--count"]);
    assert_eq!(count, serde_json::json!({ "count": "13", "exact": true }));
}

#[test]
fn a_count_that_could_not_be_finished_says_so() {
    let folder = Folder::with("a.bicinium", OPEN);
    let count = json(&folder, &["--exercise", "1", "--count", "--time", "0"]);
    assert_eq!(count["exact"], false, "{count}");
    let ran = folder.run(&["realize", "a.bicinium", "--exercise", "1", "--count", "--time", "0"]);
    assert!(ran.out.contains("the search was ended after 0 seconds"), "{}", ran.out);
}

#[test]
fn ways_are_bars_of_pitches_with_durations() {
    let folder = Folder::with("a.bicinium", OPEN);
    let ways = json(&folder, &["--exercise", "2", "--best", "3"]);
    let ways = ways.as_array().expect("an array");
    assert_eq!(ways.len(), 3);
    for way in ways {
        let upper = way["upper"].as_array().expect("bars");
        assert_eq!(upper.len(), 4, "{way}");
        assert_eq!(upper[0][0]["pitch"], Value::Null);
        assert_eq!(upper[0][1]["pitch"], "A4");
        assert_eq!(upper[1][0]["duration"], "1/2");
        assert_eq!(way["lower"][1][0]["pitch"], "F4");
        assert_eq!(way["lower"][1][0]["duration"], "1");
        assert!(way["harmonies"].is_array() && way["cost"].is_u64(), "{way}");
    }
    assert!(ways.is_sorted_by_key(|way| way["cost"].as_u64()), "{ways:?}");
}

#[test]
fn harmonies_are_told_where_they_are_implied() {
    let folder = Folder::with("a.bicinium", OPEN.replace("modal", "tonal"));
    let ways = json(&folder, &["--exercise", "1", "--best", "1"]);
    assert_eq!(ways[0]["harmonies"][0]["bar"], 1, "{ways}");
}

#[test]
fn the_same_seed_draws_the_same_ways() {
    let folder = Folder::with("a.bicinium", OPEN);
    let drawn = |seed: &str| json(&folder, &["--exercise", "2", "--sample", "6", "--seed", seed]);
    assert_eq!(drawn("4"), drawn("4"));
    assert_ne!(drawn("4"), drawn("5"));
}

#[test]
fn every_open_place_is_told_with_its_pitches() {
    let folder = Folder::with("a.bicinium", OPEN);
    let places = json(&folder, &["--exercise", "1", "--viable"]);
    let places = places.as_array().expect("an array");
    assert_eq!(places.len(), 2);
    assert_eq!((&places[1]["voice"], &places[1]["bar"]), (&"upper".into(), &3.into()));
    assert_eq!(places[1]["pitches"][0]["pitch"], "C#5", "{places:?}");
}

#[test]
fn a_way_is_written_and_the_rest_stays_as_it_is() {
    let folder = Folder::with("a.bicinium", OPEN);
    let ran = folder.run(&["realize", "a.bicinium", "--write"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let text = folder.text("a.bicinium");
    assert!(text.contains("|  // two holes\n") && !text.contains('?'), "{text}");
    assert!(text.contains("  soprano counter | rest A4 | D5 A4 | B4 C#5 | D5 |\n"), "{text}");
    let marked = folder.run(&["check", "a.bicinium", "--level", "fault"]);
    assert_eq!(marked.code, 0, "{}", marked.out);
    let again = folder.run(&["realize", "a.bicinium"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("Nothing is open in a.bicinium"), "{}", again.err);
}

#[test]
fn only_one_way_is_written() {
    let folder = Folder::with("a.bicinium", OPEN);
    let ran = folder.run(&["realize", "a.bicinium", "--best", "2", "--write"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("Only one way can be written"), "{}", ran.err);
    assert_eq!(folder.text("a.bicinium"), OPEN);
}

#[test]
fn a_dead_end_is_told_with_its_bars_and_rules() {
    let closed = OPEN.replace("| ? | ? | D5 |", "| ? | F5 | D5 |");
    let folder = Folder::with("a.bicinium", closed);
    let ran = folder.run(&["realize", "a.bicinium", "--exercise", "1"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("No way is left."), "{}", ran.out);
    assert!(ran.out.contains("leaves no way through"), "{}", ran.out);
    assert!(ran.out.contains("`struck-dissonance`"), "{}", ran.out);
}

#[test]
fn what_cannot_be_done_is_said() {
    let folder = Folder::with("a.bicinium", OPEN);
    folder.save("broken.bicinium", OPEN.replace("D5 | ?", "H5 | ?"));
    folder.save("empty.bicinium", "");
    folder.save("free.bicinium", "exercise\n  alto cantus | D4 | |\n  bass counter | D3 | |\n");
    for (arguments, said) in [
        (&["nowhere.bicinium"][..], "nowhere.bicinium cannot be read"),
        (&["a.bicinium", "--exercise", "9"], "There is no exercise 9: a.bicinium has 2 exercises."),
        (&["a.bicinium", "--format", "json"], "Say which one is meant, as in `--exercise 1`."),
        (&["broken.bicinium"], "Exercise 1 of broken.bicinium cannot be read as it stands"),
        (&["empty.bicinium"], "Nothing is open in empty.bicinium"),
        (&["free.bicinium"], "The blank bars of free.bicinium have no species"),
        (&["empty.bicinium", "--exercise", "1"], "empty.bicinium has no exercise."),
    ] {
        let ran = folder.run(&[&["realize"], arguments].concat());
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(said), "{}", ran.err);
    }
}

/// Seven plain rules, said by a rulebook and by a program of their own that counts by other means.
#[test]
fn plain_rules_have_as_many_ways_as_others_count() {
    for (name, ways) in [("plain", "370"), ("loose", "54048")] {
        let folder = Folder::with("a.bicinium", material(&format!("{name}.bicinium")));
        for rulebook in ["plain", "loose"] {
            let file = format!("{rulebook}.rulebook.toml");
            folder.save(&file, material(&file));
        }
        assert_eq!(json(&folder, &["--count"])["count"], ways);
        let counted = std::process::Command::new("python3")
            .arg(tests().join("realizer/plain_rules.py"))
            .arg(name)
            .output()
            .expect("python3 is there");
        let counted = String::from_utf8(counted.stdout).expect("it prints text");
        let lines: Vec<_> = counted.lines().collect();
        let least = if std::env::var_os("CI").is_some() { 3 } else { 2 };
        assert!(lines.len() >= least, "a method is missing: {counted}");
        for line in lines {
            assert_eq!(line.split(' ').nth(1), Some(ways), "{line}");
        }
    }
}

fn tests() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests")
}

fn material(name: &str) -> String {
    std::fs::read_to_string(tests().join("realizer").join(name)).expect("it is there")
}
