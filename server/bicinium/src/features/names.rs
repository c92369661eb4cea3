//! Names in a sheet: the name of a cantus, defined once and followed anywhere, and the title of an
//! exercise, which nothing refers to. Read from the tree alone; which sheet lends a cantus to which is
//! decided by whoever asks.

use bicinium_grammar::{BlockTree, SheetTree, TextRange, TextSize, ast};

/// A name and where it stands, counted from the start of its block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Name {
    /// That of a cantus.
    Cantus(String, TextRange),
    /// The title of an exercise, without its quotation marks.
    Title(String, TextRange),
}

/// The name that stands at a place, counted from the start of the block.
pub fn at(tree: &BlockTree, offset: TextSize) -> Option<Name> {
    let is_here = |range: &TextRange| range.contains_inclusive(offset);
    match tree.ast() {
        ast::Block::Preamble(_) => None,
        ast::Block::Cantus(cantus) => {
            let range = cantus.name_range().filter(is_here)?;
            Some(Name::Cantus(cantus.name()?, range))
        }
        ast::Block::Exercise(exercise) => {
            let followed = followed(&exercise).find(|(_, range)| is_here(range));
            let followed = followed.map(|(name, range)| Name::Cantus(name, range));
            followed.or_else(|| {
                title(&exercise)
                    .filter(|(_, range)| is_here(range))
                    .map(|it| Name::Title(it.0, it.1))
            })
        }
    }
}

/// Where a block defines the cantus of a name.
pub fn definition(tree: &BlockTree, name: &str) -> Option<TextRange> {
    match tree.ast() {
        ast::Block::Cantus(cantus) if cantus.name().as_deref() == Some(name) => cantus.name_range(),
        _ => None,
    }
}

/// Where a block follows the cantus of a name.
pub fn mentions(tree: &BlockTree, name: &str) -> Vec<TextRange> {
    match tree.ast() {
        ast::Block::Exercise(exercise) => {
            followed(&exercise).filter(|(known, _)| known == name).map(|(_, range)| range).collect()
        }
        ast::Block::Preamble(_) | ast::Block::Cantus(_) => Vec::new(),
    }
}

/// Whether a word can be the name of a cantus.
pub fn can_name_a_cantus(word: &str) -> bool {
    match BlockTree::parse(&format!("cantus {word}\n")) {
        tree if !tree.problems.is_empty() => false,
        tree => definition(&tree, word).is_some(),
    }
}

/// Whether a text can be the title of an exercise.
pub fn can_be_a_title(text: &str) -> bool {
    let sheet = SheetTree::parse(&format!("exercise \"{text}\"\n"));
    let [_, block] = sheet.blocks() else { return false };
    let ast::Block::Exercise(exercise) = block.ast() else { return false };
    block.problems.is_empty() && exercise.title().as_deref() == Some(text)
}

fn followed(exercise: &ast::ExerciseBlock) -> impl Iterator<Item = (String, TextRange)> + use<> {
    exercise.rows().into_iter().filter_map(|row| match row {
        ast::Row::Voice(row) => Some((row.cantus_name()?, row.cantus_name_range()?)),
        ast::Row::Harmony(_) => None,
    })
}

/// The title and where it stands between its quotation marks.
fn title(exercise: &ast::ExerciseBlock) -> Option<(String, TextRange)> {
    let (title, range) = (exercise.title()?, exercise.title_range()?);
    let (mark, length) = (TextSize::of('"'), TextSize::try_from(title.len()).ok()?);
    let inside = TextRange::at(range.start() + mark, length);
    // Other quotation marks are longer, and one that is missing is reported.
    (inside.end() + mark == range.end()).then_some((title, inside))
}
