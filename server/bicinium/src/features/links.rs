//! What a sheet names that can be opened: other sheets, rulebooks, the pages of rules. Where any of
//! them lies is decided by whoever opens it.

use bicinium_analysis::sheet::Judged;
use bicinium_grammar::TextRange;
use bicinium_grammar::ast::{self, SettingValue};

/// A place in the text that leads somewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The place, counted from the start of its block.
    pub range: TextRange,
    /// Where it leads.
    pub target: Target,
}

/// Where a link leads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// To the sheet at a path, relative to the one that names it.
    Sheet(String),
    /// To a rulebook, by its name or its path.
    Rulebook(String),
    /// To the page of a rule.
    Rule(String),
}

/// The links of a block, in the order of its text.
pub fn links(block: &Judged) -> Vec<Link> {
    let tree = block.tree.ast();
    let uses = tree.uses().into_iter().map(|it| (it.path_range, Target::Sheet(it.path)));
    let rulebooks = tree.settings().into_iter().filter_map(|setting| match setting.value {
        SettingValue::Rulebook(name) => Some((setting.value_range, Target::Rulebook(name))),
        _ => None,
    });
    let licences = match &tree {
        ast::Block::Exercise(exercise) => exercise.licences(),
        ast::Block::Preamble(_) | ast::Block::Cantus(_) => Vec::new(),
    };
    let rules = licences.iter().filter_map(|it| Some((it.rule_range()?, Target::Rule(it.rule()?))));
    let link = |(range, target): (TextRange, Target)| Link { range, target };
    let mut links: Vec<_> = uses.chain(rulebooks).chain(rules).map(link).collect();
    links.sort_by_key(|link| link.range.start());
    links
}
