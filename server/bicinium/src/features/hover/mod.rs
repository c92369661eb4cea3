//! What is said about the place a reader points at: a note, a harmony, the name of a rule, a word
//! of the notation. Chooses what the place is; each kind of place has a module of its own.

pub(super) mod function;
pub(super) mod harmony;
mod note;
mod rule;
pub(super) mod word;

use std::ops::Range;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_grammar::{TextRange, TextSize};

use super::pointed::{event_at, is_on};
use super::section::Section;

/// What is said about a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// What it is said about, in bytes of the sheet.
    pub range: Range<usize>,
    /// What is said, part by part.
    pub body: Vec<Section>,
}

/// What there is to say about a byte of a sheet.
pub fn hover(snapshot: &Snapshot, offset: usize) -> Option<Hover> {
    let block = snapshot.block_at(offset)?;
    let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
    let place = Place { block, offset: within };
    let (range, body) = place.exercise().or_else(|| place.finding()).or_else(|| place.word())?;
    Some(Hover { range: block.in_sheet(range), body })
}

/// What is said about a range of a block.
type Said = (TextRange, Vec<Section>);

struct Place<'a> {
    block: &'a Placed,
    offset: TextSize,
}

impl Place<'_> {
    fn exercise(&self) -> Option<Said> {
        let exercise = self.block.judged.exercise.as_ref()?;
        self.note(exercise).or_else(|| self.harmony(exercise)).or_else(|| self.licence(exercise))
    }

    fn note(&self, exercise: &Exercise) -> Option<Said> {
        let pointed = event_at(&self.block.judged, exercise, self.offset)?;
        let findings = &self.block.judged.findings;
        let body = note::say(exercise, findings, pointed.voice, pointed.event)?;
        Some((pointed.range, body))
    }

    fn harmony(&self, exercise: &Exercise) -> Option<Said> {
        let mut written = exercise.score.harmonies.iter();
        let written = written.find(|harmony| self.is_on(harmony.range))?;
        Some((written.range, harmony::say(exercise, written)))
    }

    fn licence(&self, exercise: &Exercise) -> Option<Said> {
        let mut licences = exercise.score.licences.iter();
        let licence = licences.find(|licence| self.is_on(licence.rule_range))?;
        Some((licence.rule_range, rule::say(&licence.rule)?))
    }

    /// What was found where there is nothing else to say.
    fn finding(&self) -> Option<Said> {
        let findings = &self.block.judged.findings;
        let range = findings.iter().find(|found| self.is_on(found.range))?.range;
        let here = findings.iter().filter(|found| found.range == range);
        Some((range, rule::findings(here)))
    }

    fn word(&self) -> Option<Said> {
        let (word, range) = self.block.judged.tree.keyword_at(self.offset)?;
        Some((range, word::say(&word)?))
    }

    fn is_on(&self, range: TextRange) -> bool {
        is_on(range, self.offset)
    }
}
