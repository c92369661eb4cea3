//! What a sheet says, printed without its spacing: the measure of what formatting may not change.

use std::fmt::Write;

use bicinium_grammar::ast::{Bar, Block, Item, ItemKind, NoteItem, Row};
use bicinium_grammar::{BlockTree, SheetTree};

/// Everything that the typed view tells of a text, its problems and its comments, without places.
pub(crate) fn meaning(text: &str) -> String {
    SheetTree::parse(text).blocks().iter().map(|block| of_block(block)).collect()
}

fn of_block(tree: &BlockTree) -> String {
    let mut told = format!("{:?}\n", tree.kind);
    let block = tree.ast();
    for setting in block.settings() {
        writeln!(told, "{:?}", setting.value).unwrap();
    }
    for used in block.uses() {
        writeln!(told, "use {:?}", used.path).unwrap();
    }
    told += &match block {
        Block::Preamble(_) => String::new(),
        Block::Cantus(cantus) => {
            let rows = cantus.rows().iter().map(|row| bars(&row.bars())).collect::<String>();
            format!("{:?}\n{rows}", cantus.name())
        }
        Block::Exercise(exercise) => {
            let rows = exercise.rows().iter().map(row).collect::<String>();
            let licences = exercise.licences().into_iter().map(|licence| {
                let from = licence.from().map(|place| (place.bar, place.beat));
                format!("{:?} {from:?} {:?} {:?}\n", licence.rule(), licence.to(), licence.reason())
            });
            format!("{:?}\n{rows}{}", exercise.title(), licences.collect::<String>())
        }
    };
    for problem in &tree.problems {
        writeln!(told, "{} {}", problem.kind.name(), problem.message).unwrap();
    }
    told
}

fn row(row: &Row) -> String {
    let head = match row {
        Row::Voice(row) => format!("{:?} {:?} {:?}", row.register(), row.role(), row.cantus_name()),
        Row::Harmony(_) => "harmony".to_owned(),
    };
    format!("{head}\n{}", bars(&row.bars()))
}

fn bars(bars: &[Bar]) -> String {
    bars.iter().map(|bar| format!("| {} |\n", items(&bar.items()))).collect()
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
