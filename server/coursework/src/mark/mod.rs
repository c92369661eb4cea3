//! The mark of one exercise: whether it is complete and as set, what was found, what was done well,
//! and what it is worth. Must not know the rest of the class.

mod as_set;
mod found;
mod reckoning;

pub use as_set::{Aspect, Departure, named_rulebook};
pub use found::{Found, Level};
pub use reckoning::{Cause, Deduction, Reckoning};

use std::ops::Range;

use bicinium_analysis::score::{Event, Score, Sound};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Level as Graveness};
use serde::Serialize;

use crate::assignment::Task;
use crate::merits::{Merit, MeritKind, merits};
use crate::points::Points;
use crate::rubric::Rubric;

/// An exercise that was handed in, marked.
#[derive(Clone, Debug, Serialize)]
pub struct Answer {
    /// Its number in the sheet that was handed in, counted from 1.
    pub exercise: usize,
    /// Whether anything is written in the voice to be written.
    pub begun: bool,
    /// The bars in which something is still to be written, counted from 1.
    pub open_bars: Vec<u32>,
    /// What is not as it was set.
    pub not_as_set: Vec<Departure>,
    /// All that was found, in the order of the text.
    pub findings: Vec<Found>,
    /// What was done well, the most telling first.
    pub merits: Vec<Merit>,
    /// What is taken off and given.
    #[serde(flatten)]
    pub reckoning: Reckoning,
    /// Where it is written, in bytes of the sheet.
    #[serde(skip)]
    pub range: Range<usize>,
}

impl Answer {
    /// Whether every bar that was set is written.
    pub fn is_complete(&self) -> bool {
        self.begun && self.open_bars.is_empty()
    }

    /// How many findings of a level stand.
    pub fn standing(&self, level: Graveness) -> usize {
        let stands = |found: &&Found| found.level.0 == level && found.accepted.is_none();
        self.findings.iter().filter(stands).count()
    }

    /// The findings that a licence accepts.
    pub fn licences(&self) -> impl Iterator<Item = &Found> {
        self.findings.iter().filter(|found| found.accepted.is_some())
    }
}

/// Marks an exercise that was handed in for a task. `named` is the rulebook that its sheet names.
pub fn mark(
    task: &Task,
    (number, block, exercise): (usize, &Placed, &Exercise),
    named: Option<&str>,
    rubric: &Rubric,
) -> Answer {
    let findings = found::all(block);
    let open_bars = open_bars(task, &exercise.score, &block.judged.tree.text());
    let begun = is_begun(&exercise.score);
    let not_as_set = as_set::departures(task, exercise, named);
    let stands = |found: &Found| found.accepted.is_none() && found.level.0 <= Graveness::Caution;
    let is_complete = begun && open_bars.is_empty();
    let is_flawless = is_complete && not_as_set.is_empty() && !findings.iter().any(stands);
    let merits = if begun { merits(exercise, is_flawless) } else { Vec::new() };
    let worth = task.points.unwrap_or(rubric.exercise);
    let kinds: Vec<MeritKind> = merits.iter().map(|merit| merit.kind).collect();
    let reckoning = reckoning::reckon(
        &reckoning::Work {
            worth,
            begun,
            open_bars: open_bars.len(),
            not_as_set: &not_as_set,
            findings: &findings,
            merits: if is_complete { &kinds } else { &[] },
        },
        rubric,
    );
    let range = block.start..block.start + usize::from(block.judged.tree.text_len());
    Answer { exercise: number, begun, open_bars, not_as_set, findings, merits, reckoning, range }
}

/// What an exercise is worth by the assignment, or else by the rubric.
pub fn worth(task: &Task, rubric: &Rubric) -> Points {
    task.points.unwrap_or(rubric.exercise)
}

/// The bars, counted from 1, in which a voice to be written has a note that is not chosen, nothing, or
/// no bar at all. A note that cannot be read is written.
fn open_bars(task: &Task, score: &Score, text: &str) -> Vec<u32> {
    let setting = &score.setting;
    let is_open = |event: &&Event| match event.sound {
        Sound::Hole => {
            let range = usize::from(event.range.start())..usize::from(event.range.end());
            text.get(range) == Some("?")
        }
        Sound::Blank => true,
        Sound::Note(_) | Sound::Rest | Sound::Held => false,
    };
    let events = setting.written().flat_map(|voice| &score.lines[voice].events);
    let open = events.filter(is_open);
    let open = open.flat_map(|event| {
        let last = event.end().ticks().saturating_sub(1) / setting.bar_length().ticks().max(1);
        setting.bar_of(event.onset) + 1..=last + 1
    });
    let shortest = setting.written().map(|voice| setting.bars_of[voice]).min().unwrap_or(0);
    let mut bars: Vec<_> = open.chain(shortest + 1..=task.bars()).collect();
    bars.sort_unstable();
    bars.dedup();
    bars
}

fn is_begun(score: &Score) -> bool {
    let mut events = score.setting.written().flat_map(|voice| &score.lines[voice].events);
    events.any(|event| event.pitch().is_some())
}
