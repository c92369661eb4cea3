//! An exercise with what was found in it, and how it is called. Knows no format.

use bicinium_analysis::finding::{Finding, Level};
use bicinium_analysis::score::Writing;
use bicinium_analysis::sheet::Exercise;
use bicinium_theory::{Mode, PitchClass};

/// An exercise that is to be shown.
#[derive(Clone, Copy, Debug)]
pub struct Piece<'a> {
    /// Its number in the sheet, counted from 1.
    pub number: usize,
    /// The exercise.
    pub exercise: &'a Exercise,
    /// What was found in it.
    pub findings: &'a [Finding],
}

impl<'a> Piece<'a> {
    /// Its title; one that has none goes by its number.
    pub fn title(&self) -> String {
        let own = self.exercise.title.as_deref().filter(|title| !title.trim().is_empty());
        own.map_or_else(|| format!("Exercise {}", self.number), str::to_owned)
    }

    /// What it is: "Second species in E flat major".
    pub(crate) fn kind(&self) -> String {
        let setting = &self.exercise.score.setting;
        let writing = match setting.writing() {
            Writing::Species(1) => "First species",
            Writing::Species(2) => "Second species",
            Writing::Species(3) => "Third species",
            Writing::Species(4) => "Fourth species",
            Writing::Species(5) => "Fifth species",
            Writing::Cantus => "Cantus firmus",
            Writing::Free | Writing::Species(_) => "Free two-part writing",
        };
        let mode = match setting.key.mode {
            mode @ (Mode::Major | Mode::Minor) => mode.name().to_owned(),
            mode => capitalized(mode.name()),
        };
        format!("{writing} in {} {mode}", spelled(setting.key.tonic))
    }

    /// The findings that are told, numbered from 1. What is only not written yet can be seen.
    pub fn told(&self) -> impl Iterator<Item = (usize, &'a Finding)> + use<'a> {
        let is_told = |finding: &&Finding| finding.stands() && finding.level != Level::Unfinished;
        (1..).zip(self.findings.iter().filter(is_told))
    }
}

/// "E flat".
fn spelled(note: PitchClass) -> String {
    let accidental = match note.accidental.value() {
        ..=-2 => " double flat",
        -1 => " flat",
        0 => "",
        1 => " sharp",
        2.. => " double sharp",
    };
    format!("{}{accidental}", note.letter)
}

/// The word with a capital letter.
pub(crate) fn capitalized(word: &str) -> String {
    let mut letters = word.chars();
    let first = letters.next().map(|first| first.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}
