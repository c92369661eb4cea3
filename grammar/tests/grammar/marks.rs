//! What each word of a sheet is, word by word.

use bicinium_grammar::{Mark, SheetTree};

/// The words of a sheet that have a mark, each with it.
fn marks(text: &str) -> Vec<(Mark, String)> {
    let sheet = SheetTree::parse(text);
    let of_block = |block: &std::sync::Arc<bicinium_grammar::BlockTree>| {
        let text = block.text();
        let word = |range| text[std::ops::Range::<usize>::from(range)].to_owned();
        block.marks().into_iter().map(|(mark, range)| (mark, word(range))).collect::<Vec<_>>()
    };
    sheet.blocks().iter().flat_map(of_block).collect()
}

fn words(text: &str, mark: Mark) -> Vec<String> {
    marks(text).into_iter().filter(|known| known.0 == mark).map(|known| known.1).collect()
}

const SHEET: &str = "\
// of the quay  \r
rulebook modal
key Bb dorian
meter 3/2

cantus quay-song
  line | D4 | (F4 E4) |

EXERCISE \"cantus 1\"
  Soprano cantus quay-song | D5 | -(F5 rest) |
  bass    counter          | ?  | H3 Bb3 |
  harmony | i | V6/5 |
  allow crossing at 3.2 to 4 because \"x\"
";

#[test]
fn names_are_told_apart_by_their_lines() {
    for (mark, expected) in [
        (Mark::CantusDefinition, vec!["quay-song"]),
        (Mark::CantusName, vec!["quay-song"]),
        (Mark::Rule, vec!["crossing"]),
        (Mark::Rulebook, vec!["modal"]),
        (Mark::Text, vec!["\"cantus 1\"", "\"x\""]),
        (Mark::Comment, vec!["// of the quay"]),
    ] {
        assert_eq!(words(SHEET, mark), expected, "{mark:?}");
    }
}

#[test]
fn words_of_the_notation_are_told_apart_by_their_places() {
    for (mark, expected) in [
        (Mark::Voice, vec!["Soprano", "bass"]),
        (Mark::Role, vec!["cantus", "counter"]),
        (Mark::Tonic, vec!["Bb"]),
        (Mark::Mode, vec!["dorian"]),
        (Mark::Number, vec!["3/2", "3.2", "4"]),
        (
            Mark::Keyword,
            vec![
                "rulebook", "key", "meter", "cantus", "line", "EXERCISE", "harmony", "allow", "at",
                "to", "because",
            ],
        ),
    ] {
        assert_eq!(words(SHEET, mark), expected, "{mark:?}");
    }
}

#[test]
fn what_stands_in_bars_is_told_apart_by_what_it_does() {
    for (mark, expected) in [
        (Mark::Note, vec!["D4", "F4", "E4", "D5", "F5", "Bb3"]),
        (Mark::Hold, vec!["-"]),
        (Mark::Group, vec!["(", ")", "(", ")"]),
        (Mark::Rest, vec!["rest"]),
        (Mark::Hole, vec!["?"]),
        (Mark::Numeral, vec!["i", "V6/5"]),
    ] {
        assert_eq!(words(SHEET, mark), expected, "{mark:?}");
    }
}

#[test]
fn what_cannot_be_read_has_no_mark() {
    assert!(marks(SHEET).iter().all(|(_, word)| word != "H3"));
    assert_eq!(marks("excercise\n  sopran | c4, |\n"), []);
}
