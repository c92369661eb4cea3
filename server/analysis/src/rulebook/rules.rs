//! The rules of a school for one kind of writing, with their levels and switches set. Asks them in the
//! order of the registry; knows nothing of what they say.

use std::sync::atomic::{AtomicU8, Ordering};

use toml::{Table, Value};

use super::ranking::Ranking;
use crate::finding::Level;
use crate::judge::{Close, Report, Step};
use crate::reading::{Figures, HearingStep, Plan};
use crate::rules::{Entry, Rule};

/// The rules of a school for one kind of writing.
#[derive(Debug)]
pub struct Rules {
    /// The figures that the school admits.
    pub figures: Figures,
    /// How the school reads harmony.
    pub plan: Plan,
    /// What makes one way of writing better than another.
    pub ranking: Ranking,
    /// The rules that are not switched off, in the order of the registry.
    pub active: Vec<Active>,
    /// All that is decided, as a rulebook writes it.
    pub(super) written: Table,
}

/// A rule in force.
#[derive(Debug)]
pub struct Active {
    /// The rule as the registry lists it.
    pub entry: &'static Entry,
    /// How much it matters.
    pub level: Level,
    /// The rule with its switches set.
    pub rule: Box<dyn Rule>,
    /// The kinds of questions that it has declined.
    pub(super) declined: Declined,
}

/// Kinds of questions that a rule has declined; it is not asked such a one again.
#[derive(Debug, Default)]
pub struct Declined(AtomicU8);

/// A kind of question.
#[derive(Clone, Copy)]
enum Question {
    Step = 1,
    Hear = 2,
    Close = 4,
}

impl Declined {
    fn has(&self, question: Question) -> bool {
        self.0.load(Ordering::Relaxed) & question as u8 != 0
    }

    fn add(&self, question: Question) {
        self.0.fetch_or(question as u8, Ordering::Relaxed);
    }
}

impl Rules {
    /// Asks every rule about a moment by the notes alone.
    pub fn step(&self, step: &Step<'_>, report: &mut Report) {
        self.ask(Question::Step, report, |rule, report| rule.step(step, report));
    }

    /// Asks every rule about a moment by how it is heard.
    pub fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        self.ask(Question::Hear, report, |rule, report| rule.hear(step, report));
    }

    /// Asks every rule about the whole.
    pub fn close(&self, close: &Close<'_>, report: &mut Report) {
        self.ask(Question::Close, report, |rule, report| rule.close(close, report));
    }

    /// The level of a rule; `None` if it is switched off or unknown.
    pub fn level(&self, name: &str) -> Option<Level> {
        self.active.iter().find(|active| active.entry.name == name).map(|active| active.level)
    }

    /// What a rulebook writes at a path, such as `rules`, `span`, `at-most`; also for rules that are
    /// switched off.
    pub fn written(&self, path: &[&str]) -> Option<&Value> {
        let (first, rest) = path.split_first()?;
        rest.iter().try_fold(self.written.get(*first)?, |value, key| value.get(key))
    }

    fn ask(
        &self,
        question: Question,
        report: &mut Report,
        mut ask: impl FnMut(&dyn Rule, &mut Report),
    ) {
        for active in self.active.iter().filter(|active| !active.declined.has(question)) {
            report.open(active.entry.name, active.level);
            ask(active.rule.as_ref(), report);
            if report.is_declined() {
                active.declined.add(question);
            }
        }
    }
}
