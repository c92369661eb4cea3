//! A switch as it is shown: the question, what may be answered, by which sources, and which
//! rulebooks answer so. It must not know what is asked.

use bicinium_analysis::rulebook::Question;
use bicinium_analysis::rules::switch::{Answer, Switch};
use bicinium_analysis::{Rulebook, Shelf};
use toml::Value;

use super::style::{FAINT, STRONG, painted};
use super::words::hanging;
use crate::features::by_species::BySpecies;

/// A question with its answers and the rulebooks that give them.
pub(super) fn told(question: &Question, shelf: &Shelf) -> String {
    let switch = &question.switch;
    let given = given(question, shelf);
    let mut lines = vec![asked(switch)];
    for answer in &switch.answers {
        lines.push(described(answer));
        lines.extend(answer.written.value().and_then(|value| who(&given, &value)).map(arrow));
    }
    for value in unlisted(switch, &given) {
        lines.push(hanging(&as_written(value), "    ", "        "));
        lines.extend(who(&given, value).map(arrow));
    }
    lines.join("\n")
}

fn asked(switch: &Switch) -> String {
    let text = hanging(&format!("{}: {}", switch.key, switch.question), "  ", "    ");
    text.replacen(&switch.key, &painted(STRONG, &switch.key), 1)
}

/// The answers of rulebooks that are not in the list, each once.
fn unlisted<'g>(switch: &Switch, given: &'g [Given]) -> Vec<&'g Value> {
    let mut unlisted = Vec::new();
    for Given { value, .. } in given {
        if switch.answer(value).is_none() && !unlisted.contains(&value) {
            unlisted.push(value);
        }
    }
    unlisted
}

/// An answer that is given, and by whom: a rulebook, and in which species.
pub(super) struct Given {
    value: Value,
    who: String,
}

/// The answers of all rulebooks.
pub(super) fn given(question: &Question, shelf: &Shelf) -> Vec<Given> {
    shelf.all().flat_map(|book| given_by(book, question)).collect()
}

fn given_by(book: &Rulebook, question: &Question) -> Vec<Given> {
    let answers = BySpecies::of(book, question.about, |rules| question.answered(rules));
    let different = answers.different().into_iter();
    let given = different.filter_map(|answer| {
        let places = answers.places(answer).map(|places| format!(" {places}"));
        let who = format!("{}{}", book.name, places.unwrap_or_default());
        answer.map(|value| Given { value: value.clone(), who })
    });
    given.collect()
}

fn described(answer: &Answer) -> String {
    let text = format!("{}: {} ({})", answer.written.words(), answer.meaning, answer.holders);
    hanging(&text, "    ", "        ")
}

/// The rulebooks that give an answer: "modal; tonal in species 1".
pub(super) fn who(given: &[Given], value: &Value) -> Option<String> {
    let meant = given.iter().filter(|given| given.value == *value);
    let names: Vec<_> = meant.map(|given| given.who.as_str()).collect();
    (!names.is_empty()).then(|| names.join("; "))
}

fn arrow(who: impl std::fmt::Display) -> String {
    let lines = hanging(&format!("→ {who}"), "      ", "        ");
    lines.lines().map(|line| painted(FAINT, line)).collect::<Vec<_>>().join("\n")
}

/// A value as a rulebook writes it; words without their quotation marks.
fn as_written(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), ToOwned::to_owned)
}
