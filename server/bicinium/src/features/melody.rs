//! A cantus by its name: its key, how long it is, its notes and where it comes from. It must not know
//! which sheet is meant.

use std::sync::Arc;

use bicinium_analysis::repertoire;
use bicinium_analysis::score::lower;
use bicinium_analysis::score::settings::Settings;
use bicinium_grammar::{SheetTree, ast};
use bicinium_theory::{Key, Pitch};

use super::section::Section;
use super::words::count;

/// A cantus.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Melody {
    /// The key that it is in.
    pub key: Key,
    /// Its notes, one a bar.
    pub notes: Arc<[Pitch]>,
    /// Where it comes from, in words.
    pub source: String,
}

impl Melody {
    /// The cantus of a name that the repertoire holds.
    pub fn of_repertoire(name: &str) -> Option<Self> {
        let cantus = repertoire::named(name)?;
        let notes = cantus.defined.notes.clone();
        Some(Self { key: cantus.key, notes, source: cantus.source.to_owned() })
    }

    /// The first cantus of a name that a sheet defines; `source` says in words which sheet it is.
    pub fn of_sheet(sheet: &SheetTree, name: &str, source: String) -> Option<Self> {
        let mut settings = Settings::default();
        for block in sheet.blocks() {
            match block.ast() {
                ast::Block::Preamble(block) => {
                    settings = settings.with(block.settings(), &mut Vec::new());
                }
                ast::Block::Cantus(block) if block.name().as_deref() == Some(name) => {
                    let key = settings.with(block.settings(), &mut Vec::new()).key;
                    let notes = lower::cantus(&block, &mut Vec::new())?.notes;
                    return Some(Self { key, notes, source });
                }
                _ => {}
            }
        }
        None
    }

    /// What is said about it.
    pub fn say(&self, name: &str) -> Vec<Section> {
        let notes = self.notes.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        vec![
            Section::Heading(name.to_owned()),
            Section::Fact("key", format!("{} {}", self.key.tonic, self.key.mode.name())),
            Section::Fact("length", count(self.notes.len(), "bar", "bars")),
            Section::Fact("notes", notes),
            Section::Fact("source", self.source.clone()),
        ]
    }
}
