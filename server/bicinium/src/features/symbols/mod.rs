//! What a sheet is made of, by name: settings, cantus definitions, exercises with their rows and
//! licences. Read from the tree alone, so that it can be had of a sheet that nobody has judged.

mod exercise;

use bicinium_grammar::{BlockTree, TextRange, ast};

/// Something that has a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Its name; never empty.
    pub name: String,
    /// What else there is to say, in a few words.
    pub detail: Option<String>,
    /// What it is.
    pub kind: SymbolKind,
    /// All of it, counted from the start of the block.
    pub range: TextRange,
    /// Where it is named, within the range.
    pub name_range: TextRange,
    /// What it is made of, in the order of the text.
    pub children: Vec<Symbol>,
}

/// What has a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SymbolKind {
    /// An exercise.
    Exercise,
    /// The definition of a cantus.
    Cantus,
    /// A row of a voice.
    Voice,
    /// A row of numerals.
    Harmony,
    /// A line that sets something.
    Setting,
    /// A line that takes in another sheet.
    Use,
    /// A licence.
    Licence,
}

/// What a block is made of; exercises without a title are called by their number, counted from 1.
pub fn of_block(tree: &BlockTree, number: Option<usize>) -> Vec<Symbol> {
    let (block, text) = (tree.ast(), tree.text());
    let settings = settings(&block, &text);
    match &block {
        ast::Block::Preamble(_) => settings,
        ast::Block::Cantus(cantus) => self::cantus(&block, cantus, settings).into_iter().collect(),
        ast::Block::Exercise(it) => vec![exercise::symbol(&block, it, settings, number)],
    }
}

fn cantus(block: &ast::Block, cantus: &ast::CantusBlock, children: Vec<Symbol>) -> Option<Symbol> {
    let (name, name_range) = (cantus.name()?, cantus.name_range()?);
    let bars = cantus.rows().iter().map(|row| row.bars().len()).sum();
    Some(Symbol {
        name,
        detail: Some(crate::features::words::count(bars, "bar", "bars")),
        kind: SymbolKind::Cantus,
        range: block.written_range(),
        name_range,
        children,
    })
}

/// The lines of a block that set something or take something in.
fn settings(block: &ast::Block, text: &str) -> Vec<Symbol> {
    let set = block.settings().into_iter();
    let set = set.map(|it| line(SymbolKind::Setting, it.range, it.value_range, text));
    let uses = block.uses().into_iter();
    let uses = uses.map(|it| line(SymbolKind::Use, it.range, it.path_range, text));
    let mut lines: Vec<_> = set.chain(uses).collect();
    lines.sort_by_key(|line| line.range.start());
    lines
}

/// A line that begins with a word and goes on with a value.
fn line(kind: SymbolKind, range: TextRange, value: TextRange, text: &str) -> Symbol {
    let part = |range: TextRange| text.get(std::ops::Range::<usize>::from(range));
    let word = part(range).and_then(|line| line.split_whitespace().next()).unwrap_or("setting");
    let detail = part(value).filter(|value| !value.is_empty()).map(str::to_owned);
    let name = word.to_ascii_lowercase();
    Symbol { name, detail, kind, range, name_range: range, children: Vec::new() }
}
