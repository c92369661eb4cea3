//! Notes changed so that a finding is gone: how far that goes from what was written, and how it is
//! put. Tries nothing.

use bicinium_analysis::Exercise;
use bicinium_analysis::score::Score;
use bicinium_analysis::sheet::{Change, Placed, Tally};
use bicinium_theory::{Interval, Pitch};

use super::Proposal;
use super::concerned::{Note, neighbours};
use crate::features::words::list;

/// Notes changed so that a finding is gone.
#[derive(Clone, Debug)]
pub(super) struct Mending {
    pub(super) changes: Vec<Change>,
    /// How many notes are changed, how far they are moved, how wide the leaps around them are.
    pub(super) nearness: (usize, i16, i16),
    /// What is then left to say.
    pub(super) left: Tally,
}

impl Mending {
    /// Changes that nobody has tried yet.
    pub(super) fn new(score: &Score, changes: Vec<Change>) -> Self {
        let nearness = (changes.len(), distance(score, &changes), leaps(score, &changes));
        Self { changes, nearness, left: Tally::default() }
    }

    /// Less to say before more, then what is nearer; advice is a matter of taste and comes last.
    pub(super) fn rank(&self) -> (usize, usize, (usize, i16, i16), usize) {
        (self.left.faults, self.left.cautions, self.nearness, self.left.advice)
    }

    /// As a change of the text.
    pub(super) fn proposal(&self, block: &Placed, exercise: &Exercise) -> Proposal {
        let score = &exercise.score;
        let event = |change: &Change| score.lines[change.voice].event_at(change.onset);
        let edit = |change: &Change| {
            Some((block.in_sheet(event(change)?.range), change.pitch.to_string()))
        };
        let edits = self.changes.iter().filter_map(edit).collect();
        Proposal { title: self.title(score), edits, mends_it: true }
    }

    /// "Write D4 and C4 instead of E4 and G4 in bars 6 and 7".
    fn title(&self, score: &Score) -> String {
        let new: Vec<_> = self.changes.iter().map(|change| change.pitch.to_string()).collect();
        let old = self.changes.iter().filter_map(|change| old(score, *change));
        let old: Vec<_> = old.map(|pitch| pitch.to_string()).collect();
        let mut bars: Vec<_> =
            self.changes.iter().map(|change| score.setting.bar_of(change.onset) + 1).collect();
        bars.dedup();
        let word = if bars.len() == 1 { "bar" } else { "bars" };
        let bars: Vec<_> = bars.iter().map(ToString::to_string).collect();
        format!("Write {} instead of {} in {word} {}", list(&new), list(&old), list(&bars))
    }
}

fn old(score: &Score, change: Change) -> Option<Pitch> {
    score.lines[change.voice].event_at(change.onset)?.pitch()
}

fn distance(score: &Score, changes: &[Change]) -> i16 {
    let moved = |change: &Change| Some(steps(old(score, *change)?, change.pitch));
    changes.iter().filter_map(moved).sum()
}

/// How far the new notes lie from their neighbours beyond a step.
fn leaps(score: &Score, changes: &[Change]) -> i16 {
    let pitch = |(voice, onset): Note| {
        let new = changes.iter().find(|c| c.voice == voice && c.onset == onset);
        new.map(|c| c.pitch).or_else(|| score.lines[voice].event_at(onset)?.pitch())
    };
    let around = |change: &Change| {
        let others = neighbours(score, (change.voice, change.onset)).into_iter().filter_map(pitch);
        others.map(|other| (steps(other, change.pitch) - 1).max(0)).sum::<i16>()
    };
    changes.iter().map(around).sum()
}

/// How many steps lie between two pitches.
pub(super) fn steps(from: Pitch, to: Pitch) -> i16 {
    Interval::between(from, to).steps().abs()
}
