//! What a sheet says, printed without its spacing: the measure of what formatting may not change.

use bicinium_grammar::ast::{Bar, Block, Item, ItemKind, Licence, NoteItem, Row};
use bicinium_grammar::{BlockTree, SheetTree};

/// Everything that the typed view tells of a text, its problems and its comments, without places.
pub(crate) fn meaning(text: &str) -> String {
    SheetTree::parse(text).blocks().iter().map(|block| of_block(block)).collect()
}

fn of_block(tree: &BlockTree) -> String {
    let block = tree.ast();
    let mut told = vec![format!("{:?}", tree.kind)];
    told.extend(block.settings().iter().map(|setting| format!("{:?}", setting.value)));
    told.extend(block.uses().iter().map(|used| format!("use {:?}", used.path)));
    match block {
        Block::Preamble(_) => {}
        Block::Cantus(cantus) => {
            told.push(format!("{:?}", cantus.name()));
            told.extend(cantus.rows().iter().map(|row| bars(&row.bars())));
        }
        Block::Exercise(exercise) => {
            told.push(format!("{:?}", exercise.title()));
            told.extend(exercise.rows().iter().map(row));
            told.extend(exercise.licences().iter().map(licence));
        }
    }
    let problems = tree.problems.iter();
    told.extend(problems.map(|problem| format!("{} {}", problem.kind.name(), problem.message)));
    told.join("\n")
}

fn licence(licence: &Licence) -> String {
    let from = licence.from().map(|place| (place.bar, place.beat));
    format!("{:?} {from:?} {:?} {:?}", licence.rule(), licence.to(), licence.reason())
}

fn row(row: &Row) -> String {
    let head = match row {
        Row::Voice(row) => format!("{:?} {:?} {:?}", row.register(), row.role(), row.cantus_name()),
        Row::Harmony(_) => "harmony".to_owned(),
    };
    format!("{head} {}", bars(&row.bars()))
}

fn bars(bars: &[Bar]) -> String {
    bars.iter().map(|bar| items(bar.items())).collect::<Vec<_>>().join(" | ")
}

/// The items of a bar, each in one word.
pub(crate) fn items(items: &[Item]) -> String {
    items.iter().map(item).collect::<Vec<_>>().join(" ")
}

fn item(item: &Item) -> String {
    match &item.kind {
        ItemKind::Note(NoteItem { letter, accidental, octave, .. }) => {
            format!(
                "{letter}{accidental:+}/{}",
                octave.map_or("none".to_owned(), |o| o.to_string())
            )
        }
        ItemKind::Numeral(text) => text.clone(),
        ItemKind::Hold => "hold".to_owned(),
        ItemKind::Rest => "rest".to_owned(),
        ItemKind::Hole => "hole".to_owned(),
        ItemKind::Group(inner) => format!("({})", items(inner)),
        ItemKind::Broken => "broken".to_owned(),
    }
}
