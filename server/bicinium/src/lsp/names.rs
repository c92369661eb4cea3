//! Names across sheets: where the cantus of a name is defined, who follows it, and what has to be changed
//! to give it another name.
//!
//! It must not know how the answers are put.

use std::ops::Range;

use bicinium_analysis::repertoire;
use bicinium_grammar::TextSize;
use tower_lsp::lsp_types::Url;

use super::library::normal;
use super::sheets::{Sheets, Written};
use crate::features::names::{self, Name, can_be_a_title, can_name_a_cantus};

/// A name at a place of a sheet.
pub(super) struct Named {
    /// The name.
    pub(super) name: Name,
    /// Where it stands, in bytes of the sheet.
    pub(super) range: Range<usize>,
}

/// Places in one sheet, in bytes, in the order of its text.
pub(super) struct Places {
    /// The sheet.
    pub(super) sheet: Written,
    /// The places.
    pub(super) ranges: Vec<Range<usize>>,
}

/// Which places of a name are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scope {
    /// Those that follow it.
    References,
    /// These and its definition.
    WithDefinition,
}

impl Scope {
    /// The scope that takes in the definition, or not.
    pub(super) fn of(takes_definition: bool) -> Self {
        if takes_definition { Self::WithDefinition } else { Self::References }
    }
}

/// The name that stands at a byte of a sheet.
pub(super) fn named(sheet: &Written, offset: usize) -> Option<Named> {
    let tree = sheet.tree();
    let index = tree.block_at(offset);
    let start = tree.start(index);
    let within = TextSize::try_from(offset.checked_sub(start)?).ok()?;
    let name = names::at(tree.blocks().get(index)?, within)?;
    let (Name::Cantus(_, own) | Name::Title(_, own)) = &name;
    let range = start + usize::from(own.start())..start + usize::from(own.end());
    Some(Named { name, range })
}

/// Where a name of a sheet is defined; `None` if it is nowhere, or if nothing refers to such names.
pub(super) fn defined(sheets: &Sheets, sheet: &Written, named: &Named) -> Option<Places> {
    match &named.name {
        Name::Cantus(name, _) => definition(sheets, sheet, name),
        Name::Title(..) => None,
    }
}

/// All places of a name of a sheet, sheet by sheet; `None` as with [`defined`].
pub(super) fn places(
    sheets: &Sheets,
    sheet: &Written,
    named: &Named,
    scope: Scope,
) -> Option<Vec<Places>> {
    let Name::Cantus(name, _) = &named.name else { return None };
    let defined = definition(sheets, sheet, name)?;
    let mut places = references(sheets, &defined.sheet.uri, name);
    if scope == Scope::WithDefinition {
        add(&mut places, defined);
    }
    Some(places)
}

/// Where the cantus of a name is defined that a sheet may follow; `None` if it is nowhere.
fn definition(sheets: &Sheets, sheet: &Written, name: &str) -> Option<Places> {
    let tree = sheet.tree();
    let mut uses: Vec<_> =
        tree.blocks().iter().flat_map(|block| block.ast().uses()).map(|it| it.path).collect();
    uses.sort();
    // Of several that are lent the last one counts, and before one's own.
    let lent = uses.iter().rev().filter_map(|path| sheets.used(&sheet.uri, path));
    let lent = lent.filter(|other| normal(&other.uri) != normal(&sheet.uri));
    lent.chain([sheet.clone()]).find_map(|sheet| {
        let range = own_definition(&sheet, name)?;
        Some(Places { sheet, ranges: vec![range] })
    })
}

/// Where a cantus is followed that is defined in a sheet, sheet by sheet.
fn references(sheets: &Sheets, lender: &Url, name: &str) -> Vec<Places> {
    let lender = normal(lender);
    let follows = |sheet: Written| {
        let ranges = in_sheet(&sheet, |tree| names::mentions(tree, name));
        if ranges.is_empty() {
            return None;
        }
        let defined = definition(sheets, &sheet, name)?;
        (normal(&defined.sheet.uri) == lender).then_some(Places { sheet, ranges })
    };
    sheets.all().filter_map(follows).collect()
}

/// What stands in the way of another name for this one, whatever it would be.
pub(super) fn renamable(sheets: &Sheets, sheet: &Written, named: &Named) -> Result<(), String> {
    match &named.name {
        Name::Title(..) => Ok(()),
        Name::Cantus(name, _) => defined_to_be_renamed(sheets, sheet, name).map(|_| ()),
    }
}

/// The definition of a cantus that gets another name.
fn defined_to_be_renamed(sheets: &Sheets, sheet: &Written, name: &str) -> Result<Places, String> {
    definition(sheets, sheet, name).ok_or_else(|| match repertoire::named(name) {
        Some(cantus) => format!(
            "{name} comes with bicinium ({}) and keeps its name. A cantus that is defined in a sheet \
             can have any other.",
            cantus.source
        ),
        None => format!("No cantus named {name} is defined in the sheets that are open or used."),
    })
}

/// The places at which a name has to be changed, or why it cannot be.
pub(super) fn renamed(
    sheets: &Sheets,
    sheet: &Written,
    named: &Named,
    new: &str,
) -> Result<Vec<Places>, String> {
    match &named.name {
        Name::Title(..) if can_be_a_title(new) => {
            Ok(vec![Places { sheet: sheet.clone(), ranges: vec![named.range.clone()] }])
        }
        Name::Title(..) => Err("A title stands on one line and has no quotation marks.".to_owned()),
        Name::Cantus(..) if !can_name_a_cantus(new) => Err(format!(
            "{new} cannot be the name of a cantus: that is one word without barlines, \
             parentheses, quotation or question marks."
        )),
        Name::Cantus(name, _) => cantus_renamed(sheets, sheet, name, new),
    }
}

fn cantus_renamed(
    sheets: &Sheets,
    sheet: &Written,
    name: &str,
    new: &str,
) -> Result<Vec<Places>, String> {
    let defined = defined_to_be_renamed(sheets, sheet, name)?;
    if name != new && repertoire::named(new).is_some() {
        return Err(format!("{new} is the name of a cantus that comes with bicinium."));
    }
    let mut places = references(sheets, &defined.sheet.uri, name);
    let taken = places.iter().map(|it| &it.sheet).chain([&defined.sheet]);
    let taken = taken.filter(|it| name != new && definition(sheets, it, new).is_some());
    if let Some(sheet) = taken.map(|it| it.uri.to_string()).next() {
        return Err(format!("There is a cantus named {new} already for {sheet}."));
    }
    add(&mut places, defined);
    Ok(places)
}

/// Adds places of a sheet to those that are known of it.
fn add(all: &mut Vec<Places>, more: Places) {
    let uri = normal(&more.sheet.uri);
    match all.iter_mut().find(|known| normal(&known.sheet.uri) == uri) {
        Some(known) => {
            known.ranges.extend(more.ranges);
            known.ranges.sort_by_key(|range| range.start);
        }
        None => all.push(more),
    }
}

/// The definition of a name in a sheet itself; of several the first.
fn own_definition(sheet: &Written, name: &str) -> Option<Range<usize>> {
    in_sheet(sheet, |tree| names::definition(tree, name).into_iter().collect()).into_iter().next()
}

fn in_sheet(
    sheet: &Written,
    find: impl Fn(&bicinium_grammar::BlockTree) -> Vec<bicinium_grammar::TextRange>,
) -> Vec<Range<usize>> {
    let tree = sheet.tree();
    let blocks = tree.blocks().iter().zip(tree.starts());
    let found = blocks.flat_map(|(block, start)| {
        let range = |own: bicinium_grammar::TextRange| {
            start + usize::from(own.start())..start + usize::from(own.end())
        };
        find(block).into_iter().map(range).collect::<Vec<_>>()
    });
    found.collect()
}
