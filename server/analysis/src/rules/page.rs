//! The page of a rule, read from the comment that opens its file: parts under fixed headings, the
//! last of which, the switches, only some rules have.
//! What `explain` prints, what a hover on a finding shows and what the link of a finding leads to.

use super::comment::part;
use super::switch::{self, Switch};

/// The page of a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// What it finds.
    pub finds: String,
    /// Why it matters.
    pub why: String,
    /// A sheet that breaks it.
    pub broken: String,
    /// The same sheet, mended.
    pub mended: String,
    /// The published sources it stands in.
    pub sources: String,
    /// Where schools differ.
    pub differences: String,
    /// What a rulebook decides about it, beside its level.
    pub switches: Vec<Switch>,
}

/// The headings of a page, in order.
pub const HEADINGS: [&str; 7] = [
    "What it finds",
    "Why it matters",
    "Broken",
    "Mended",
    "Sources",
    "Where schools differ",
    switch::HEADING,
];

impl Page {
    /// Reads the page that opens the file of a rule. A part that is missing is empty.
    pub fn of(source: &str) -> Self {
        let part = |heading: &str| part(source, heading);
        Self {
            finds: joined(&part(HEADINGS[0])),
            why: joined(&part(HEADINGS[1])),
            broken: sheet(part(HEADINGS[2])),
            mended: sheet(part(HEADINGS[3])),
            sources: joined(&part(HEADINGS[4])),
            differences: joined(&part(HEADINGS[5])),
            switches: Switch::all_of(source),
        }
    }

    /// The first sentence of what it finds: the rule in one line.
    pub fn summary(&self) -> &str {
        self.finds
            .split_once(". ")
            .map_or(self.finds.as_str(), |(first, _)| first)
            .trim_end_matches('.')
    }
}

/// Paragraphs with their lines joined, an empty line between them.
fn joined(lines: &[&str]) -> String {
    let paragraphs = lines.split(|line| line.is_empty()).filter(|lines| !lines.is_empty());
    paragraphs.map(|lines| lines.join(" ")).collect::<Vec<_>>().join("\n\n")
}

/// The sheet between the fences.
fn sheet(lines: Vec<&str>) -> String {
    let inside = lines.into_iter().skip_while(|line| !line.starts_with("```")).skip(1);
    let lines = inside.take_while(|line| !line.starts_with("```"));
    lines.flat_map(|line| [line, "\n"]).collect()
}
