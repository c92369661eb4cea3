//! Texts far larger than any sheet, and deeper than any group.

use bicinium_grammar::{SheetTree, format};

use crate::sheets::SHEET;

#[test]
fn ten_megabytes_of_sheets_are_read() {
    let text = SHEET.repeat(10_000_000 / SHEET.len() + 1);
    assert!(SheetTree::parse(&text).text() == text);
}

#[test]
fn a_megabyte_of_sheets_is_formatted() {
    let formatted = format(&SHEET.repeat(1_000_000 / SHEET.len() + 1));
    let exercise = &SHEET[SHEET.find("exercise").expect("it has one")..];
    let exercise = format(exercise);
    let (_, exercise) = exercise.split_once('\n').expect("it has several lines");
    assert_eq!(formatted.matches(exercise).count(), 1_000_000 / SHEET.len() + 1);
}

#[test]
fn a_megabyte_in_one_bar_is_read_and_formatted() {
    let text = format!("exercise\nbass |{}|\n", "C3  D3 ".repeat(150_000));
    assert!(SheetTree::parse(&text).text() == text);
    let expected = format!("exercise\n  bass |{} |\n", " C3 D3".repeat(150_000));
    assert!(format(&text) == expected);
}

#[test]
fn half_a_megabyte_without_a_line_end_or_a_word_is_read() {
    for piece in ["x", "-x", "\" ", "/", "( ", "é|", "C", "\r", "a b "] {
        let text = format!("exercise\nsoprano {}", piece.repeat(500_000 / piece.len()));
        assert!(SheetTree::parse(&text).text() == text);
    }
}

#[test]
fn a_hundred_thousand_parentheses_are_nine_problems() {
    let text = format!("exercise\nbass | {}", "(".repeat(100_000));
    let sheet = SheetTree::parse(&text);
    let names: Vec<_> =
        sheet.blocks()[1].problems.iter().map(|problem| problem.kind.name()).collect();
    assert_eq!(names[..8], ["unclosed-group"; 8]);
    assert_eq!(names[8..], ["nested-too-deep"]);
    assert_eq!(format(&text), text);
}

#[test]
fn a_name_without_end_does_not_widen_other_rows() {
    let long = "n".repeat(50_000);
    let rows = "bass | C3 |\n".repeat(1000);
    let formatted = format(&format!("exercise\nsoprano cantus {long} | C4 |\n{rows}"));
    assert!(formatted.len() < 200_000);
}
