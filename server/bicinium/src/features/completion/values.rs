//! What settings may be set to, and the names of cantus definitions.

use bicinium_analysis::Snapshot;
use bicinium_analysis::repertoire::{self, Cantus};
use bicinium_grammar::words::MODES;
use bicinium_theory::Pitch;

use super::{Word, WordKind};
use crate::features::section::Section;
use crate::features::words::count;

/// The tonics that are written most, in the order of the letters.
const TONICS: [&str; 15] =
    ["C", "D", "E", "F", "G", "A", "B", "C#", "F#", "G#", "Db", "Eb", "Gb", "Ab", "Bb"];

/// The meters of the trade, with what a bar holds.
const METERS: [(&str, &str); 6] = [
    ("2/2", "two halves"),
    ("3/2", "three halves"),
    ("4/4", "four quarters"),
    ("3/4", "three quarters"),
    ("6/4", "six quarters"),
    ("4/2", "four halves"),
];

/// The species, with what a bar of the voice that is written holds.
const SPECIES: [(&str, &str); 5] = [
    ("1", "note against note"),
    ("2", "two notes against one"),
    ("3", "four notes against one"),
    ("4", "tied over the barline"),
    ("5", "florid, all of these mixed"),
];

/// The tonics of keys.
pub(super) fn tonics() -> Vec<Word> {
    TONICS.iter().map(|tonic| plain(tonic)).collect()
}

/// The modes of keys.
pub(super) fn modes() -> Vec<Word> {
    MODES.iter().map(|mode| Word::of_notation(mode, WordKind::Value)).collect()
}

/// Meters.
pub(super) fn meters() -> Vec<Word> {
    METERS.iter().map(|(meter, bar)| Word::with_detail(*meter, WordKind::Value, *bar)).collect()
}

/// The species.
pub(super) fn species() -> Vec<Word> {
    SPECIES.iter().map(|(number, bar)| Word::with_detail(*number, WordKind::Value, *bar)).collect()
}

/// The rulebooks that a sheet may name: those it knows, and those of schools.
pub(super) fn rulebooks(snapshot: &Snapshot, schools: &[String]) -> Vec<Word> {
    let shelf = snapshot.shelf();
    let known = shelf.names().filter_map(|name| Some((name, shelf.get(name)?)));
    let known = known.filter(|(name, _)| !name.contains(['/', '.']));
    let known = known.map(|(name, book)| (name.to_owned(), Some(book.title.clone())));
    let others = schools.iter().filter(|name| shelf.get(name).is_none());
    let all = known.chain(others.map(|name| (name.clone(), None)));
    let word = |(text, detail)| Word { text, kind: WordKind::Rulebook, detail, docs: Vec::new() };
    all.map(word).collect()
}

/// The names of the cantus that a row may follow, with their notes: first those that are defined in the
/// sheet or in those that it uses.
pub(super) fn cantus(snapshot: &Snapshot) -> Vec<Word> {
    let defined = snapshot.definitions();
    let own = defined.iter().map(|(name, notes)| melody(name, notes, Vec::new()));
    let lent = repertoire::all().iter().filter(|it| !defined.contains_key(&it.defined.name));
    let lent = lent.map(|it| melody(&it.defined.name, &it.defined.notes, origin(it)));
    own.chain(lent).collect()
}

fn melody(name: &str, notes: &[Pitch], docs: Vec<Section>) -> Word {
    let written = notes.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    let detail = format!("{}: {written}", count(notes.len(), "bar", "bars"));
    Word { text: name.to_owned(), kind: WordKind::Cantus, detail: Some(detail), docs }
}

fn origin(cantus: &Cantus) -> Vec<Section> {
    let key = format!("{} {}", cantus.key.tonic, cantus.key.mode.name());
    vec![Section::Fact("key", key), Section::Fact("source", cantus.source.to_owned())]
}

fn plain(text: &str) -> Word {
    Word { text: text.to_owned(), kind: WordKind::Value, detail: None, docs: Vec::new() }
}
