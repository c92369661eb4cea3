//! The catalogue of rules as a table of levels. It must not know what any rule is about.

use std::fmt::Write;
use std::io;

use bicinium_analysis::Shelf;
use bicinium_analysis::rules::{self, Entry, Group, page::Page};

use crate::cli::Outcome;
use crate::cli::output::Output;
use crate::cli::style::{STRONG, painted};
use crate::cli::words::WIDTH;
use crate::features::levels::Levels;

/// Lists the rules by group.
pub(super) fn list(shelf: &Shelf, output: &mut Output) -> io::Result<Outcome> {
    let table = Table::new(shelf);
    let mut group = None;
    for entry in rules::all() {
        let last = group.replace(entry.group);
        if last != Some(entry.group) {
            let gap = if last.is_some() { "\n" } else { "" };
            output.line(&format!("{gap}{}", table.heading(entry.group)))?;
        }
        output.line(&table.row(entry))?;
    }
    output.line("\n* differs from species to species: `bicinium explain RULE` tells how")?;
    Ok(Outcome::Clean)
}

struct Table<'s> {
    shelf: &'s Shelf,
    /// The width of the names, in columns.
    names: usize,
    /// The width of a level.
    levels: usize,
}

impl<'s> Table<'s> {
    fn new(shelf: &'s Shelf) -> Self {
        let names = rules::all().map(|entry| entry.name.len()).max().unwrap_or(0);
        let levels = shelf.names().map(str::len).max().unwrap_or(0).max("caution*".len());
        Self { shelf, names, levels }
    }

    fn heading(&self, group: Group) -> String {
        let mut heading = format!("{:<width$}", group.name(), width = self.names + 3);
        for name in self.shelf.names() {
            // Writing to a string does not fail.
            let _ = write!(heading, " {name:<width$}", width = self.levels);
        }
        painted(STRONG, heading.trim_end())
    }

    fn row(&self, entry: &Entry) -> String {
        let mut left = format!("  {:<width$} ", entry.name, width = self.names);
        for rulebook in self.shelf.all() {
            let level = Levels::of(rulebook, entry.name).short();
            // Writing to a string does not fail.
            let _ = write!(left, " {level:<width$}", width = self.levels);
        }
        left.push(' ');
        let below = " ".repeat(left.len());
        let options = textwrap::Options::new(WIDTH).initial_indent(&left).subsequent_indent(&below);
        textwrap::fill(in_short(Page::of(entry.source).summary()), options)
    }
}

/// A summary without the cases that it lists.
pub(super) fn in_short(summary: &str) -> &str {
    summary.split(": ").next().unwrap_or(summary)
}
