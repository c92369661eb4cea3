//! How a school differs from the one that it extends, in sentences: rule by rule, with the species
//! where it does not differ in all. It must not know what any rule is about.

use std::collections::BTreeSet;

use bicinium_analysis::Rulebook;
use bicinium_analysis::rulebook::{About, Question, Rules, switches};
use bicinium_analysis::rules::switch::Switch;
use bicinium_analysis::rules::{self, Entry};
use bicinium_analysis::score::Writing;
use toml::Value;

use super::by_species::BySpecies;
use super::words::{capitalized, list};

/// The harmonies that a school has; told by what is added and what is missing.
const VOCABULARY: [&str; 2] = ["harmony", "vocabulary"];

/// What differs about one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The rule, or the section of the rulebook in brackets.
    pub about: String,
    /// What differs, a sentence each.
    pub sentences: Vec<String>,
}

/// What differs between a rulebook and the one that it extends.
pub fn differences(own: &Rulebook, base: &Rulebook) -> Vec<Difference> {
    let schools = Schools { own, base };
    let questions: Vec<_> = switches().collect();
    let rules = rules::all().map(|entry| {
        let about = entry.name.to_owned();
        let level = schools.level(entry);
        Difference { about, sentences: [level, schools.answers(entry.name, &questions)].concat() }
    });
    let names = questions.iter().filter_map(|question| match question.about {
        About::Section(name) => Some(name),
        About::Rule(_) => None,
    });
    let names: BTreeSet<_> = names.collect();
    let sections = names.into_iter().map(|name| Difference {
        about: format!("[{name}]"),
        sentences: schools.answers(name, &questions),
    });
    let vocabulary = Difference {
        about: format!("[{}]", VOCABULARY.join(".")),
        sentences: schools.vocabulary(),
    };
    let all = rules.chain(sections).chain([vocabulary]);
    all.filter(|difference| !difference.sentences.is_empty()).collect()
}

/// A school and the one that it extends.
struct Schools<'r> {
    own: &'r Rulebook,
    base: &'r Rulebook,
}

impl<'r> Schools<'r> {
    /// What both say, species by species.
    fn both<T: PartialEq>(&self, about: About, ask: impl Fn(&'r Rules) -> T) -> BySpecies<(T, T)> {
        BySpecies::each(about, |writing| {
            (ask(self.own.rules(writing)), ask(self.base.rules(writing)))
        })
    }

    fn level(&self, rule: &'static Entry) -> Vec<String> {
        let both = self.both(About::Rule(rule), |rules| {
            rules.level(rule.name).map_or("off", |level| level.name())
        });
        let base = &self.base.name;
        told(&both, |(own, old)| format!("it {}; in {base} it {}", is(own), is(old)))
    }

    /// What is answered otherwise about a rule or a section.
    fn answers(&self, about: &str, questions: &[Question]) -> Vec<String> {
        let own = questions.iter().filter(|it| it.about.name() == about && !is_vocabulary(it));
        own.flat_map(|question| self.answer(question)).collect()
    }

    fn answer(&self, question: &Question) -> Vec<String> {
        let switch = &question.switch;
        // Where the rule is switched off, its answers mean nothing.
        let asked = |rules: &'r Rules| match question.about {
            About::Rule(entry) if rules.level(entry.name).is_none() => None,
            _ => question.answered(rules),
        };
        let both = BySpecies::each(question.about, |writing| {
            let own = asked(self.own.rules(writing));
            (own, own.and(question.answered(self.base.rules(writing))))
        });
        told(&both, |(own, old)| {
            format!(
                "to `{}`, {}, it answers {}; {} answers {}",
                switch.key,
                switch.question,
                answer(switch, *own),
                self.base.name,
                answer(switch, *old)
            )
        })
    }

    fn vocabulary(&self) -> Vec<String> {
        let modes = |book: &'r Rulebook| {
            let tables = Writing::ALL
                .map(|writing| book.rules(writing).written(&VOCABULARY).and_then(Value::as_table));
            tables.into_iter().flatten().flat_map(|table| table.keys())
        };
        let modes: BTreeSet<_> = modes(self.own).chain(modes(self.base)).collect();
        modes.into_iter().flat_map(|mode| self.harmonies(mode)).collect()
    }

    fn harmonies(&self, mode: &str) -> Vec<String> {
        let [section, table] = VOCABULARY;
        let both = self.both(About::Section(section), |rules| {
            numerals(rules.written(&[section, table, mode]))
        });
        told(&both, |(own, old)| {
            let parts = [("it has also", own, old), ("it does not have", old, own)];
            let parts = parts.map(|(words, some, others)| {
                without(some, others).map(|it| format!("{words} {it}"))
            });
            let parts: Vec<_> = parts.into_iter().flatten().collect();
            match parts.as_slice() {
                [] => format!("in {mode} it lists the same harmonies in another order"),
                _ => format!("in {mode} {}", list(&parts)),
            }
        })
    }
}

fn is_vocabulary(question: &Question) -> bool {
    let [section, table] = VOCABULARY;
    let key = question.switch.key.strip_prefix(table);
    question.about.name() == section && key.is_some_and(|key| key.starts_with('.'))
}

/// A sentence for each pair that is not of two equals, with its species.
fn told<T: PartialEq>(both: &BySpecies<(T, T)>, words: impl Fn(&(T, T)) -> String) -> Vec<String> {
    let different = both.different().into_iter().filter(|(own, old)| own != old);
    let sentence = |pair: &(T, T)| {
        let places = both.places(pair).map_or_else(String::new, |places| format!("{places}, "));
        capitalized(&format!("{places}{}.", words(pair)))
    };
    different.map(sentence).collect()
}

fn is(level: &str) -> &'static str {
    match level {
        "fault" => "is a fault",
        "caution" => "is a caution",
        "advice" => "is advice",
        _ => "is switched off",
    }
}

/// An answer with its meaning.
fn answer(switch: &Switch, value: Option<&Value>) -> String {
    let Some(value) = value else { return "nothing".to_owned() };
    let shown = value.as_str().map_or_else(|| value.to_string(), ToOwned::to_owned);
    match switch.answer(value) {
        Some(known) => format!("`{shown}` ({})", known.meaning),
        None => format!("`{shown}`"),
    }
}

fn numerals(value: Option<&Value>) -> Vec<&str> {
    let list = value.and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_str).collect()
}

/// What some have and others have not.
fn without(some: &[&str], others: &[&str]) -> Option<String> {
    let rest = some.iter().filter(|numeral| !others.contains(numeral));
    let rest: Vec<_> = rest.map(ToString::to_string).collect();
    (!rest.is_empty()).then(|| list(&rest))
}
