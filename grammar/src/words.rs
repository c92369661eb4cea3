//! The words of the notation, and which of them was probably meant by another word. Words are found
//! in upper and lower case alike. This module must not know where in a sheet a word stands.

use strsim::damerau_levenshtein;

/// The registers a voice row can name, from high to low.
pub const REGISTERS: &[&str] = &["soprano", "mezzo", "alto", "tenor", "baritone", "bass"];

/// What a voice row can be for.
pub const ROLES: &[&str] = &["cantus", "counter"];

/// The modes a key can have.
pub const MODES: &[&str] =
    &["major", "minor", "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian"];

/// The words that begin a line with a value, and `use`.
pub const SETTINGS: &[&str] =
    &["use", "rulebook", "meter", "key", "species", "by", "points", "deadline"];

/// The words that open a block.
pub const OPENERS: &[&str] = &["cantus", "exercise"];

/// Every word with which a line can begin.
pub(crate) const ALL: &[&str] = &[
    "use", "rulebook", "meter", "key", "species", "by", "points", "deadline", "cantus", "exercise",
    "line", "soprano", "mezzo", "alto", "tenor", "baritone", "bass", "harmony", "allow",
];

/// A word longer than this is nobody's slip.
const LONGEST_SLIP: usize = 16;

/// The word of `table` that `text` is.
pub fn find<'w>(text: &str, table: &[&'w str]) -> Option<&'w str> {
    table.iter().copied().find(|word| word.eq_ignore_ascii_case(text))
}

/// The one word of `table` that `text` is a misspelling of.
pub(crate) fn misspelling_of<'w>(text: &str, table: &[&'w str]) -> Option<&'w str> {
    let near = ranked(text, table);
    let (best, word) = near.first()?;
    let unique = near.get(1).is_none_or(|(second, _)| second > best);
    unique.then_some(*word)
}

/// The word that opens a block and of which `text` is a misspelling.
pub(crate) fn misspelt_opener(text: &str) -> Option<&'static str> {
    misspelling_of(text, ALL).filter(|word| OPENERS.contains(word))
}

/// The words of `table` that may have been meant by `text`, the nearest first: misspelt ones, and
/// such as begin like it.
pub(crate) fn suggestions<'w>(text: &str, table: &[&'w str]) -> Vec<&'w str> {
    let lower = text.to_lowercase();
    let near: Vec<_> = ranked(text, table).into_iter().map(|(_, word)| word).collect();
    let shortened = table.iter().filter(|word| !lower.is_empty() && word.starts_with(&lower));
    let rest: Vec<_> = shortened.copied().filter(|word| !near.contains(word)).collect();
    [near, rest].concat()
}

fn ranked<'w>(text: &str, table: &[&'w str]) -> Vec<(usize, &'w str)> {
    let length = text.chars().take(LONGEST_SLIP + 1).count();
    let limit = match length {
        0..=2 => 0,
        3..=5 => 1,
        6..=LONGEST_SLIP => 2,
        _ => 0,
    };
    if limit == 0 {
        return Vec::new();
    }
    let lower = text.to_lowercase();
    let letters = lower.chars().count();
    let is_near = |word: &&&str| word.len().abs_diff(letters) <= limit;
    let distances = table.iter().filter(is_near);
    let distances = distances.map(|word| (damerau_levenshtein(&lower, word), *word));
    let mut near: Vec<_> = distances.filter(|(distance, _)| *distance <= limit).collect();
    near.sort_by_key(|(distance, _)| *distance);
    near
}
