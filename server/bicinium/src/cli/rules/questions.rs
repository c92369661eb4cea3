//! Every question on which schools disagree, with its answers: `bicinium rules --switches`. It
//! must not know what is asked.

use std::collections::BTreeSet;
use std::io;
use std::sync::Arc;

use bicinium_analysis::rulebook::{About, Question, switches};
use bicinium_analysis::rules::Entry;
use bicinium_analysis::{Rulebook, Shelf};

use crate::cli::Outcome;
use crate::cli::output::Output;
use crate::cli::style::{STRONG, painted};
use crate::cli::switches::told;
use crate::cli::words::{hanging, wrapped};
use crate::features::levels::Levels;

const INTRODUCTION: &str = "\
What a rulebook can decide beside the level of a rule. Below each question stand the answers, each \
with the sources that hold it; an arrow leads to the rulebooks that answer so.";

/// Lists the questions rule by rule, then those about figures and harmony.
pub(super) fn list(shelf: &Shelf, output: &mut Output) -> io::Result<Outcome> {
    output.line(&wrapped(INTRODUCTION, ""))?;
    let questions: Vec<Question> = switches().collect();
    let mut part = None;
    for about in questions.chunk_by(|a, b| a.about.name() == b.about.name()) {
        let Some(first) = about.first() else { continue };
        let title = title(first.about);
        if part.as_ref() != Some(&title) {
            output.line(&format!("\n{}", painted(STRONG, &title)))?;
            part = Some(title);
        }
        if let About::Rule(entry) = first.about {
            output.line(&format!("\n{}", head(entry, shelf)))?;
        }
        for question in about {
            output.line(&told(question, shelf))?;
        }
    }
    Ok(Outcome::Clean)
}

/// The group of a rule in capitals, or the section as a rulebook heads it.
fn title(about: About) -> String {
    match about {
        About::Rule(entry) => entry.group.name().to_uppercase(),
        About::Section(name) => format!("[{name}]"),
    }
}

/// The name of a rule with its levels: one, if all rulebooks give it the same.
fn head(entry: &Entry, shelf: &Shelf) -> String {
    let words = |book: &Arc<Rulebook>| Levels::of(book, entry.name).words();
    let different: BTreeSet<String> = shelf.all().map(words).collect();
    let own = |book: &Arc<Rulebook>| format!("{} {}", book.name, words(book));
    let levels = match different.first() {
        Some(level) if different.len() == 1 => level.clone(),
        _ => shelf.all().map(own).collect::<Vec<_>>().join("; "),
    };
    let levels = hanging(&format!("level: {levels}"), "  ", "    ");
    format!("{}\n{levels}", painted(STRONG, entry.name))
}
