//! Which words may stand where.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::completion::{Words, in_rulebook, words};
use bicinium_analysis::{Sheet, Shelf};
use bicinium_grammar::SheetTree;

/// What may stand at the place that `^` marks in a sheet.
fn at(marked: &str) -> Option<(String, Words)> {
    let offset = marked.find('^').unwrap();
    let text = marked.replacen('^', "", 1);
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let found = words(&snapshot, offset, &["harbour".to_owned()])?;
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
