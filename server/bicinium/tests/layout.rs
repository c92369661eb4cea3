//! A block laid out, and what sounds together in it.

#![allow(clippy::unwrap_used)]

use bicinium::features::layout::{edits, system_at};
use bicinium_grammar::{BlockTree, TextSize, format};

const ROUGH: &str = "exercise
soprano|C5|D5|
 bass | C3 | (D3 E3) |

soprano|E5|
 bass | C3 |
";

#[test]
fn a_block_is_laid_out_as_its_sheet_would_be() {
    let mut text = ROUGH.to_owned();
    for (range, insert) in edits(&BlockTree::parse(ROUGH)).into_iter().rev() {
        text.replace_range(range, &insert);
    }
    assert_eq!(text, format(ROUGH));
}

#[test]
fn an_edit_lies_on_one_line() {
    for (range, insert) in edits(&BlockTree::parse(ROUGH)) {
        assert!(!ROUGH[range].contains(['\n', '\r']) && !insert.contains(['\n', '\r']));
    }
}

#[test]
fn a_row_is_found_with_those_that_sound_together_with_it() {
    let tree = BlockTree::parse(ROUGH);
    let at = |text: &str| TextSize::try_from(ROUGH.find(text).unwrap()).unwrap();
    let system = system_at(&tree, at("D5|")).unwrap();
    assert_eq!(ROUGH[system].lines().count(), 2);
    assert_eq!(system_at(&tree, at("E3")), Some(system));
    assert_ne!(system_at(&tree, at("E5")), Some(system));
    assert_eq!(system_at(&tree, TextSize::new(0)), None);
}
