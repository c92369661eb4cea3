//! `bicinium explain`: the page of a rule, with its example marked by the judge. It must not know
//! what any rule is about.

use std::io;
use std::sync::Arc;

use bicinium_analysis::rules::{self, page::Page};
use bicinium_analysis::{Sheet, Shelf, rulebook};

use super::Outcome;
use super::arguments::Explain;
use super::lines::Lines;
use super::output::Output;
use super::picture::whole;
use super::style::{STRONG, painted};
use super::switches::told;
use super::telling::{heading, marks, reason};
use super::words::wrapped;
use crate::features::levels::Levels;

/// Explains a rule.
pub(super) fn run(options: &Explain, output: &mut Output) -> io::Result<Outcome> {
    let Some(entry) = rules::named(&options.rule) else {
        output.complain(&unknown(&options.rule));
        return Ok(Outcome::Failed);
    };
    let page = Page::of(entry.source);
    output.line(&painted(STRONG, entry.name))?;
    output.line(&wrapped(&page.finds, "  "))?;
    section(output, "Why it matters", &wrapped(&page.why, "  "))?;
    section(output, "Broken", &broken(&page.broken, entry.name))?;
    section(output, "Mended", whole(&Lines::new(&page.mended), &[]).trim_end())?;
    section(output, "Where schools differ", &wrapped(&page.differences, "  "))?;
    section(output, "Levels", &levels(entry.name))?;
    let switches = switches(entry.name);
    if !switches.is_empty() {
        section(output, "Switches", &switches.join("\n"))?;
    }
    section(output, "Sources", &wrapped(&page.sources, "  "))?;
    Ok(Outcome::Clean)
}

fn unknown(name: &str) -> String {
    match rules::nearest(name) {
        Some(entry) => format!("There is no rule {name}. Perhaps {} is meant.", entry.name),
        None => format!("There is no rule {name}. `bicinium rules` lists them all."),
    }
}

fn section(output: &mut Output, title: &str, body: &str) -> io::Result<()> {
    output.line(&format!("\n{}\n{body}", painted(STRONG, title)))
}

/// A sheet with what a rule finds in it.
fn broken(text: &str, rule: &str) -> String {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let found: Vec<_> = snapshot.findings().filter(|found| found.finding.rule == rule).collect();
    let marks: Vec<_> = found.iter().flat_map(|found| marks(*found)).collect();
    let mut told = whole(&Lines::new(text), &marks);
    for located in found {
        let finding = located.finding;
        told = format!("{told}\n  {}\n{}\n", heading(finding), reason(finding));
    }
    told.trim_end().to_owned()
}

fn levels(rule: &str) -> String {
    let shelf = Shelf::default();
    let line =
        |(name, levels): (&String, Levels)| wrapped(&format!("{name}: {}", levels.words()), "  ");
    let levels = shelf.all().map(|rulebook| (&rulebook.name, Levels::of(rulebook, rule)));
    levels.map(line).collect::<Vec<_>>().join("\n")
}

/// The switches of a rule, each with its answers.
fn switches(rule: &str) -> Vec<String> {
    let shelf = Shelf::default();
    let own = rulebook::switches().filter(|question| question.about.name() == rule);
    own.map(|question| told(&question, &shelf)).collect()
}
