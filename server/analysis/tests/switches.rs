//! The lists of switches against what the rules really accept: nothing is missing, nothing is made
//! up, and what the built-in rulebooks answer is listed with its sources. Which names a rule
//! accepts is told by its own refusal of a name that it cannot know.

#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};

use bicinium_analysis::rulebook::{About, Question, Rulebook, Shelf, switches};
use bicinium_analysis::rules::{self, switch::Written};
use bicinium_analysis::score::Writing;
use toml::{Table, Value};

/// A value that no switch accepts, of the kind that most of them have.
const UNHEARD_OF: &str = "unheard-of";

fn built_in(name: &str) -> Table {
    let path = format!("{}/src/rulebook/{name}.rulebook.toml", env!("CARGO_MANIFEST_DIR"));
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The names in backquotes of a message.
fn quoted(message: &str) -> BTreeSet<String> {
    message.split('`').skip(1).step_by(2).map(ToOwned::to_owned).collect()
}

/// What stands in place of a table of a rulebook that extends `tonal`, or why it is refused.
fn try_section(section: &str, key: &str, value: Value) -> Result<(), String> {
    let keys = section.split('.').chain(key.split('.'));
    let inner = keys
        .rev()
        .fold(value, |inner, key| Value::Table(Table::from_iter([(key.to_owned(), inner)])));
    let Value::Table(mut table) = inner else { panic!("{key} has a place") };
    for (key, value) in [("name", "own"), ("title", "A school"), ("extends", "tonal")] {
        table.insert(key.to_owned(), value.into());
    }
    let text = toml::to_string(&table).unwrap();
    let added = Shelf::default().add(&text);
    added.map(|_| ()).map_err(|problems| {
        problems.iter().map(|problem| problem.message.as_str()).collect::<Vec<_>>().join("\n")
    })
}

/// Where the switches of something stand in a rulebook.
fn section(about: About) -> String {
    match about {
        About::Rule(entry) => format!("rules.{}", entry.name),
        About::Section(name) => name.to_owned(),
    }
}

/// The names that stand under each table of switches in the lists, without what stands before the
/// last full stop.
fn listed() -> BTreeMap<String, BTreeSet<String>> {
    let mut listed: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for entry in rules::all() {
        listed.insert(section(About::Rule(entry)), BTreeSet::new());
    }
    for question in switches() {
        let mut place = section(question.about);
        for key in question.switch.key.split('.') {
            listed.entry(place.clone()).or_default().insert(key.to_owned());
            place = format!("{place}.{key}");
        }
    }
    listed
}

/// The names that a table of switches accepts. One without any accepts nothing.
fn accepted(place: &str) -> BTreeSet<String> {
    let refusal = match place.strip_prefix("rules.") {
        // A level stands beside the switches and is not one.
        Some(rule) => {
            let table = Table::from_iter([(UNHEARD_OF.to_owned(), true.into())]);
            (rules::named(rule).unwrap().build)(table).unwrap_err().message().to_owned()
        }
        None => try_section(place, UNHEARD_OF, true.into()).unwrap_err(),
    };
    let expected = refusal.split_once("expected").or_else(|| refusal.split_once("It has"));
    quoted(expected.unwrap_or_default().1)
}

#[test]
fn every_switch_is_listed_and_nothing_else() {
    for (place, names) in listed() {
        // The vocabulary has the names of modes, which are no switches of a struct.
        if place != "harmony.vocabulary" {
            assert_eq!(names, accepted(&place), "{place}");
        }
    }
}

#[test]
fn every_mode_with_a_vocabulary_is_listed() {
    let tonal = built_in("tonal");
    let modes = tonal["harmony"]["vocabulary"].as_table().unwrap();
    let modes: BTreeSet<_> = modes.keys().cloned().collect();
    assert_eq!(listed()["harmony.vocabulary"], modes);
}

#[test]
fn every_question_and_every_answer_says_what_it_means_and_who_holds_it() {
    for Question { about, switch } in switches() {
        let place = format!("{}: {switch:#?}", section(about));
        assert!(!switch.key.is_empty() && !switch.question.is_empty(), "{place}");
        assert!(!switch.answers.is_empty(), "{place}");
        for answer in &switch.answers {
            let parts = [answer.written.words(), &answer.meaning, &answer.holders];
            assert!(parts.iter().all(|part| !part.trim().is_empty()), "{place}");
        }
    }
}

#[test]
fn every_listed_answer_is_accepted() {
    for Question { about, switch } in switches() {
        for value in switch.answers.iter().filter_map(|answer| answer.written.value()) {
            let tried = try_section(&section(about), &switch.key, value);
            assert_eq!(tried, Ok(()), "{} of {}", switch.key, about.name());
        }
    }
}

#[test]
fn every_word_that_is_accepted_is_listed() {
    let mut compared = 0;
    for Question { about, switch } in switches() {
        let values = switch.answers.iter().filter_map(|answer| answer.written.value());
        let words = values.filter_map(|value| value.as_str().map(ToOwned::to_owned));
        let refusal = try_section(&section(about), &switch.key, UNHEARD_OF.into()).unwrap_err();
        let Some((_, expected)) = refusal.split_once("the answers are") else { continue };
        assert_eq!(words.collect::<BTreeSet<_>>(), quoted(expected), "{}", section(about));
        compared += 1;
    }
    assert!(compared > 20);
}

#[test]
fn what_the_built_in_rulebooks_answer_is_listed() {
    let mut answered = 0;
    for rulebook in Shelf::default().all() {
        for question in switches() {
            for value in values(rulebook, &question) {
                let is_open = question.switch.answers.iter().any(is_described);
                let is_listed = question.switch.answer(value).is_some();
                assert!(is_open || is_listed, "{}: {question:#?} {value}", rulebook.name);
                answered += 1;
            }
        }
    }
    assert!(answered > 100);
}

fn values<'r>(rulebook: &'r Rulebook, question: &Question) -> Vec<&'r Value> {
    let rules = Writing::ALL.iter().map(|writing| rulebook.rules(*writing));
    rules.filter_map(|rules| question.answered(rules)).collect()
}

fn is_described(answer: &bicinium_analysis::rules::switch::Answer) -> bool {
    matches!(answer.written, Written::Like(_))
}

#[test]
fn every_question_about_a_rule_is_answered_for_every_species() {
    for rulebook in Shelf::default().all() {
        for question in switches().filter(|it| matches!(it.about, About::Rule(_))) {
            let values = values(rulebook, &question).len();
            assert_eq!(values, Writing::ALL.len(), "{}: {question:#?}", rulebook.name);
        }
    }
}
