//! What rules say while they judge. A report collects breaches of one rule after the other, and why
//! a rule has let something pass; the words are only made where someone will read them. Knows no text and no levels beyond passing
//! them on.

use bicinium_theory::Duration;

use crate::finding::Level;
use crate::score::VoiceId;

/// A place in the music: a moment, in one voice or in both.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Spot {
    /// The voice; `None` for the exercise as a whole or both voices together.
    pub voice: Option<VoiceId>,
    /// The moment.
    pub onset: Duration,
}

impl Spot {
    /// A note of a voice.
    pub fn new(voice: VoiceId, onset: Duration) -> Self {
        Self { voice: Some(voice), onset }
    }
}

/// What is said about a breach.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Words {
    /// What is wrong, where, and what would mend it.
    pub message: String,
    /// Other places that belong to it, each with what it is.
    pub related: Vec<(Spot, String)>,
}

impl Words {
    /// Words with no other place.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), related: Vec::new() }
    }

    /// Adds another place that belongs to the breach.
    #[must_use]
    pub fn with(mut self, voice: VoiceId, onset: Duration, what: impl Into<String>) -> Self {
        self.related.push((Spot::new(voice, onset), what.into()));
        self
    }
}

/// A rule broken at a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Breach {
    /// The name of the rule.
    pub rule: &'static str,
    /// How much it matters in the rulebook in force.
    pub level: Level,
    /// Where it is broken.
    pub spot: Spot,
    /// What is said about it; empty where nobody reads it.
    pub words: Words,
}

/// Something that a rule is about and that it lets pass, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Admission {
    /// The name of the rule.
    pub rule: &'static str,
    /// Where it is.
    pub spot: Spot,
    /// What it is, and why it is admitted.
    pub message: String,
}

/// Whether a report is going to be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// The words are made.
    Worded,
    /// Breaches are only counted.
    Counted,
}

/// Collects breaches and admissions.
#[derive(Debug)]
pub struct Report {
    breaches: Vec<Breach>,
    admissions: Vec<Admission>,
    detail: Detail,
    rule: &'static str,
    level: Level,
    is_declined: bool,
}

impl Report {
    /// An empty report.
    pub fn new(detail: Detail) -> Self {
        Self {
            breaches: Vec::new(),
            admissions: Vec::new(),
            detail,
            rule: "",
            level: Level::Advice,
            is_declined: false,
        }
    }

    /// Says which rule speaks from now on, and at what level.
    pub fn open(&mut self, rule: &'static str, level: Level) {
        self.rule = rule;
        self.level = level;
        self.is_declined = false;
    }

    /// Says that the rule has nothing to do with questions of this kind.
    pub fn decline(&mut self) {
        self.is_declined = true;
    }

    /// Whether the rule that speaks has said so.
    pub(crate) fn is_declined(&self) -> bool {
        self.is_declined
    }

    /// Notes a breach at a note of a voice.
    pub fn at(&mut self, voice: VoiceId, onset: Duration, words: impl FnOnce() -> Words) {
        self.raise(Spot::new(voice, onset), self.level, words);
    }

    /// Notes a breach that concerns both voices at a moment.
    pub fn together(&mut self, onset: Duration, words: impl FnOnce() -> Words) {
        self.raise(Spot { voice: None, onset }, self.level, words);
    }

    /// Notes a breach at a level of its own, where a switch of the rule sets one.
    pub fn raise(&mut self, spot: Spot, level: Level, words: impl FnOnce() -> Words) {
        let words = match self.detail {
            Detail::Worded => words(),
            Detail::Counted => Words::default(),
        };
        self.breaches.push(Breach { rule: self.rule, level, spot, words });
    }

    /// Notes why the rule lets pass what concerns both voices at a moment. Where nobody reads the
    /// report, nothing is noted.
    pub fn admit_together(&mut self, onset: Duration, message: impl FnOnce() -> String) {
        if self.detail == Detail::Worded {
            let spot = Spot { voice: None, onset };
            self.admissions.push(Admission { rule: self.rule, spot, message: message() });
        }
    }

    /// The breaches noted since they were last taken, in order.
    pub fn take_breaches(&mut self) -> Vec<Breach> {
        std::mem::take(&mut self.breaches)
    }

    /// All breaches, in the order in which they were noted.
    pub fn into_breaches(self) -> Vec<Breach> {
        self.breaches
    }

    /// All breaches and all admissions, each in the order in which they were noted.
    pub fn into_parts(self) -> (Vec<Breach>, Vec<Admission>) {
        (self.breaches, self.admissions)
    }
}
