//! What the formatter writes, to the character, and what it must never do.

use bicinium_grammar::format::edits;
use bicinium_grammar::{SheetTree, SyntaxKind, format};
use proptest::prelude::*;

use crate::meaning::meaning;
use crate::sheets::{BROKEN, SHEET, any_text};

/// Checks the lines of an exercise, given without its first line.
#[track_caller]
fn rows(written: &str, formatted: &str) {
    let exercise = |rows: &str| format!("exercise\n{rows}\n");
    assert_eq!(format(&exercise(written)), exercise(formatted));
}

/// The comments of a text, without white space after them.
fn comments(text: &str) -> Vec<String> {
    let sheet = SheetTree::parse(text);
    let tokens = sheet.blocks().iter().flat_map(|block| block.syntax().descendants_with_tokens());
    let comments = tokens.filter(|token| token.kind() == SyntaxKind::Comment);
    comments.map(|token| token.to_string().trim_end().to_owned()).collect()
}

/// The characters of a text that end its lines.
fn endings(text: &str) -> String {
    text.chars().filter(|char| matches!(char, '\n' | '\r')).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]

    #[test]
    fn formatting_twice_is_formatting_once(text in any_text()) {
        let once = format(&text);
        prop_assert_eq!(format(&once), once.as_str());
    }

    #[test]
    fn formatting_changes_nothing_that_is_said(text in any_text()) {
        prop_assert_eq!(meaning(&format(&text)), meaning(&text));
    }

    #[test]
    fn line_comments_and_endings_stay(text in any_text()) {
        let formatted = format(&text);
        prop_assert_eq!(comments(&formatted), comments(&text));
        prop_assert_eq!(endings(&formatted), endings(&text));
    }

    #[test]
    fn edits_are_in_order_within_lines_and_lead_to_the_formatted_text(text in any_text()) {
        let edits = edits(&text);
        prop_assert!(edits.windows(2).all(|pair| pair[0].0.end <= pair[1].0.start));
        let mut formatted = text.clone();
        for (range, insert) in edits.iter().rev() {
            prop_assert!(!text[range.clone()].contains(['\n', '\r']));
            prop_assert!(text[range.clone()] != *insert);
            formatted.replace_range(range.clone(), insert);
        }
        prop_assert_eq!(formatted, format(&text));
    }
}

#[test]
fn a_whole_sheet() {
    let expected = "\
// Harbour School, sheet 2
use \"songs/quay.bicinium\"
rulebook tonal
meter 2/2
by \"A pupil\"

cantus quay-song
  key G major
  line | G4 | C5 | B4 | A4 |
  line | D5 | C5 | A4 | G4 |

exercise \"No. 3: second species, below\"
  key G major
  species 2

  soprano cantus quay-song | G4      | C5    | B4   | A4 |
  harmony                  | I       | IV    | ?    |
  bass    counter          | rest G3 | A3 E3 | G3 ? | // still open

  soprano                  | D5 | C5   | A4   (G4 F#4) | G4 |
  harmony                  |    | vi   | vii°6 -       | I  |
  bass                     |    | E3 ? | -     Fx3     | G3 |

  allow weak-beat-fifths at 3.2 to 4 because \"the lower note only passes\"
";
    assert_eq!(format(SHEET), expected);
}

#[test]
fn simultaneous_notes_stand_under_each_other() {
    rows(
        "soprano | A4 B4 C5 D5 |\nbass | F3 |",
        "  soprano | A4 B4 C5 D5 |\n  bass    | F3          |",
    );
    rows(
        "soprano | A4 B4 C5 D5 |\nbass | F3 G3 |",
        "  soprano | A4 B4 C5 D5 |\n  bass    | F3    G3    |",
    );
    rows(
        "soprano | A4 B#4 |\nbass | F3 Gb3 Ab3 Bb3 |",
        "  soprano | A4     B#4     |\n  bass    | F3 Gb3 Ab3 Bb3 |",
    );
}

#[test]
fn thirds_and_quarters_of_a_bar_have_their_own_columns() {
    rows(
        "soprano | A4 B4 C5 |\nbass | F3 G3 A3 B3 |",
        "  soprano | A4  B4 C5   |\n  bass    | F3 G3 A3 B3 |",
    );
}

#[test]
fn parentheses_hang_out_of_the_column_of_their_note() {
    rows(
        "soprano | (A4 G4) F4 |\nbass | C3 D3 |",
        "  soprano | (A4 G4) F4 |\n  bass    |  C3     D3 |",
    );
    rows(
        "soprano | A4 - (G4 F4) E4 |\nbass | ((C3 D3) E3) F3 |",
        "  soprano |   A4     -  (G4 F4) E4 |\n  bass    | ((C3 D3) E3) F3        |",
    );
}

#[test]
fn blank_bars_are_as_wide_as_the_other_row() {
    rows(
        "soprano | | A4 B4 | |\nbass ||||",
        "  soprano |  | A4 B4 |  |\n  bass    |  |       |  |",
    );
}

#[test]
fn rows_of_different_length_keep_their_bars() {
    rows("soprano | A4 | B4\nbass | F3", "  soprano | A4 | B4 |\n  bass    | F3 |");
    rows("soprano |\nbass counter | F3", "  soprano      |\n  bass counter | F3 |");
}

#[test]
fn wide_and_combining_characters_do_not_shift_the_barlines() {
    rows(
        "soprano cantus 水の歌 | A4 |\nbass cantus e\u{301}tude | F3 |",
        "  soprano cantus 水の歌 | A4 |\n  bass    cantus e\u{301}tude  | F3 |",
    );
}

#[test]
fn a_system_ends_where_a_name_comes_again() {
    rows(
        "soprano | A4 B4 |\nbass | F3 |\nsoprano | C5 |\nbass | A3 |",
        "  soprano | A4 B4 |\n  bass    | F3    |\n  soprano | C5 |\n  bass    | A3 |",
    );
    rows(
        "bass | A3 B3 |\nbass | F3 |\nbass | C3 |\nbass | A3 |",
        "  bass | A3 B3 |\n  bass | F3    |\n  bass | C3 |\n  bass | A3 |",
    );
    rows("harmony | I |\nharmony | V6/5 |", "  harmony | I |\n  harmony | V6/5 |");
}

#[test]
fn a_comment_does_not_end_a_system_and_a_blank_line_only_a_full_one() {
    rows(
        "soprano | A4 |\n// below\n\nbass | F3 G3 |\n\nharmony | vii°6 |\nsoprano | A4 |",
        "  soprano | A4    |\n// below\n\n  bass    | F3 G3 |\n\n  harmony | vii°6 |\n  soprano | A4    |",
    );
}

#[test]
fn words_and_signs_have_one_form() {
    let written = "RULEBOOK Tonal\nKey  B♭   MAJOR\nexercise   \"A  b\"   //  c \nHarmony|viio6 V6/5|\nSoprano COUNTER|C♯4 D♭4 E𝄪4 F𝄫4 G♮4 A##4 Rest|\n";
    let formatted = "rulebook Tonal\nkey Bb major\nexercise \"A  b\" //  c\n  harmony         | vii°6        V6/5            |\n  soprano counter | C#4 Db4 Ex4 Fbb4 G4 Ax4 rest |\n";
    assert_eq!(format(written), formatted);
}

#[test]
fn lines_with_a_problem_are_kept_as_they_are() {
    rows(
        "soprano  |c4|D4   |\nbass|E3|F3|\nspecies   9\n  key  G",
        "soprano  |c4|D4   |\n  bass | E3 | F3 |\nspecies   9\n  key  G",
    );
    assert_eq!(format("? what ,"), "? what ,");
}

#[test]
fn every_line_of_a_broken_sheet_that_is_broken_is_kept() {
    let formatted = format(BROKEN);
    let kept = BROKEN.lines().filter(|line| formatted.contains(line)).count();
    assert_eq!(kept, BROKEN.lines().count());
}

#[test]
fn comments_keep_to_the_margin_or_to_the_block() {
    let written = "  // a\ncantus x   // b\n// c\n     // d  \n  line | C4 |// e";
    let formatted = "// a\ncantus x // b\n// c\n  // d\n  line | C4 | // e";
    assert_eq!(format(written), formatted);
}

#[test]
fn line_endings_blank_lines_and_the_byte_order_mark_stay() {
    let written = "\u{feff}meter  4/4\r\n\r\n \t \n\rexercise\r  bass|C3|";
    let formatted = "\u{feff}meter 4/4\r\n\r\n\n\rexercise\r  bass | C3 |";
    assert_eq!(format(written), formatted);
    assert_eq!(format(""), "");
    assert_eq!(format("\u{feff}"), "\u{feff}");
}

#[test]
fn edits_touch_what_differs_alone() {
    let text = "meter 2/2\nexercise\n  bass | C3  D3 |\n";
    assert_eq!(edits(text), [(31..32, String::new())]);
    assert_eq!(edits(&format(SHEET)), []);
}
