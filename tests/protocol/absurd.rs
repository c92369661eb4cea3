//! Sheets that are too long, too deep or too many of something: each is answered with what is wrong, and the next question
//! as if nothing had been.

use bicinium_tests::{Delivery, Editor, Encoding, about};
use serde_json::json;

use crate::sheets::BROKEN;

const ABSURD: &str = "file:///absurd.bicinium";
const SENSIBLE: &str = "file:///sensible.bicinium";

/// The kinds of what is found, as they come.
fn kinds(text: &str) -> Vec<String> {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SENSIBLE, BROKEN);
    let sensible = editor.pull(SENSIBLE, None)["items"].take();
    editor.open(ABSURD, text);
    let report = editor.pull(ABSURD, None);
    let formatting = json!({"tabSize": 2, "insertSpaces": true});
    let mut params = about(ABSURD);
    params["options"] = formatting;
    editor.client.request("textDocument/formatting", &params);
    editor.edit(ABSURD, &(0..0), "\n");
    editor.pull(ABSURD, None);
    assert_eq!(editor.pull(SENSIBLE, None)["items"], sensible);
    editor.end();
    let found = report["items"].as_array().expect("a report has a list");
    found.iter().filter_map(|it| it["code"].as_str().map(str::to_owned)).collect()
}

fn two_rows(upper: &str, lower: &str) -> String {
    format!("exercise\n  soprano counter {upper}\n  bass cantus {lower}\n")
}

#[test]
fn an_exercise_of_too_many_bars_is_told_and_not_judged() {
    let found = kinds(&two_rows(&"| C5 ".repeat(20_000), &"| C4 ".repeat(20_000)));
    assert_eq!(found, ["too-long"]);
}

#[test]
fn a_bar_of_too_many_notes_is_told() {
    let found = kinds(&two_rows(&format!("| {}|", "C5 ".repeat(50_000)), "| C4 |"));
    assert!(!found.is_empty());
}

#[test]
fn the_longest_exercise_that_is_judged_is_judged() {
    let sheet = two_rows(&"| C5 ".repeat(5_000), &"| C4 ".repeat(5_000));
    let found = kinds(&format!("species 1\n\n{sheet}"));
    assert!(found.iter().any(|code| code == "cadence"), "{found:?}");
    assert!(!found.iter().any(|code| code == "too-long"), "{found:?}");
}

#[test]
fn groups_in_groups_end_somewhere() {
    let deep = format!("| {} C5 {} |", "(".repeat(100_000), ")".repeat(100_000));
    assert!(!kinds(&two_rows(&deep, "| C4 |")).is_empty());
}

#[test]
fn numbers_without_measure_are_told() {
    let text = "exercise\n  species 99999999999999999999\n  meter 4294967297/4294967296\n  \
                points 999999999999999\n  soprano | C99999999999 C-999999 |\n  bass | C4 |\n  \
                allow cadence at 1 to 4294967296\n";
    assert!(kinds(text).len() > 4);
}

#[test]
fn many_licences_and_one_endless_word_do_no_harm() {
    let licence = "  allow cadence at 1 because \"so it is set\"\n";
    let text = two_rows("| C5 |", "| C4 |") + &licence.repeat(2_000) + &"x".repeat(2_000_000);
    let unused = kinds(&text);
    assert!(unused.len() > 1_000, "{}", unused.len());
}

#[test]
fn a_question_far_beyond_every_line_is_answered() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(ABSURD, &"(".repeat(1_000_000));
    let mut params = about(ABSURD);
    params["position"] = json!({"line": u32::MAX, "character": u32::MAX});
    editor.client.request("textDocument/hover", &params);
    editor.end();
}
