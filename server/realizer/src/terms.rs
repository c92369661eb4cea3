//! On what terms an exercise is realized: what is open besides its holes, and what is overlooked or
//! may not stay. Plain data; asks no rule.

use std::collections::HashSet;

use bicinium_analysis::judge::{Breach, Spot};
use bicinium_analysis::score::{Score, Sound, VoiceId};
use bicinium_analysis::sheet::Change;
use bicinium_analysis::{Exercise, Level};
use bicinium_theory::Duration;

/// A rule, and where it is broken.
pub type Broken = (&'static str, Spot);

/// The terms; by default an exercise is taken as it is, all of it is filled, and no fault is left.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terms {
    changed: Vec<Change>,
    reopened: Vec<(VoiceId, Duration)>,
    is_partial: bool,
    excused: HashSet<Broken>,
    mended: Option<Broken>,
    waived: Option<&'static str>,
}

impl Terms {
    /// The faults that stand in an exercise are overlooked: what is asked is how to go on.
    #[must_use]
    pub fn as_it_stands(exercise: &Exercise) -> Self {
        Self { excused: exercise.account().faults().collect(), ..Self::default() }
    }

    /// A breach that stands is to go, whatever its level.
    #[must_use]
    pub fn without(mut self, mended: Broken) -> Self {
        self.excused.remove(&mended);
        self.mended = Some(mended);
        self
    }

    /// Notes are changed first.
    #[must_use]
    pub fn changing(mut self, changes: &[Change]) -> Self {
        self.changed.extend_from_slice(changes);
        self
    }

    /// Notes are open again, each given by its voice and its beginning.
    #[must_use]
    pub fn reopening(mut self, notes: impl IntoIterator<Item = (VoiceId, Duration)>) -> Self {
        self.reopened.extend(notes);
        self
    }

    /// No fault is overlooked at the notes that are open again.
    #[must_use]
    pub fn strictly(mut self) -> Self {
        let onsets: HashSet<_> = self.reopened.iter().map(|place| place.1).collect();
        self.excused.retain(|broken| !onsets.contains(&broken.1.onset));
        self
    }

    /// Only notes that are open again are filled; everything else that is open stays unwritten.
    #[must_use]
    pub fn only(mut self) -> Self {
        self.is_partial = true;
        self
    }

    /// A rule closes nothing.
    pub(crate) fn waiving(&self, rule: &'static str) -> Self {
        Self { waived: Some(rule), ..self.clone() }
    }

    /// A score on these terms.
    pub(crate) fn applied_to(&self, mut score: Score) -> Score {
        let changed = self.changed.iter();
        let changed = changed.map(|it| ((it.voice, it.onset), Sound::Note(it.pitch)));
        let reopened = self.reopened.iter().map(|place| (*place, Sound::Hole));
        for ((voice, onset), sound) in changed.chain(reopened) {
            let events = score.lines[voice].events.iter_mut();
            let meant = events.filter(|event| event.onset == onset && event.pitch().is_some());
            meant.for_each(|event| event.sound = sound);
        }
        score
    }

    /// Whether what is open at an instant is to be filled.
    pub(crate) fn fill(&self, voice: VoiceId, onset: Duration) -> bool {
        !self.is_partial || self.reopened.contains(&(voice, onset))
    }

    /// Whether a rule may close a way.
    pub(crate) fn is_strict(&self, rule: &str, level: Level) -> bool {
        level <= Level::Fault || self.mended.is_some_and(|mended| mended.0 == rule)
    }

    /// Whether a breach that no licence accepts closes a way.
    pub(crate) fn closes(&self, breach: &Breach) -> bool {
        let broken = (breach.rule, breach.spot);
        if self.waived == Some(breach.rule) {
            return false;
        }
        let is_fault = breach.level <= Level::Fault && !self.excused.contains(&broken);
        is_fault || self.mended == Some(broken)
    }
}
