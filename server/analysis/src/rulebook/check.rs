//! A rulebook's own words, one by one, against what a rulebook can decide: rules, levels, switches,
//! species. Everything that is wrong is told at its place. Knows no rulebook that is extended.

use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::question::About;
use super::section::SECTIONS;
use super::trial::{self, Key, Refuse, Said};
use super::{LEVELS, RulebookProblem, SPECIES, refusal};
use crate::rules;
use crate::words::{nearest, quoted};

/// What a rulebook says of itself.
pub(super) const HEAD: [&str; 3] = ["name", "title", "extends"];
/// The tables of a rulebook; all but the first can also be decided for one species.
const PARTS: [&str; 5] = ["species", "rules", "figures", "harmony", "ranking"];
/// The largest number that means anything; no exercise has more of what is counted.
const LARGEST: u16 = 1000;

/// What is wrong with the words of a rulebook, in the order of its text.
pub(super) fn problems(said: &DeTable<'_>) -> Vec<RulebookProblem> {
    let mut check = Check { problems: Vec::new() };
    check.rulebook(said);
    check.problems.sort_by_key(|problem| (problem.range.start, problem.range.end));
    check.problems.dedup();
    check.problems
}

struct Check {
    problems: Vec<RulebookProblem>,
}

impl Check {
    fn rulebook(&mut self, said: &DeTable<'_>) {
        let known = [&HEAD[..], &PARTS[..]].concat();
        for (key, said) in said {
            match text(key) {
                name if HEAD.contains(&name) => self.head(name, said),
                "species" => self.all_species(said),
                _ => self.part(key, said, &known),
            }
        }
    }

    fn head(&mut self, name: &str, said: &Said<'_>) {
        if said.get_ref().as_str().is_none_or(|text| text.trim().is_empty()) {
            self.tell(said.span(), format!("Write a name in quotation marks: `{name} = \"…\"`."));
        }
    }

    fn all_species(&mut self, said: &Said<'_>) {
        for (key, said) in &self.below("[species.1.rules.span]", said) {
            if SPECIES.contains(&text(key)) {
                let parts = self.below("[species.1.rules.span]", said);
                parts.iter().for_each(|(key, said)| self.part(key, said, &PARTS[1..]));
            } else {
                let message = "There is no such species. Write a number from 1 to 5, `free` \
                               for free writing, or `cantus` for a cantus by itself, as in \
                               `[species.1.rules.span]`.";
                self.tell(key.span(), message);
            }
        }
    }

    fn part(&mut self, key: &Key<'_>, said: &Said<'_>, known: &[&str]) {
        let section = SECTIONS.iter().find(|section| section.name == text(key));
        match section {
            Some(section) => {
                let answers = self.below(&format!("[{}]", section.name), said);
                let complete = trial::complete_section(section.name);
                self.answers(About::Section(section.name), &answers, &complete, section.refuse);
            }
            None if text(key) == "rules" => self.rules(said),
            None => self.unknown_part(key, known),
        }
    }

    fn unknown_part(&mut self, key: &Key<'_>, known: &[&str]) {
        let name = text(key);
        let hint = match nearest(name, known.iter().copied()) {
            _ if rules::named(name).is_some() => {
                format!("Rules stand below `rules`: `[rules.{name}]`.")
            }
            Some(near) => format!("Perhaps `{near}` is meant."),
            None => format!("What can stand here is {}.", quoted(known, "and")),
        };
        self.tell(key.span(), format!("`{name}` is not known here. {hint}"));
    }

    fn rules(&mut self, said: &Said<'_>) {
        for (key, said) in &self.below("[rules.span]", said) {
            match rules::named(text(key)) {
                Some(entry) => self.rule(entry, said),
                None => self.unknown_rule(key),
            }
        }
    }

    fn unknown_rule(&mut self, key: &Key<'_>) {
        let name = text(key);
        let hint = match rules::nearest(name) {
            Some(entry) => format!("Perhaps `{}` is meant.", entry.name),
            None => "`bicinium rules` lists them all.".to_owned(),
        };
        self.tell(key.span(), format!("There is no rule `{name}`. {hint}"));
    }

    fn rule(&mut self, entry: &'static rules::Entry, said: &Said<'_>) {
        let mut answers = self.below(&format!("[rules.{}]", entry.name), said);
        if let Some(level) = answers.remove("level") {
            self.level(entry.name, &level);
        }
        let complete = trial::complete_rule(entry.name);
        self.answers(About::Rule(entry), &answers, &complete, entry.refuse);
    }

    fn level(&mut self, rule: &str, said: &Said<'_>) {
        let level = said.get_ref().as_str();
        if level.is_none_or(|level| !LEVELS.contains(&level)) {
            let levels = quoted(&LEVELS, "or");
            let message = format!("The level of rule `{rule}` is {levels}, in quotation marks.");
            self.tell(said.span(), message);
        }
    }

    fn answers(
        &mut self,
        about: About,
        said: &DeTable<'_>,
        complete: &DeTable<'static>,
        refuse: Refuse,
    ) {
        for answer in trial::answers(said) {
            if !self.has_sensible_numbers(answer.said) {
                continue;
            }
            if let Some(error) = answer.refused(complete.clone(), refuse) {
                let range = error.span().unwrap_or_else(|| answer.said.span());
                self.tell(range, refusal::told(error.message(), about, &answer.name()));
            }
        }
    }

    fn has_sensible_numbers(&mut self, said: &Said<'_>) -> bool {
        let before = self.problems.len();
        match said.get_ref() {
            DeValue::Array(list) => list.iter().for_each(|said| {
                self.has_sensible_numbers(said);
            }),
            DeValue::Integer(number) if !is_sensible(number.as_str()) => {
                self.tell(said.span(), format!("Write a whole number from 0 to {LARGEST}."));
            }
            _ => {}
        }
        self.problems.len() == before
    }

    /// What stands below a heading; nothing if there is something else in its place.
    fn below<'t>(&mut self, heading: &str, said: &Said<'t>) -> DeTable<'t> {
        if let Some(table) = said.get_ref().as_table() {
            return table.clone();
        }
        let message = format!("Write `{heading}` in a line of its own, and the answers below it.");
        self.tell(said.span(), message);
        DeTable::new()
    }

    fn tell(&mut self, range: Range<usize>, message: impl Into<String>) {
        self.problems.push(RulebookProblem::at(range, message));
    }
}

fn text<'k>(key: &'k Key<'_>) -> &'k str {
    key.get_ref()
}

fn is_sensible(number: &str) -> bool {
    number.parse().is_ok_and(|number: u16| number <= LARGEST)
}
