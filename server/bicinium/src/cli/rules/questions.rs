//! Every question on which schools disagree, with its answers: `bicinium rules --switches`. It
//! must not know what is asked.

use std::collections::BTreeSet;
use std::io;

use bicinium_analysis::rulebook::{About, Question, switches};
use bicinium_analysis::rules::{self, Entry, page::Page};
use bicinium_analysis::{Rulebook, Shelf};

use crate::cli::Outcome;
use crate::cli::output::Output;
use crate::cli::style::{STRONG, painted};
use crate::cli::switches::told;
use crate::cli::words::{hanging, wrapped};
use crate::features::levels::Levels;

const INTRODUCTION: &str = "\
What a rulebook can decide: the level of a rule, and the answers to questions about it. Below each \
question stand the answers, each with the sources that hold it; an arrow leads to the rulebooks that \
answer so. A rule without such questions is told where the rulebooks give it different levels.";

/// Lists the questions rule by rule, then those about figures and harmony.
pub(super) fn list(shelf: &Shelf, output: &mut Output) -> io::Result<Outcome> {
    output.line(&wrapped(INTRODUCTION, ""))?;
    let questions: Vec<Question> = switches().collect();
    let rules: Vec<_> = rules::all().collect();
    for group in rules.chunk_by(|a, b| a.group == b.group) {
        let told = group.iter().filter_map(|entry| rule(entry, &questions, shelf));
        let told: Vec<_> = told.collect();
        if let (Some(first), false) = (group.first(), told.is_empty()) {
            let title = painted(STRONG, &first.group.name().to_uppercase());
            output.line(&format!("\n{title}\n\n{}", told.join("\n\n")))?;
        }
    }
    sections(&questions, shelf, output)?;
    Ok(Outcome::Clean)
}

fn sections(questions: &[Question], shelf: &Shelf, output: &mut Output) -> io::Result<()> {
    for part in questions.chunk_by(|a, b| section(a) == section(b)) {
        let Some(title) = part.first().and_then(section) else { continue };
        let told: Vec<_> = part.iter().map(|question| told(question, shelf)).collect();
        output.line(&format!("\n{}\n{}", painted(STRONG, &title), told.join("\n")))?;
    }
    Ok(())
}

/// A section as a rulebook heads it, if a question is about one.
fn section(question: &Question) -> Option<String> {
    match question.about {
        About::Rule(_) => None,
        About::Section(name) => Some(format!("[{name}]")),
    }
}

/// A rule with its levels and its questions; without questions only if the levels differ.
fn rule(entry: &Entry, questions: &[Question], shelf: &Shelf) -> Option<String> {
    let own = questions.iter().filter(|question| question.about.name() == entry.name);
    let mut told: Vec<_> = own.map(|question| told(question, shelf)).collect();
    if told.is_empty() {
        if different(entry, shelf).len() == 1 {
            return None;
        }
        let differences = Page::of(entry.source).differences;
        told.push(hanging(&format!("schools: {differences}"), "  ", "    "));
    }
    Some(format!("{}\n{}\n{}", painted(STRONG, entry.name), levels(entry, shelf), told.join("\n")))
}

/// The levels that rulebooks give a rule, each once.
fn different(entry: &Entry, shelf: &Shelf) -> BTreeSet<String> {
    shelf.all().map(|book| Levels::of(book, entry.name).words()).collect()
}

/// The levels of a rule: one, if all rulebooks give it the same.
fn levels(entry: &Entry, shelf: &Shelf) -> String {
    let different = different(entry, shelf);
    let own = |book: &Rulebook| format!("{} {}", book.name, Levels::of(book, entry.name).words());
    let levels = match different.first() {
        Some(level) if different.len() == 1 => level.clone(),
        _ => shelf.all().map(|book| own(book)).collect::<Vec<_>>().join("; "),
    };
    hanging(&format!("level: {levels}"), "  ", "    ")
}
