//! Every text has a tree, and the tree is the text.

use bicinium_grammar::{Problem, SheetTree};
use proptest::prelude::*;

use crate::meaning::meaning;
use crate::sheets::{BROKEN, SHEET, any_text};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn every_text_is_printed_back(text in any_text()) {
        let sheet = SheetTree::parse(&text);
        prop_assert_eq!(sheet.text(), text.as_str());
        prop_assert_eq!(sheet.len(), text.len());
    }

    #[test]
    fn the_typed_view_takes_every_text(text in any_text()) {
        prop_assert!(!meaning(&text).is_empty());
    }

    #[test]
    fn problems_stand_in_order_within_their_block(text in any_text()) {
        for block in SheetTree::parse(&text).blocks() {
            let text = block.text();
            prop_assert!(block.problems.is_sorted_by_key(|problem| problem.range.start()));
            for problem in &block.problems {
                prop_assert!(text.get(std::ops::Range::<usize>::from(problem.range)).is_some());
                prop_assert!(!problem.range.is_empty());
            }
        }
    }

    #[test]
    fn no_character_is_reported_twice(text in any_text()) {
        for block in SheetTree::parse(&text).blocks() {
            let unreadable = |problem: &&Problem| matches!(
                problem.kind.name(),
                "stray-text" | "unreadable-note" | "unreadable-numeral" | "unknown-letter" | "letter-case"
            );
            let ends = block.problems.iter().filter(unreadable);
            let ranges: Vec<_> = ends.map(|problem| problem.range).collect();
            prop_assert!(ranges.windows(2).all(|pair| pair[0].end() <= pair[1].start()));
        }
    }

    #[test]
    fn every_mend_can_be_applied(text in any_text()) {
        for block in SheetTree::parse(&text).blocks() {
            for mend in block.problems.iter().flat_map(|problem| &problem.mends) {
                let mut mended = block.text();
                mended.replace_range(std::ops::Range::<usize>::from(mend.range), &mend.text);
                prop_assert!(mended != block.text());
            }
        }
    }
}

#[test]
fn a_sheet_without_faults_has_no_problems() {
    let sheet = SheetTree::parse(SHEET);
    let problems: Vec<_> = sheet.blocks().iter().flat_map(|block| &block.problems).collect();
    assert!(problems.is_empty(), "{problems:#?}");
}

#[test]
fn every_mend_of_a_broken_sheet_puts_its_problem_right() {
    for block in SheetTree::parse(BROKEN).blocks() {
        for problem in &block.problems {
            for mend in &problem.mends {
                let mut mended = block.text();
                mended.replace_range(std::ops::Range::<usize>::from(mend.range), &mend.text);
                let left = SheetTree::parse(&mended);
                let left: usize = left.blocks().iter().map(|block| block.problems.len()).sum();
                assert!(left < block.problems.len(), "{problem:?} is not mended by {mend:?}");
            }
        }
    }
}
