//! Names in a block: what stands at a place, where a cantus is defined and who follows it, and what may be
//! a name at all.

#![allow(clippy::unwrap_used)]

use bicinium::features::names::{
    Name, at, can_be_a_title, can_name_a_cantus, definition, mentions,
};
use bicinium_grammar::{BlockTree, TextRange, TextSize};

const CANTUS: &str = "cantus quay-song\n  line | C4 | D4 |\n";
const EXERCISE: &str = "exercise \"by the quay\"\n  soprano cantus quay-song | C5 |\n  \
                        bass counter | C3 |\n\n  soprano cantus quay-song | D5 |\n";

/// The name at the first byte of a word, with the text in which it stands.
fn name_at(text: &str, word: &str) -> Option<(String, String)> {
    let offset = TextSize::try_from(text.find(word).unwrap()).unwrap();
    let (Name::Cantus(name, range) | Name::Title(name, range)) =
        at(&BlockTree::parse(text), offset)?;
    Some((name, text[range].to_owned()))
}

#[test]
fn a_name_is_found_where_it_stands_and_nowhere_else() {
    let found = |name: &str| Some((name.to_owned(), name.to_owned()));
    assert_eq!(name_at(CANTUS, "quay-song"), found("quay-song"));
    assert_eq!(name_at(EXERCISE, "quay-song"), found("quay-song"));
    assert_eq!(name_at(EXERCISE, "by the"), found("by the quay"));
    for word in ["C4", "line"] {
        assert_eq!(name_at(CANTUS, word), None, "{word}");
    }
    for word in ["soprano", "C5", "counter"] {
        assert_eq!(name_at(EXERCISE, word), None, "{word}");
    }
}

#[test]
fn a_title_that_is_not_closed_is_left_alone() {
    assert_eq!(name_at("exercise \"by the quay\n", "by the"), None);
}

#[test]
fn a_cantus_is_defined_once_and_followed_in_every_system() {
    let (cantus, exercise) = (BlockTree::parse(CANTUS), BlockTree::parse(EXERCISE));
    let texts = |text: &'static str, ranges: Vec<TextRange>| {
        ranges.into_iter().map(|range| &text[range]).collect::<Vec<_>>()
    };
    let defined = definition(&cantus, "quay-song").into_iter().collect();
    assert_eq!(texts(CANTUS, defined), ["quay-song"]);
    assert_eq!(definition(&cantus, "quay"), None);
    assert_eq!(definition(&exercise, "quay-song"), None);
    assert_eq!(texts(EXERCISE, mentions(&exercise, "quay-song")), ["quay-song", "quay-song"]);
    assert_eq!(mentions(&exercise, "mill-song"), []);
    assert_eq!(mentions(&cantus, "quay-song"), []);
}

#[test]
fn what_can_be_a_name_could_be_written_as_one() {
    for (word, is_name) in
        [("bridge-song", true), ("fünfte", true), ("", false), ("two words", false), ("a|b", false)]
    {
        assert_eq!(can_name_a_cantus(word), is_name, "{word:?}");
    }
    for (text, is_title) in
        [("No. 1", true), ("", true), ("a \" b", false), ("a\nb", false), ("a // b", true)]
    {
        assert_eq!(can_be_a_title(text), is_title, "{text:?}");
    }
}
