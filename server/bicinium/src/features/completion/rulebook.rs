//! Which words may stand in a rulebook: tables, the switches of a rule, and what may be answered. Read from
//! the line and the head of its table, since a text that is being written is seldom whole.

use std::ops::Range;

use bicinium_analysis::Shelf;
use bicinium_analysis::rulebook::{About, LEVELS, switches};
use bicinium_analysis::rules::switch::{Switch, Written};
use bicinium_analysis::rules::{self, Entry};

use super::{Word, WordKind, Words};
use crate::features::page;
use crate::features::section::Section;

/// The words that may stand at a byte of a rulebook; `None` where there are none.
pub fn words(text: &str, offset: usize) -> Option<Words> {
    let (head, _) = text.split_at_checked(offset)?;
    let start = head.rfind('\n').map_or(0, |end| end + 1);
    let line = &head[start..];
    let found = match line.split_once('=') {
        _ if line.contains('#') => Vec::new(),
        Some((key, _)) => values(&table(&head[..start]), key.trim()),
        None if line.trim_start().starts_with('[') => tables(),
        None => keys(&table(&head[..start])),
    };
    let range = begun(text, start, offset);
    (!found.is_empty()).then_some(Words { range, words: found })
}

/// The word that is being written at a byte of a line.
fn begun(text: &str, line: usize, offset: usize) -> Range<usize> {
    let is_between = |letter: char| letter.is_whitespace() || matches!(letter, '=' | '[' | ',');
    let begun = text[line..offset].rsplit(is_between).next().unwrap_or_default();
    let is_end = |letter: char| letter.is_whitespace() || matches!(letter, '=' | ']' | ',');
    let rest = text[offset..].find(is_end).unwrap_or(text.len() - offset);
    offset - begun.len()..offset + rest
}

/// The names of the table that the lines above are in, without the species that it may be for.
fn table(above: &str) -> Vec<String> {
    let head = above.lines().rev().find(|line| line.trim_start().starts_with('['));
    let head = head.map(|line| line.trim().trim_matches(['[', ']'])).unwrap_or_default();
    let names: Vec<_> = head.split('.').filter(|name| !name.is_empty()).collect();
    let names = if names.first() == Some(&"species") { names.get(2..) } else { Some(&*names) };
    names.unwrap_or_default().iter().map(ToString::to_string).collect()
}

/// The tables that a rulebook may have.
fn tables() -> Vec<Word> {
    let sections = ["figures", "harmony", "harmony.vocabulary", "harmony.costs", "ranking"];
    let sections = sections.iter().map(|name| word(name, Vec::new()));
    let of_rule = |entry: &Entry| Word {
        text: format!("rules.{}", entry.name),
        kind: WordKind::Rule,
        detail: Some(entry.group.name().to_owned()),
        docs: page::summary(entry),
    };
    rules::all().map(of_rule).chain(sections).collect()
}

/// What may be set in a table.
fn keys(table: &[String]) -> Vec<Word> {
    let set = questions(table).map(|it| word(&it.key, vec![Section::Text(it.question)]));
    match table {
        [] => vec![
            word("title", text("What the school is called, in one line.")),
            word("extends", text("The rulebook from which this one differs.")),
        ],
        [rules, _] if rules == "rules" => {
            let level = word("level", text("How much a breach of the rule matters."));
            [level].into_iter().chain(set).collect()
        }
        _ => set.collect(),
    }
}

/// What may be answered.
fn values(table: &[String], key: &str) -> Vec<Word> {
    let quoted = |word: &str| format!("\"{word}\"");
    match (table, key) {
        ([], "extends") => {
            let shelf = Shelf::default();
            let books = shelf.all().map(|book| (quoted(&book.name), book.title.clone()));
            books.map(|(name, title)| Word::with_detail(name, WordKind::Rulebook, title)).collect()
        }
        ([rules, _], "level") if rules == "rules" => {
            LEVELS.iter().map(|level| value(&quoted(level), "")).collect()
        }
        _ => questions(table).filter(|it| it.key == key).flat_map(|it| answers(&it)).collect(),
    }
}

fn answers(switch: &Switch) -> Vec<Word> {
    let answers = switch.answers.iter().filter_map(|answer| match &answer.written {
        Written::So(_) => {
            let written = answer.written.value()?.to_string();
            Some(value(&written, &format!("{} ({})", answer.meaning, answer.holders)))
        }
        Written::Like(_) => None,
    });
    answers.collect()
}

/// The questions that a table answers.
fn questions(table: &[String]) -> impl Iterator<Item = Switch> {
    let name = match table {
        [rules, rule] if rules == "rules" => Some((true, rule.clone())),
        [section] => Some((false, section.clone())),
        _ => None,
    };
    let is_meant = move |about: About| {
        let is_rule = matches!(about, About::Rule(_));
        name.as_ref().is_some_and(|(rule, name)| *rule == is_rule && name == about.name())
    };
    switches().filter(move |question| is_meant(question.about)).map(|question| question.switch)
}

fn word(text: &str, docs: Vec<Section>) -> Word {
    Word { text: text.to_owned(), kind: WordKind::Notation, detail: None, docs }
}

fn value(text: &str, detail: &str) -> Word {
    let detail = (!detail.is_empty()).then(|| detail.to_owned());
    Word { text: text.to_owned(), kind: WordKind::Value, detail, docs: Vec::new() }
}

fn text(words: &str) -> Vec<Section> {
    vec![Section::Text(words.to_owned())]
}
