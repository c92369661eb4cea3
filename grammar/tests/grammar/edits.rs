//! An edited sheet is the same as a sheet parsed from the start, and only what an edit touches is
//! parsed again.

use std::ops::Range;
use std::sync::Arc;

use bicinium_grammar::{Redone, SheetTree};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::sheets::{SHEET, any_text, change};

const TWO: &str = "rulebook tonal\nexercise \"a\"\n  bass | C3 |\nexercise \"b\"\n  bass | D3 |\n";

/// Edits a sheet, and checks everything that must hold after every edit.
fn edit(sheet: &mut SheetTree, range: Range<usize>, insert: &str) -> Redone {
    let before = sheet.clone();
    let redone = sheet.edit(range, insert);
    assert_eq!(*sheet, SheetTree::parse(&sheet.text()), "other than a fresh start");
    assert_eq!(sheet.blocks().len() + redone.removed, before.blocks().len() + redone.inserted);
    for index in 0..redone.first {
        assert!(Arc::ptr_eq(&before.blocks()[index], &sheet.blocks()[index]));
    }
    let (old, new) = (redone.first + redone.removed, redone.first + redone.inserted);
    for (old, new) in before.blocks()[old..].iter().zip(&sheet.blocks()[new..]) {
        assert!(Arc::ptr_eq(old, new));
    }
    redone
}

/// Replaces the first `find` in a sheet.
fn replace(text: &str, find: &str, insert: &str) -> (String, Redone) {
    let mut sheet = SheetTree::parse(text);
    let start = text.find(find).expect("it is in the text");
    let redone = edit(&mut sheet, start..start + find.len(), insert);
    assert_eq!(sheet.text(), text.replacen(find, insert, 1));
    (sheet.text(), redone)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn edits_are_the_same_as_a_fresh_start(text in any_text(), changes in vec(change(), 1..8)) {
        let mut sheet = SheetTree::parse(&text);
        for change in &changes {
            let text = sheet.text();
            edit(&mut sheet, change.range(&text), &change.insert);
        }
    }

    #[test]
    fn edits_at_characters_replace_exactly_these(text in any_text(), change in change()) {
        let range = change.range(&text);
        let floor = |end| (0..=end).rev().find(|index| text.is_char_boundary(*index)).unwrap_or(0);
        let range = floor(range.start)..floor(range.end);
        let mut sheet = SheetTree::parse(&text);
        edit(&mut sheet, range.clone(), &change.insert);
        let mut expected = text;
        expected.replace_range(range, &change.insert);
        prop_assert_eq!(sheet.text(), expected);
    }
}

#[test]
fn a_note_redoes_its_own_block() {
    let (_, redone) = replace(TWO, "C3", "E3");
    assert_eq!(redone, Redone { first: 1, removed: 1, inserted: 1 });
}

#[test]
fn the_preamble_is_redone_alone() {
    let (_, redone) = replace(TWO, "tonal", "modal");
    assert_eq!(redone, Redone { first: 0, removed: 1, inserted: 1 });
}

#[test]
fn taking_away_the_end_of_line_before_an_opening_joins_blocks() {
    let (text, redone) = replace(TWO, "\nexercise \"b\"", "exercise \"b\"");
    assert_eq!(redone, Redone { first: 1, removed: 2, inserted: 1 });
    assert_eq!(SheetTree::parse(&text).blocks().len(), 2);
}

#[test]
fn breaking_the_opening_word_joins_blocks() {
    let (_, redone) = replace(TWO, "exercise \"b\"", "exerc \"b\"");
    assert_eq!(redone, Redone { first: 1, removed: 2, inserted: 1 });
}

#[test]
fn misspelling_the_opening_word_redoes_its_own_block() {
    let (_, redone) = replace(TWO, "exercise \"b\"", "excercise \"b\"");
    assert_eq!(redone, Redone { first: 2, removed: 1, inserted: 1 });
}

#[test]
fn a_new_opening_splits_a_block_and_keeps_the_others() {
    let (_, redone) = replace(TWO, "  bass | C3 |\n", "  bass | C3 |\ncantus x\n");
    assert_eq!(redone, Redone { first: 2, removed: 0, inserted: 1 });
}

#[test]
fn an_edit_that_changes_nothing_redoes_nothing() {
    let (_, redone) = replace(TWO, "C3", "C3");
    assert_eq!((redone.removed, redone.inserted), (0, 0));
}

#[test]
fn taking_away_a_whole_block_keeps_its_neighbours() {
    let (_, redone) = replace(TWO, "exercise \"a\"\n  bass | C3 |\n", "");
    assert_eq!(redone, Redone { first: 1, removed: 1, inserted: 0 });
}

#[test]
fn the_two_halves_of_a_line_ending_come_together() {
    let mut sheet = SheetTree::parse("use \"a\"\rexercise\r  bass | C3 |\r");
    edit(&mut sheet, 8..8, "\n");
    edit(&mut sheet, 18..18, "\n");
    assert_eq!(sheet.text(), "use \"a\"\r\nexercise\n\r  bass | C3 |\r".replace("\n\r", "\r\n"));
    edit(&mut sheet, 8..9, "");
    assert_eq!(sheet.starts(), [0, 8]);
}

#[test]
fn a_range_is_cut_off_and_moved_off_the_middle_of_a_character() {
    let mut sheet = SheetTree::parse("by \"é\"\n");
    edit(&mut sheet, 5..5, "x");
    assert_eq!(sheet.text(), "by \"xé\"\n");
    edit(&mut sheet, 6..900, "e\"");
    assert_eq!(sheet.text(), "by \"xe\"");
    #[expect(clippy::reversed_empty_ranges, reason = "an editor may send such a range")]
    edit(&mut sheet, 5..2, "y");
    assert_eq!(sheet.text(), "by \"xye\"");
}

#[test]
fn offsets_belong_to_blocks() {
    let sheet = SheetTree::parse(TWO);
    assert_eq!(sheet.starts(), [0, 15, 42]);
    assert_eq!(sheet.block_at(14), 0);
    assert_eq!(sheet.block_at(15), 1);
    assert_eq!(sheet.block_at(9999), 2);
    assert_eq!(sheet.start(9), TWO.len());
    assert_eq!(SheetTree::parse("exercise").starts(), [0, 0]);
}

#[test]
fn a_sheet_typed_letter_by_letter_is_the_sheet() {
    let mut sheet = SheetTree::parse("");
    for char in SHEET.chars() {
        let end = sheet.len();
        edit(&mut sheet, end..end, &char.to_string());
    }
    assert_eq!(sheet.text(), SHEET);
}
