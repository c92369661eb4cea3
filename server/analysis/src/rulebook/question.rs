//! The questions that a rulebook answers: every switch of every rule, and those of the sections on
//! figures, harmony and ranking. Knows where each is answered, not what the answers do.

use toml::Value;

use super::Rules;
use super::section::SECTIONS;
use crate::rules::{self, Entry, switch::Switch};

/// A question with the place of its answer.
#[derive(Clone, Debug)]
pub struct Question {
    /// What it is about.
    pub about: About,
    /// What is asked, and what may be answered.
    pub switch: Switch,
}

/// What a question is about.
#[derive(Clone, Copy, Debug)]
pub enum About {
    /// A rule.
    Rule(&'static Entry),
    /// A section of the rulebook, by its name.
    Section(&'static str),
}

/// All questions: those of the rules in the order of the registry, then those of the sections.
pub fn switches() -> impl Iterator<Item = Question> {
    let rules = rules::all().map(|entry| (About::Rule(entry), entry.source));
    let sections = SECTIONS.iter().map(|section| (About::Section(section.name), section.source));
    rules.chain(sections).flat_map(|(about, source)| {
        Switch::all_of(source).into_iter().map(move |switch| Question { about, switch })
    })
}

impl Question {
    /// What the rules of a school for one species answer, as the rulebook writes it; nothing if
    /// they leave it open.
    pub fn answered<'r>(&self, rules: &'r Rules) -> Option<&'r Value> {
        let place = match self.about {
            About::Rule(entry) => ["rules", entry.name].to_vec(),
            About::Section(name) => vec![name],
        };
        let path: Vec<_> = place.into_iter().chain(self.switch.key.split('.')).collect();
        rules.written(&path)
    }
}

impl About {
    /// The name in rulebooks.
    pub fn name(self) -> &'static str {
        match self {
            Self::Rule(entry) => entry.name,
            Self::Section(name) => name,
        }
    }
}
