//! Why an answer in a rulebook is refused, in the words of those who teach. Knows the form in which
//! refusals come, and asks the list of switches what is asked.

use super::question::{About, switches};
use crate::rules::switch::{Switch, Written};
use crate::words::{joined, nearest, quoted};

/// Says why an answer is refused, given the bare reason.
pub(super) fn told(reason: &str, about: About, key: &str) -> String {
    if let Some((name, known)) = unknown(reason, "unknown field") {
        return no_such_switch(name, &known, about);
    }
    let switch = switches().find(|it| it.about.name() == about.name() && it.switch.key == key);
    let switch = switch.map(|question| question.switch);
    let key = format!("`{key}` of {}", whole(about));
    match unknown(reason, "unknown variant") {
        Some((word, known)) => no_such_answer(word, &known, &key),
        None => [own_words(reason), form(&key, switch.as_ref())].concat(),
    }
}

/// The unknown word of a reason, and those that would be known.
fn unknown<'r>(reason: &'r str, kind: &str) -> Option<(&'r str, Vec<&'r str>)> {
    let mut words = reason.strip_prefix(kind)?.split('`').skip(1).step_by(2);
    Some((words.next()?, words.collect()))
}

fn no_such_switch(name: &str, known: &[&str], about: About) -> String {
    let whole = whole(about);
    let hint = match nearest(name, known.iter().copied()) {
        _ if known.is_empty() => "It has none, only a level.".to_owned(),
        Some(near) => format!("Perhaps `{near}` is meant."),
        None => format!("It has {}.", quoted(known, "and")),
    };
    format!("There is no switch `{name}` in {whole}. {hint}")
}

fn no_such_answer(word: &str, known: &[&str], key: &str) -> String {
    let near = nearest(word, known.iter().copied());
    let near = near.map_or_else(String::new, |near| format!(" Perhaps `{near}` is meant."));
    format!("`{word}` is no answer to {key}; the answers are {}.{near}", quoted(known, "and"))
}

/// What those who know the value say about it, such as how a note is spelt; nothing for reasons
/// that only compare types.
fn own_words(reason: &str) -> String {
    let bare =
        ["invalid ", "missing ", "wanted ", "expected ", "integer ", "floating", "duplicate "];
    if bare.iter().any(|start| reason.starts_with(start)) {
        return String::new();
    }
    let mut letters = reason.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    format!("{}. ", first.chain(letters).collect::<String>())
}

/// How the answer to a question is written.
fn form(key: &str, switch: Option<&Switch>) -> String {
    let Some(switch) = switch else {
        return format!("{key} is a heading of its own, with the answers below it.");
    };
    let forms: Vec<_> = switch.answers.iter().map(|answer| written(&answer.written)).collect();
    format!("{key}, {}, is answered for example by {}.", switch.question, joined(&forms, "or"))
}

fn written(answer: &Written) -> String {
    let value = answer.value();
    value.map_or_else(|| answer.words().to_owned(), |value| format!("`{value}`"))
}

/// What a question is about, as it is called in a sentence.
fn whole(about: About) -> String {
    match about {
        About::Rule(entry) => format!("rule `{}`", entry.name),
        About::Section(name) => format!("`[{name}]`"),
    }
}
