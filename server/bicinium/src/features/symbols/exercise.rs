//! An exercise by name, with its rows and licences.

use bicinium_grammar::ast;

use super::{Symbol, SymbolKind};

/// The exercise; its settings come first among what it is made of.
pub(super) fn symbol(
    block: &ast::Block,
    exercise: &ast::ExerciseBlock,
    settings: Vec<Symbol>,
    number: Option<usize>,
) -> Symbol {
    let title = exercise.title().filter(|title| !title.trim().is_empty());
    let numbered = || number.map_or("exercise".to_owned(), |number| format!("exercise {number}"));
    let detail = settings.iter().filter(|it| it.kind == SymbolKind::Setting).map(whole);
    let detail = detail.collect::<Vec<_>>().join(", ");
    let mut children = settings;
    children.extend(rows(exercise));
    children.extend(exercise.licences().iter().map(licence));
    children.sort_by_key(|child| child.range.start());
    Symbol {
        name: title.unwrap_or_else(numbered),
        detail: (!detail.is_empty()).then_some(detail),
        kind: SymbolKind::Exercise,
        range: block.written_range(),
        name_range: exercise.title_range().unwrap_or_else(|| exercise.head_range()),
        children,
    }
}

/// "species 2".
fn whole(setting: &Symbol) -> String {
    [Some(setting.name.clone()), setting.detail.clone()]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(" ")
}

/// The rows of all systems, each with the bars that it holds.
fn rows(exercise: &ast::ExerciseBlock) -> Vec<Symbol> {
    let mut before = 0;
    let mut symbols = Vec::new();
    for system in exercise.systems() {
        symbols.extend(system.iter().filter_map(|it| row(it, before)));
        before += system.iter().map(|it| it.bars().len()).max().unwrap_or(0);
    }
    symbols
}

fn row(row: &ast::Row, before: usize) -> Option<Symbol> {
    let bars = bars(before, row.bars().len());
    let (name, kind, name_range, role) = match row {
        ast::Row::Voice(it) => (it.register()?, SymbolKind::Voice, it.register_range()?, role(it)),
        ast::Row::Harmony(it) => ("harmony", SymbolKind::Harmony, it.head_range(), None),
    };
    let detail = role.into_iter().chain(bars).collect::<Vec<_>>().join(", ");
    Some(Symbol {
        name: name.to_owned(),
        detail: (!detail.is_empty()).then_some(detail),
        kind,
        range: row.range(),
        name_range,
        children: Vec::new(),
    })
}

/// "cantus quay-song", "counter".
fn role(row: &ast::VoiceRow) -> Option<String> {
    match (row.role()?, row.cantus_name()) {
        (ast::Role::Cantus, Some(name)) => Some(format!("cantus {name}")),
        (ast::Role::Cantus, None) => Some("cantus".to_owned()),
        (ast::Role::Counter, _) => Some("counter".to_owned()),
    }
}

/// "bar 1", "bars 5 to 8".
fn bars(before: usize, count: usize) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("bar {}", before + 1)),
        _ => Some(format!("bars {} to {}", before + 1, before + count)),
    }
}

fn licence(licence: &ast::Licence) -> Symbol {
    let rule = licence.rule();
    Symbol {
        name: rule.map_or("allow".to_owned(), |rule| format!("allow {rule}")),
        detail: licence.reason(),
        kind: SymbolKind::Licence,
        range: licence.range(),
        name_range: licence.rule_range().unwrap_or_else(|| licence.range()),
        children: Vec::new(),
    }
}
