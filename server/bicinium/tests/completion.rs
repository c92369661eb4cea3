//! Which words may stand where.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::completion::{Near, Words, in_rulebook, words};
use bicinium_analysis::{Sheet, Shelf};
use bicinium_grammar::SheetTree;

/// What may stand at the place that `^` marks in a sheet.
fn at(marked: &str) -> Option<(String, Words)> {
    let offset = marked.find('^').unwrap();
    let text = marked.replacen('^', "", 1);
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let sheets = |folder: &str| match folder {
        "" => vec!["given/".to_owned(), "songs.bicinium".to_owned()],
        "given/" => vec!["dances.bicinium".to_owned()],
        _ => Vec::new(),
    };
    let near = Near { schools: &["harbour".to_owned()], sheets: &sheets };
    let found = words(&snapshot, offset, &near)?;
    Some((text, found))
}

fn texts(marked: &str) -> Vec<String> {
    let found = at(marked).map(|(_, found)| found.words).unwrap_or_default();
    found.into_iter().map(|word| word.text).collect()
}

#[test]
fn a_line_begins_with_a_word_that_its_block_knows() {
    assert!(texts("^").contains(&"exercise".to_owned()));
    assert!(!texts("^").contains(&"allow".to_owned()));
    assert_eq!(texts("cantus one\n  ^")[0], "line");
    let exercise = texts("exercise\n  ^");
    assert_eq!(exercise[0], "soprano");
    assert!(exercise.contains(&"allow".to_owned()) && exercise.contains(&"species".to_owned()));
}

/// Whatever is offered at the beginning of a line can be read there.
#[test]
fn every_word_for_the_beginning_of_a_line_is_known_there() {
    for head in ["", "cantus one\n  ", "exercise\n  "] {
        for word in texts(&format!("{head}^")) {
            let sheet = SheetTree::parse(&format!("{head}{word}"));
            let problems = sheet.blocks().iter().flat_map(|block| &block.problems);
            let unknown = problems.filter(|it| it.kind.name() == "unknown-word").count();
            assert_eq!(unknown, 0, "{word}");
        }
    }
}

#[test]
fn values_follow_the_word_that_they_belong_to() {
    assert!(texts("key ^").contains(&"F#".to_owned()));
    assert!(texts("key G ^").contains(&"mixolydian".to_owned()));
    assert_eq!(texts("exercise\n  species ^"), ["1", "2", "3", "4", "5"]);
    assert!(texts("meter ^").contains(&"3/2".to_owned()));
    assert_eq!(texts("rulebook ^"), ["modal", "tonal", "harbour"]);
}

#[test]
fn what_is_offered_for_a_key_or_a_meter_is_one() {
    for (setting, after) in [("key", " major"), ("key G", ""), ("meter", ""), ("species", "")] {
        for word in texts(&format!("{setting} ^")) {
            let text = format!("{setting} {word}{after}\n");
            let sheet = Sheet::new(&text, Arc::new(Shelf::default()));
            assert_eq!(sheet.snapshot().findings().count(), 0, "{text}");
        }
    }
}

#[test]
fn a_voice_is_for_what_no_other_voice_is_for() {
    let rows = "exercise\n  soprano cantus | C5 |\n  bass ^";
    assert_eq!(texts(rows), ["counter", "cantus"]);
}

#[test]
fn a_cantus_is_offered_with_its_notes() {
    let (_, found) =
        at("cantus quay-song\n  line | G4 | A4 |\nexercise\n  alto cantus q^").unwrap();
    assert_eq!(found.words[0].text, "quay-song");
    assert_eq!(found.words[0].detail.as_deref(), Some("2 bars: G4 A4"));
}

#[test]
fn the_repertoire_is_offered_behind_what_is_defined() {
    let own = "cantus fux-lydian\n  line | F4 |\ncantus quay-song\n  line | G4 |\n";
    let (_, found) = at(&format!("{own}exercise\n  alto cantus ^")).unwrap();
    let names: Vec<_> = found.words.iter().map(|word| word.text.as_str()).collect();
    assert_eq!(names[..3], ["fux-lydian", "quay-song", "fux-dorian"]);
    assert_eq!((names.len(), found.words[0].detail.as_deref()), (11, Some("1 bar: F4")));
    let notes = "11 bars: D4 F4 E4 D4 G4 F4 A4 G4 F4 E4 D4";
    assert_eq!(found.words[2].detail.as_deref(), Some(notes));
    let docs = bicinium::features::section::plain(&found.words[2].docs);
    assert!(docs.contains("key: D dorian") && docs.contains("Vienna 1725"), "{docs}");
}

#[test]
fn the_path_of_a_sheet_is_offered_folder_by_folder() {
    for (marked, offered, replaced) in [
        ("use \"^\"", vec!["given/", "songs.bicinium"], ""),
        ("by \"Ina\"\n  Use  \"so^ng", vec!["given/", "songs.bicinium"], "song"),
        ("exercise\nuse \"given/da^n\" // on", vec!["dances.bicinium"], "dan"),
    ] {
        let (text, found) = at(marked).unwrap();
        assert_eq!(&text[found.range], replaced, "{marked}");
        let names: Vec<_> = found.words.iter().map(|word| word.text.as_str()).collect();
        assert_eq!(names, offered, "{marked}");
    }
    for elsewhere in ["use \"a\" ^", "by \"^", "use \"nowhere/^\"", "// use \"^"] {
        assert_eq!(texts(elsewhere), Vec::<String>::new(), "{elsewhere}");
    }
}

/// A close in C with a harmony row, in which `HERE` stands in a bar.
fn with_harmonies(row: &str) -> String {
    format!(
        "key C major\nexercise\n  soprano cantus | E4 | D4 |\n  harmony | I | V |\n  \
         bass counter | C3 | G3 |\n\n  soprano | B3 | C4 |\n  harmony {row}\n  bass | G3 | C3 |\n"
    )
}

#[test]
fn a_harmony_row_is_offered_what_is_heard_in_its_bar_and_then_what_the_school_knows() {
    // What is written binds what is heard.
    for (row, first) in [("| ^ | |", "V"), ("| V | ^ |", "I"), ("|^", "V"), ("| V | i^i |", "ii")] {
        let (_, found) = at(&with_harmonies(row)).unwrap();
        assert_eq!(found.words[0].text, first, "{row}");
        let detail = found.words[0].detail.as_deref().unwrap();
        assert!(detail.starts_with("heard here: "), "{row}: {detail}");
        let names: Vec<_> = found.words.iter().map(|word| word.text.as_str()).collect();
        for known in ["I6", "ii6", "IV", "V6", "vi"] {
            assert!(names.contains(&known), "{known}: {names:?}");
        }
        let mut once = names.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), names.len(), "{names:?}");
    }
    let (text, found) = at(&with_harmonies("| V | i^i |")).unwrap();
    assert_eq!(&text[found.range], "ii");
    for elsewhere in ["^| V |", "| V | I | // ^"] {
        let offered = texts(&with_harmonies(elsewhere));
        assert!(!offered.contains(&"ii6".to_owned()), "{elsewhere}: {offered:?}");
    }
}

/// Whatever is offered as a harmony can be read as one.
#[test]
fn every_harmony_that_is_offered_can_be_written() {
    for word in texts(&with_harmonies("| ^ | |")) {
        let text = with_harmonies(&format!("| {word} | |"));
        let sheet = SheetTree::parse(&text);
        assert_eq!(sheet.blocks().iter().flat_map(|block| &block.problems).count(), 0, "{word}");
    }
}

const PARALLEL: &str = "rulebook modal\nkey D dorian\nexercise\n  species 1\n  \
                        soprano counter | A4 | C5 | C#5 | D5 |\n  tenor cantus | D4 | F4 | E4 | D4 |\n";

#[test]
fn a_licence_is_offered_first_for_what_was_found() {
    let (text, found) = at(&format!("{PARALLEL}  allow conse^c at 2\n")).unwrap();
    assert_eq!(&text[found.range], "consec");
    let names: Vec<_> = found.words.iter().map(|word| word.text.as_str()).collect();
    assert_eq!(names[..2], ["chromatic-step", "consecutive-perfects"]);
    assert!(names.len() > 50);
    assert_eq!(found.words[0].detail.as_deref(), Some("found once here"));
    assert!(found.words.iter().all(|word| !word.docs.is_empty()));
}

#[test]
fn a_licence_knows_where_something_was_found() {
    assert_eq!(texts(&format!("{PARALLEL}  allow chromatic-step ^")), ["at", "because"]);
    assert_eq!(texts(&format!("{PARALLEL}  allow chromatic-step at ^")), ["3"]);
    assert_eq!(texts(&format!("{PARALLEL}  allow chromatic-step at 3 ^")), ["to", "because"]);
}

#[test]
fn no_words_are_offered_in_music_comments_and_texts() {
    for place in [
        "exercise\n  bass | ^ |",
        "exercise\n  bass | C3 ^",
        "// ^",
        "exercise \"a ^",
        "exercise ^",
        "cantus ^",
        "by ^",
    ] {
        assert_eq!(texts(place), Vec::<String>::new(), "{place}");
    }
}

fn in_school(marked: &str) -> Vec<String> {
    let offset = marked.find('^').unwrap();
    let text = marked.replacen('^', "", 1);
    let found = in_rulebook(&text, offset).map(|found| found.words).unwrap_or_default();
    found.into_iter().map(|word| word.text).collect()
}

#[test]
fn a_rulebook_knows_its_tables_keys_and_answers() {
    assert!(in_school("[^").contains(&"rules.crossing".to_owned()));
    assert_eq!(in_school("^"), ["title", "extends"]);
    assert_eq!(in_school("extends = ^"), ["\"modal\"", "\"tonal\""]);
    let keys = in_school("[species.2.rules.major-sixth-leap]\n^");
    assert_eq!(keys[..2], ["level", "allowed"]);
    assert_eq!(in_school("[rules.crossing]\nlevel = ^").len(), 4);
    let answers = in_school("[rules.major-sixth-leap]\nlevel = \"off\"\nallowed = ^");
    assert!(answers.contains(&"\"never\"".to_owned()), "{answers:?}");
    assert!(!in_school("[figures]\n^").is_empty());
    assert_eq!(in_school("# ^"), Vec::<String>::new());
}

#[test]
fn an_answer_that_is_offered_is_taken() {
    let question = |rule: &str, key: &str, answer: &str| {
        format!("extends = \"tonal\"\n[rules.{rule}]\n{key} = {answer}\n")
    };
    let mut count = 0;
    for entry in bicinium_analysis::rules::all() {
        let head = format!("[rules.{}]\n", entry.name);
        for key in in_school(&format!("{head}^")) {
            for answer in in_school(&format!("{head}{key} = ^")) {
                let text = question(entry.name, &key, &answer);
                let taken = Shelf::default().add(&text);
                assert!(taken.is_ok() || key.contains('.'), "{text}\n{taken:?}");
                count += 1;
            }
        }
    }
    assert!(count > 200, "{count}");
}
