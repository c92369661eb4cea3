//! Which words may stand at a place: words of the notation, names that are known, paths of other sheets,
//! and harmonies. In the bars of a voice there are none. What may be chosen for a hole is no business of
//! this module.

mod before;
mod licences;
mod lines;
mod numerals;
mod paths;
mod rulebook;
mod values;

use std::ops::Range;

use bicinium_analysis::Snapshot;
use bicinium_analysis::sheet::Placed;

use super::section::Section;
use before::Before;

pub use rulebook::words as in_rulebook;

/// The words that may stand at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Words {
    /// What is replaced, in bytes of the text.
    pub range: Range<usize>,
    /// The words, the likeliest first.
    pub words: Vec<Word>,
}

/// A word that may be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// What is written.
    pub text: String,
    /// What it is.
    pub kind: WordKind,
    /// What else there is to say, in a few words.
    pub detail: Option<String>,
    /// What it means.
    pub docs: Vec<Section>,
}

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WordKind {
    /// A word of the notation, or a key of a rulebook.
    Notation,
    /// A voice.
    Voice,
    /// A value: a tonic, a mode, a meter, a level.
    Value,
    /// The name of a cantus.
    Cantus,
    /// The name of a rule.
    Rule,
    /// The name of a rulebook.
    Rulebook,
    /// A sheet.
    Sheet,
    /// A folder; a stroke stands behind its name.
    Folder,
}

/// What lies near a sheet and may be named in it.
#[derive(Clone, Copy)]
pub struct Near<'a> {
    /// The rulebooks besides those that the sheet knows already.
    pub schools: &'a [String],
    /// The sheets in a folder that is named as seen from the sheet, and the folders in it.
    pub sheets: &'a dyn Fn(&str) -> Vec<String>,
}

/// The words that may stand at a byte of a sheet; `None` where there are none.
pub fn words(snapshot: &Snapshot, offset: usize, near: &Near<'_>) -> Option<Words> {
    let block = snapshot.block_at(offset)?;
    let (text, within) = (block.judged.tree.text(), offset.checked_sub(block.start)?);
    let of_line = || {
        let before = Before::of(&text, within)?;
        let words = after(&before, block, snapshot, near.schools);
        Some((before.range, words))
    };
    let found = paths::words(&text, within, near);
    let found = found.or_else(|| numerals::words(block, &text, within)).or_else(of_line);
    let (range, words) = found?;
    let range = block.start + range.start..block.start + range.end;
    (!words.is_empty()).then_some(Words { range, words })
}

fn after(before: &Before, block: &Placed, snapshot: &Snapshot, schools: &[String]) -> Vec<Word> {
    let said: Vec<_> = before.words.iter().map(String::as_str).collect();
    match said.as_slice() {
        [] => lines::beginnings(block.judged.tree.kind),
        ["key"] => values::tonics(),
        ["key", _] => values::modes(),
        ["meter"] => values::meters(),
        ["species"] => values::species(),
        ["rulebook"] => values::rulebooks(snapshot, schools),
        ["allow"] => licences::rules(&block.judged.findings),
        ["allow", rule, rest @ ..] => licences::clauses(rule, rest, &block.judged.findings),
        [voice] if lines::is_voice(voice) => lines::roles(block),
        [voice, "cantus"] if lines::is_voice(voice) => values::cantus(snapshot),
        _ => Vec::new(),
    }
}

impl Word {
    /// A word of the notation with what it means.
    fn of_notation(text: &str, kind: WordKind) -> Self {
        let docs = super::hover::word::say(text).into_iter().flatten().skip(1).collect();
        Self { text: text.to_owned(), kind, detail: None, docs }
    }

    /// A word with one line about it.
    fn with_detail(text: impl Into<String>, kind: WordKind, detail: impl Into<String>) -> Self {
        Self { text: text.into(), kind, detail: Some(detail.into()), docs: Vec::new() }
    }
}
