//! What may stand in a licence: the names of rules, those first that something was found by, then where
//! it was found, and the words between.

use bicinium_analysis::rules::{self, Entry};
use bicinium_analysis::{Finding, Place};

use super::{Word, WordKind};
use crate::features::page;

/// All rules; first those by which something stands that was found here.
pub(super) fn rules(findings: &[Finding]) -> Vec<Word> {
    let stands = |entry: &Entry| {
        findings.iter().filter(|found| found.stands() && found.rule == entry.name).count()
    };
    let mut entries: Vec<_> = rules::all().map(|entry| (stands(entry), entry)).collect();
    entries.sort_by_key(|(found, entry)| (*found == 0, entry.name));
    entries.into_iter().map(|(found, entry)| rule(found, entry)).collect()
}

fn rule(found: usize, entry: &Entry) -> Word {
    let times =
        if found == 1 { "found once here".to_owned() } else { format!("found {found} times here") };
    Word {
        text: entry.name.to_owned(),
        kind: WordKind::Rule,
        detail: Some(if found > 0 { times } else { entry.group.name().to_owned() }),
        docs: page::summary(entry),
    }
}

/// What may follow the name of a rule, given the words after it.
pub(super) fn clauses(rule: &str, said: &[&str], findings: &[Finding]) -> Vec<Word> {
    let notation = |words: &[&str]| {
        words.iter().map(|word| Word::of_notation(word, WordKind::Notation)).collect()
    };
    match said {
        [] => notation(&["at", "because"]),
        ["at"] => places(rule, findings),
        ["at", _] => notation(&["to", "because"]),
        ["at", _, "to", _] => notation(&["because"]),
        _ => Vec::new(),
    }
}

/// Where something stands that was found by a rule: the bar, and the beat where it is a later one.
fn places(rule: &str, findings: &[Finding]) -> Vec<Word> {
    let here = findings.iter().filter(|found| found.stands() && found.rule == rule);
    let mut words: Vec<Word> = Vec::new();
    for found in here {
        let Some(place) = found.place else { continue };
        let text = written(place);
        if words.iter().all(|word| word.text != text) {
            words.push(Word::with_detail(text, WordKind::Value, found.message.clone()));
        }
    }
    words
}

fn written(place: Place) -> String {
    match place.beat {
        1 => place.bar.to_string(),
        beat => format!("{}.{beat}", place.bar),
    }
}
