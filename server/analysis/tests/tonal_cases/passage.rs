//! A passage and what is said of it in several keys. Knows no verdicts.

use std::sync::Arc;

use bicinium_analysis::{Finding, Level, Sheet, Shelf};
use bicinium_theory::{Interval, Key, Pitch};

/// A passage: key, species, the two rows as bars, and which row is the cantus.
pub struct Passage {
    key: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
    cantus: Given,
}

#[derive(Clone, Copy, PartialEq)]
pub enum Given {
    Above,
    Below,
}

pub const UNISON: Interval = Interval::new(0, 0);

/// As written, a semitone and a tone up: the passages stay within the compass of their voices.
const KEYS: [Interval; 3] = [UNISON, Interval::new(1, 1), Interval::new(1, 2)];

impl Passage {
    pub fn sheet(&self, by: Interval, rulebook: &str) -> String {
        let (upper, lower) = match self.cantus {
            Given::Above => ("cantus", "counter"),
            Given::Below => ("counter", "cantus"),
        };
        let lower_register = if lies_low(self.lower) { "bass" } else { "tenor" };
        format!(
            "rulebook {rulebook}\nkey {}\n\nexercise\n  species {}\n  soprano {upper} {}\n  {lower_register} {lower} {}\n",
            transposed_key(self.key, by),
            self.species,
            transposed(self.upper, by),
            transposed(self.lower, by),
        )
    }

    fn findings(&self, by: Interval, rulebook: &str) -> Vec<Finding> {
        let sheet = Sheet::new(&self.sheet(by, rulebook), Arc::new(Shelf::default()));
        sheet.snapshot().findings().map(|located| located.finding.clone()).collect()
    }

    /// Faults as (rule, bar), the same in every key.
    pub fn faults(&self, rulebook: &str) -> Vec<(&'static str, u32)> {
        self.told(rulebook, Level::Fault)
    }

    /// What is said at a level as (rule, bar), the same in every key.
    pub fn told(&self, rulebook: &str, level: Level) -> Vec<(&'static str, u32)> {
        self.in_all_keys(rulebook, |by| places(&self.findings(by, rulebook), level))
    }

    /// The harmonies of the bars that are written, the same in every key.
    pub fn harmonies(&self) -> Vec<String> {
        self.in_all_keys("tonal", |by| harmonies(&self.sheet(by, "tonal")))
    }

    fn in_all_keys<T: PartialEq + std::fmt::Debug>(
        &self,
        rulebook: &str,
        of: impl Fn(Interval) -> T,
    ) -> T {
        let first = of(UNISON);
        for by in KEYS {
            assert_eq!(of(by), first, "{}", self.sheet(by, rulebook));
        }
        first
    }
}

/// Whether a row has notes below the tenor.
fn lies_low(row: &str) -> bool {
    let tenor: Pitch = "C3".parse().unwrap();
    row.split(' ').filter_map(|word| word.parse::<Pitch>().ok()).any(|pitch| pitch < tenor)
}

/// The findings of a level as (rule, bar).
pub fn places(findings: &[Finding], level: Level) -> Vec<(&'static str, u32)> {
    let grave = findings.iter().filter(|finding| finding.level == level);
    grave.map(|finding| (finding.rule, finding.place.map_or(0, |place| place.bar))).collect()
}

fn transposed_key(key: &str, by: Interval) -> String {
    let (tonic, mode) = key.split_once(' ').unwrap();
    let tonic: Pitch = format!("{tonic}4").parse().unwrap();
    let class = tonic.transpose(by).unwrap().class();
    assert!(Key::new(class, mode.parse().unwrap()).is_some());
    format!("{class} {mode}")
}

fn transposed(row: &str, by: Interval) -> String {
    let word = |word: &str| match word.parse::<Pitch>() {
        Ok(pitch) => pitch.transpose(by).unwrap().to_string(),
        Err(_) => word.to_owned(),
    };
    row.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

pub const fn above(
    key: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
) -> Passage {
    Passage { key, species, upper, lower, cantus: Given::Above }
}

pub const fn below(
    key: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
) -> Passage {
    Passage { key, species, upper, lower, cantus: Given::Below }
}

pub const NONE: [(&str, u32); 0] = [];

/// The harmonies of the bars that are written.
fn harmonies(sheet: &str) -> Vec<String> {
    let sheet = Sheet::new(sheet, Arc::new(Shelf::default()));
    let snapshot = sheet.snapshot();
    let (_, _, exercise) = snapshot.exercises().next().unwrap();
    let stretches = exercise.verdict.reading.stretches.iter();
    let name = |prolonged: bool| if prolonged { " prolonged" } else { "" };
    stretches.map(|s| format!("{}{}", s.numeral, name(s.prolonged_from.is_some()))).collect()
}
