//! What settings may be set to, and the names of cantus definitions.

use bicinium_analysis::Snapshot;
use bicinium_grammar::words::MODES;
use bicinium_theory::Pitch;

use super::{Word, WordKind};
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

/// The names of the cantus definitions that a row may follow, with their notes.
pub(super) fn cantus(snapshot: &Snapshot) -> Vec<Word> {
    let word = |(name, notes): (&String, &std::sync::Arc<[Pitch]>)| {
        let written = notes.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        let bars = count(notes.len(), "bar", "bars");
        Word::with_detail(name.clone(), WordKind::Cantus, format!("{bars}: {written}"))
    };
    snapshot.definitions().iter().map(word).collect()
}

fn plain(text: &str) -> Word {
    Word { text: text.to_owned(), kind: WordKind::Value, detail: None, docs: Vec::new() }
}
