//! The repertoire: cantus firmi in the public domain that every sheet may name without defining them.
//! They are written down as sheets. A definition of the same name in a sheet, or in one that it uses,
//! is nearer and holds instead. Must not know what is written against them.

use std::sync::LazyLock;

use bicinium_grammar::{SheetTree, ast};
use bicinium_theory::Key;

use crate::score::lower::{self, Defined};
use crate::score::settings::Settings;
use crate::words;

/// A cantus of the repertoire.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cantus {
    /// Its name and its notes, one a bar.
    pub defined: Defined,
    /// The key that it is in.
    pub key: Key,
    /// Where it was published.
    pub source: &'static str,
}

/// The sheets, each with where its melodies were published.
const SHEETS: [(&str, &str); 2] = [
    ("J. J. Fux, Gradus ad Parnassum, Vienna 1725, book II", include_str!("fux-1725.bicinium")),
    (
        "F. J. Lehmann, A Treatise on Simple Counterpoint in Forty Lessons, 1907",
        include_str!("lehmann-1907.bicinium"),
    ),
];

static ALL: LazyLock<Vec<Cantus>> =
    LazyLock::new(|| SHEETS.iter().flat_map(|(source, text)| read(source, text)).collect());

/// All of them, by source.
pub fn all() -> &'static [Cantus] {
    &ALL
}

/// The cantus of a name.
pub fn named(name: &str) -> Option<&'static Cantus> {
    all().iter().find(|cantus| cantus.defined.name == name)
}

/// The cantus whose name is nearest to one that does not exist, if it is near enough to be meant.
pub fn nearest(misspelt: &str) -> Option<&'static Cantus> {
    words::nearest(misspelt, all().iter().map(|cantus| cantus.defined.name.as_str()))
        .and_then(named)
}

fn read(source: &'static str, text: &str) -> Vec<Cantus> {
    let sheet = SheetTree::parse(text);
    let cantus = sheet.blocks().iter().filter_map(|block| match block.ast() {
        ast::Block::Cantus(block) => Some(block),
        _ => None,
    });
    let read = cantus.filter_map(|block| {
        let findings = &mut Vec::new();
        let key = Settings::default().with(block.settings(), findings).key;
        Some(Cantus { defined: lower::cantus(&block, findings)?, key, source })
    });
    read.collect()
}
