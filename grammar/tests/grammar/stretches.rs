//! What belongs together in the text of a block.

use bicinium_grammar::{BlockTree, TextRange, TextSize};

const BLOCK: &str = "\
exercise \"one\"  // of two
  // the first system
  // is short
  soprano | C5 | (D5 E5) F5 |
  bass    | C3 | ? |

  soprano | G5 |
  bass    | G3 |
  // the end

";

fn words<'t>(text: &'t str, ranges: &[TextRange]) -> Vec<&'t str> {
    ranges.iter().map(|range| &text[std::ops::Range::<usize>::from(*range)]).collect()
}

#[test]
fn what_is_written_ends_with_the_last_word() {
    let range = BlockTree::parse(BLOCK).ast().written_range();
    let text = words(BLOCK, &[range])[0];
    assert!(text.starts_with("exercise") && text.ends_with("| G3 |"), "{text}");
    assert!(BlockTree::parse("// nothing\n\n").ast().written_range().is_empty());
}

#[test]
fn comments_on_neighbouring_lines_are_one() {
    let comments = BlockTree::parse(BLOCK).ast().comments();
    assert_eq!(words(BLOCK, &comments), ["// the first system\n  // is short", "// the end"]);
}

#[test]
fn rows_stand_in_systems() {
    let systems = BlockTree::parse(BLOCK).ast().systems();
    let rows: Vec<_> = systems.iter().map(Vec::len).collect();
    assert_eq!(rows, [2, 2]);
}

#[test]
fn a_place_lies_in_ever_longer_stretches() {
    let around = |word: &str| {
        let at = TextSize::try_from(BLOCK.find(word).unwrap()).unwrap();
        words(BLOCK, &BlockTree::parse(BLOCK).ast().around(at))
    };
    let row = "soprano | C5 | (D5 E5) F5 |";
    assert_eq!(around("E5"), ["E5", "(D5 E5)", "(D5 E5) F5", row]);
    assert_eq!(around("soprano"), ["soprano", row]);
    assert_eq!(around("// of"), ["// of two"]);
    let far = TextSize::from(10_000);
    assert_eq!(BlockTree::parse(BLOCK).ast().around(far), []);
}
