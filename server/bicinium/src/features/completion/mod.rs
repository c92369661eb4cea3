//! Which words may stand at a place: words of the notation, and names that are known. In the bars of a row
//! there are none. What may be chosen for a hole is no business of this module.

mod before;
mod licences;
mod lines;
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
}

/// The words that may stand at a byte of a sheet; `None` where there are none. `schools` are the
/// rulebooks that the sheet may name besides those it knows already.
pub fn words(snapshot: &Snapshot, offset: usize, schools: &[String]) -> Option<Words> {
    let block = snapshot.block_at(offset)?;
    let text = block.judged.tree.text();
    let before = Before::of(&text, offset.checked_sub(block.start)?)?;
    let words = after(&before, block, snapshot, schools);
    let range = block.start + before.range.start..block.start + before.range.end;
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
