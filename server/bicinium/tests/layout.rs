//! A part of a sheet laid out.

use bicinium::features::layout::{Edit, edits_in_lines, edits_of_system};
use bicinium_grammar::format;

const ROUGH: &str = "exercise
soprano|C5|D5|
 bass | C3 | (D3 E3) |

soprano|E5|
 bass | C3 |
";

fn applied(text: &str, edits: Vec<Edit>) -> String {
    let mut text = text.to_owned();
    for (range, insert) in edits.into_iter().rev() {
        text.replace_range(range, &insert);
    }
    text
}

fn lines(text: &str) -> Vec<&str> {
    text.lines().collect()
}

#[test]
fn only_the_lines_that_are_asked_for_change() {
    let at = ROUGH.find("C5").unwrap();
    let part = applied(ROUGH, edits_in_lines(ROUGH, &(at..at + 1)));
    let whole = format(ROUGH);
    assert_eq!(lines(&part)[1], lines(&whole)[1]);
    assert_ne!(lines(&part)[1], lines(ROUGH)[1]);
    assert_eq!(lines(&part)[2..], lines(ROUGH)[2..]);
    let all = applied(ROUGH, edits_in_lines(ROUGH, &(0..usize::MAX)));
    assert_eq!(all, whole);
}

#[test]
fn a_system_is_laid_out_and_the_others_are_left() {
    let part = applied(ROUGH, edits_of_system(ROUGH, ROUGH.find("D5|").unwrap() + 3));
    let whole = format(ROUGH);
    assert_eq!(lines(&part)[1..3], lines(&whole)[1..3]);
    assert_eq!(lines(&part)[4..], lines(ROUGH)[4..]);
    assert_eq!(edits_of_system(ROUGH, 0), []);
    assert_eq!(edits_of_system("\u{1D12A}|", 2), []);
}
