//! What is reported about text that cannot be read: each piece once, at its place, with a mend where
//! there is one.

use std::collections::HashSet;

use bicinium_grammar::{Problem, ProblemKind, SheetTree};

/// The problems of the last block of a text, with its text.
fn problems(text: &str) -> (String, Vec<Problem>) {
    let sheet = SheetTree::parse(text);
    let block = sheet.blocks().last().expect("there is always a block");
    (block.text(), block.problems.clone())
}

/// Name, text and replacements of each problem.
fn told(text: &str) -> Vec<(&'static str, String, Vec<String>)> {
    let (text, problems) = problems(text);
    let told = problems.into_iter().map(|problem| {
        let range = std::ops::Range::<usize>::from(problem.range);
        let mends = problem.mends.iter().map(|mend| {
            let mut mended = text.clone();
            mended.replace_range(std::ops::Range::<usize>::from(mend.range), &mend.text);
            let line = text[..range.start].matches('\n').count();
            mended.lines().nth(line).unwrap_or_default().to_owned()
        });
        (problem.kind.name(), text[range.clone()].to_owned(), mends.collect())
    });
    told.collect()
}

/// Checks the one problem of a line of a preamble: its name, its text and the mended lines.
#[track_caller]
fn one(text: &str, name: &str, at: &str, mended: &[&str]) {
    let told = told(text);
    assert_eq!(told.len(), 1, "{told:#?}");
    assert_eq!((told[0].0, told[0].1.as_str()), (name, at));
    assert_eq!(told[0].2, mended);
}

/// The same for a bar of a voice, where the mended bars are compared.
#[track_caller]
fn note(bar: &str, name: &str, at: &str, mended: &[&str]) {
    let lines: Vec<_> = mended.iter().map(|bar| format!("bass | {bar} |")).collect();
    let lines: Vec<_> = lines.iter().map(String::as_str).collect();
    one(&format!("exercise\nbass | {bar} |"), name, at, &lines);
}

/// The same for a bar of a harmony row.
#[track_caller]
fn numeral(bar: &str, mended: &[&str]) {
    let lines: Vec<_> = mended.iter().map(|bar| format!("harmony | {bar} |")).collect();
    let lines: Vec<_> = lines.iter().map(String::as_str).collect();
    one(&format!("exercise\nharmony | {bar} |"), "unreadable-numeral", bar, &lines);
}

#[test]
fn letters_in_lower_case() {
    note("c4", "letter-case", "c4", &["C4"]);
    note("D4 bb3", "letter-case", "bb3", &["D4 Bb3"]);
    note("G3 f#", "letter-case", "f#", &["G3 F#3", "G3 F#4"]);
}

#[test]
fn notes_without_octave_take_that_of_the_note_before() {
    note("A3 Bb", "octave-missing", "Bb", &["A3 Bb3", "A3 Bb2"]);
    note("C5 B", "octave-missing", "B", &["C5 B4", "C5 B5"]);
    let told = told("exercise\nbass | C6, B |");
    assert_eq!(told[1].2, ["bass | C6, B5 |", "bass | C6, B6 |"]);
    note("D2 D", "octave-missing", "D", &["D2 D2", "D2 D1"]);
}

#[test]
fn letters_that_are_no_notes() {
    note("H4", "unknown-letter", "H4", &["B4"]);
    note("h3", "unknown-letter", "h3", &["B3"]);
    note("Hb4", "unknown-letter", "Hb4", &["Bb4"]);
    note("J4", "unknown-letter", "J4", &[]);
    note("x", "unknown-letter", "x", &[]);
}

#[test]
fn octaves_that_do_not_exist() {
    note("D4 C10", "octave-range", "C10", &["D4 C4", "D4 C5"]);
    note("C-1", "octave-range", "C-1", &["C4", "C3"]);
    note("C04", "octave-range", "C04", &["C4"]);
}

#[test]
fn accidentals_of_other_notations() {
    note("Fis4", "accidental", "Fis4", &["F#4"]);
    note("es4", "accidental", "es4", &["Eb4"]);
    note("Ases3", "accidental", "Ases3", &["Abb3"]);
    note("C4#", "accidental", "C4#", &["C#4"]);
    note("C#b4", "accidental", "C#b4", &[]);
}

#[test]
fn marks_between_notes() {
    note("C4, D4", "stray-text", ",", &["C4 D4"]);
    note("C4 ; D4", "stray-text", ";", &["C4  D4"]);
    note("C4.", "stray-text", ".", &["C4"]);
    note("C4 H4,", "unknown-letter", "H4,", &["C4 B4"]);
    note("C4 Bb,", "octave-missing", "Bb,", &["C4 Bb3", "C4 Bb4"]);
}

#[test]
fn rests_and_holds_of_other_notations() {
    note("r", "unreadable-note", "r", &["rest"]);
    note("Pause D4", "unreadable-note", "Pause", &["rest D4"]);
    note("C4 –", "unreadable-note", "–", &["C4 -"]);
    note("C4 _", "unreadable-note", "_", &["C4 -"]);
}

#[test]
fn other_things_in_bars() {
    note("C4D4", "unreadable-note", "C4D4", &["C4 D4"]);
    note("[C4 D4", "unreadable-note", "[C4", &["(C4 D4"]);
    note("what", "unreadable-note", "what", &[]);
    note("\"text\"", "unreadable-note", "\"text\"", &[]);
    note("V6/5", "unreadable-note", "V6/5", &[]);
    note("7", "unreadable-note", "7", &[]);
}

#[test]
fn groups_that_do_not_close_or_open() {
    note("(C4 D4", "unclosed-group", "(", &["(C4 D4)"]);
    note("C4 D4)", "unopened-group", ")", &["C4 D4"]);
    note("( )", "empty-group", "( )", &["?"]);
    one("exercise\nbass | (C4 | D4 |", "unclosed-group", "(", &["bass | (C4) | D4 |"]);
    one("exercise\nbass | (C4 D4 // c", "unclosed-group", "(", &["bass | (C4 D4) // c"]);
}

#[test]
fn groups_nine_deep() {
    let bar = format!("{}C4{} D4", "(".repeat(9), ")".repeat(9));
    note(&bar, "nested-too-deep", "(C4)", &[]);
}

#[test]
fn numerals_written_otherwise() {
    numeral("V65", &["V6/5"]);
    numeral("viiº6", &["vii°6"]);
    numeral("vii06", &["vii°6"]);
    numeral("Vi", &["VI", "vi"]);
    numeral("V7,", &["V7"]);
    numeral("–", &["-"]);
    numeral("rest", &["-"]);
    numeral("V6,5", &["V6/5"]);
    numeral("V/V", &[]);
    numeral("IIIb", &[]);
    numeral("A4", &[]);
    numeral("VIII", &[]);
    numeral("V6/5/4/3", &[]);
}

#[test]
fn words_nearly_right() {
    let line = "\nbass | C4 |";
    one(&format!("exercise{line}\nsopran | C4 |"), "unknown-word", "sopran", &["soprano | C4 |"]);
    one(
        &format!("exercise{line}\nexcercise \"x\""),
        "unknown-word",
        "excercise",
        &["exercise \"x\""],
    );
    one(
        &format!("exercise{line} D4 |\nharmnoy | I |"),
        "unknown-word",
        "harmnoy",
        &["harmony | I |"],
    );
    one("exercise\nb | C4 |", "unknown-word", "b", &["baritone | C4 |", "bass | C4 |"]);
    one("exercise\ncanto | C4 |", "unknown-word", "canto", &[]);
    one("cantus x\nlien | C4 |", "unknown-word", "lien", &["line | C4 |"]);
    one("metre 4/4", "unknown-word", "metre", &["meter 4/4"]);
    one("exercise\nbass conter | C4 |", "unknown-word", "conter", &["bass counter | C4 |"]);
    one("violin", "unknown-word", "violin", &[]);
}

#[test]
fn keys_of_other_notations() {
    one("key g minor", "letter-case", "g", &["key G minor"]);
    one("key H minor", "unknown-letter", "H", &["key B minor"]);
    one("key Fis minor", "unknown-letter", "Fis", &["key F# minor"]);
    one("key B flat major", "accidental", "B flat", &["key Bb major"]);
    one("key F-sharp minor", "unknown-letter", "F-sharp", &["key F# minor"]);
    one("key G dur", "unknown-word", "dur", &["key G major"]);
    one("key D dorain", "unknown-word", "dorain", &["key D dorian"]);
    one("key G", "value-expected", "G", &["key G major", "key G minor"]);
}

#[test]
fn values_that_are_missing() {
    for line in ["key", "meter", "species", "rulebook", "by", "use", "cantus", "key // G major"] {
        let word = line.split(' ').next().expect("a word");
        one(line, "value-expected", word, &[]);
    }
    one("exercise\nallow", "value-expected", "allow", &[]);
    one("exercise\nallow rule at", "value-expected", "at", &[]);
    one("exercise\nallow rule at because \"x\"", "value-expected", "at", &[]);
    one("exercise\nallow rule to 4", "value-expected", "to", &["allow rule at 1 to 4"]);
    one("exercise\nallow rule because", "value-expected", "because", &[]);
}

#[test]
fn values_that_are_others() {
    one("meter 4 / 4", "value-expected", "4 / 4", &["meter 4/4"]);
    one("meter 0/4", "number-range", "0/4", &[]);
    one("species second", "value-expected", "second", &["species 2"]);
    one("species 6", "number-range", "6", &[]);
    one("exercise\nallow rule at 0", "number-range", "0", &[]);
    one("exercise\nallow rule at 3.0", "number-range", "3.0", &[]);
    one("exercise\nallow rule at 3-5", "value-expected", "3-5", &["allow rule at 3 to 5"]);
    one("exercise\nallow rule at 3 to 5-6", "value-expected", "5-6", &[]);
    one("exercise\nallow rule at 3 to 5.1", "number-range", "5.1", &[]);
    one("cantus \"quay song\"", "value-expected", "\"quay song\"", &["cantus quay-song"]);
}

#[test]
fn quotation_marks() {
    one("by A pupil // a", "quotes-missing", "A pupil", &["by \"A pupil\" // a"]);
    one("exercise No. 3", "quotes-missing", "No. 3", &["exercise \"No. 3\""]);
    one("exercise “No. 3”", "quotes-missing", "“No. 3”", &["exercise \"No. 3\""]);
    one("use \"songs  ", "unclosed-text", "\"songs", &["use \"songs\"  "]);
}

#[test]
fn rows_without_head_or_barline() {
    one("exercise\nbass C3 | D3 |", "barline-missing", "bass", &["bass | C3 | D3 |"]);
    one("exercise\nbass counter", "barline-missing", "counter", &["bass counter |"]);
    let bare: Vec<_> =
        told("exercise\nsopran C4").into_iter().map(|told| (told.0, told.2)).collect();
    let (named, begun) = (vec!["soprano C4".to_owned()], vec!["sopran | C4".to_owned()]);
    assert_eq!(bare, [("unknown-word", named), ("barline-missing", begun)]);
    one("exercise\n| C3 |", "row-name-missing", "|", &[]);
    one("cantus x\n| C3 |", "row-name-missing", "|", &["line | C3 |"]);
}

#[test]
fn lines_in_the_wrong_block() {
    one("bass | C3 |", "misplaced-line", "bass", &[]);
    one("allow rule", "misplaced-line", "allow", &[]);
    one("cantus x\nbass | C3 |", "misplaced-line", "bass", &["line | C3 |"]);
    one("cantus x\nharmony | I |", "misplaced-line", "harmony", &[]);
    one("exercise\nline | C3 |", "misplaced-line", "line", &[]);
}

#[test]
fn text_after_the_end() {
    one("species 2 3", "stray-text", "3", &["species 2 "]);
    one("exercise \"a\" \"b\"", "stray-text", "\"b\"", &["exercise \"a\" "]);
    one("exercise\nbass counter x | C3 |", "stray-text", "x", &["bass counter  | C3 |"]);
    one("exercise\nallow rule here at 3", "stray-text", "here", &["allow rule  at 3"]);
    one("?", "stray-text", "?", &[]);
}

#[test]
fn every_token_is_reported_once_and_the_rest_is_read() {
    let names: Vec<_> = told("exercise\nbass | c4 D4 H4, | Bb ) | what C3 |")
        .into_iter()
        .map(|(name, at, _)| format!("{name} {at}"))
        .collect();
    let expected = [
        "letter-case c4",
        "unknown-letter H4,",
        "octave-missing Bb",
        "unopened-group )",
        "unreadable-note what",
    ];
    assert_eq!(names, expected);
}

#[test]
fn messages_are_sentences_that_show_a_long_text_shortened() {
    let (_, problems) = problems(&format!("exercise\nbass | {} |", "what".repeat(1000)));
    let message = &problems[0].message;
    assert!(message.ends_with('.') && message.len() < 200, "{message}");
}

#[test]
fn a_message_names_the_word_meant_or_all_that_can_stand_there() {
    let message = |text| problems(text).1[0].message.clone();
    assert_eq!(message("metre 4/4"), "No line begins with `metre` here; expected `meter`.");
    assert_eq!(
        message("cantus x\nviolin | C4 |"),
        "No line begins with `violin` here; expected `line`."
    );
}

#[test]
fn names_are_unique_words_with_hyphens() {
    let names: HashSet<_> = ProblemKind::ALL.iter().map(|kind| kind.name()).collect();
    assert_eq!(names.len(), ProblemKind::ALL.len());
    let plain = |name: &&str| name.chars().all(|char| char.is_ascii_lowercase() || char == '-');
    assert!(names.iter().all(plain));
}
