//! From the best way of hearing to the reading that is told. Where a passage is heard as before, what
//! was told of it before is told again. Decides nothing.

use std::ops::Range;
use std::sync::Arc;

use bicinium_theory::{Duration, Numeral};

use super::figure::{Ending, Figure, Outcome};
use super::result::{Alternative, Function, NoteFunction, Reading, Stretch};
use super::search::{Passage, Search};
use super::suspension::SuspensionKind;
use super::vocabulary::{HarmonyId, Vocabulary};
use crate::judge::Heard;
use crate::score::{Pair, VoiceId};

/// Where a passage is heard otherwise than the one before it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Otherwise {
    /// The moments; at all others everything is heard as before.
    pub moments: Range<usize>,
    /// The first note of which what became of it may be told otherwise.
    pub since: Option<Duration>,
}

impl Reading {
    /// Nothing told yet.
    pub fn empty(vocabulary: Arc<Vocabulary>) -> Self {
        Self { vocabulary, stretches: Vec::new(), functions: Pair::default() }
    }

    /// Tells the best way of hearing a passage, given what was told of the one before.
    #[must_use]
    pub fn retold(&self, passage: &Passage<'_>, search: &Search, otherwise: &Otherwise) -> Self {
        let teller = Teller { passage, search, before: self, otherwise };
        let outcomes = Outcomes::of(search);
        Self {
            vocabulary: self.vocabulary.clone(),
            stretches: teller.stretches(),
            functions: Pair::from_fn(|voice| teller.functions(&outcomes, voice)),
        }
    }
}

struct Teller<'a> {
    passage: &'a Passage<'a>,
    search: &'a Search,
    before: &'a Reading,
    otherwise: &'a Otherwise,
}

impl Teller<'_> {
    /// From when on something is heard otherwise: just behind the last moment before that is heard as
    /// before. What began between the two is gone.
    fn first(&self) -> Duration {
        let last_as_before = self.otherwise.moments.start.checked_sub(1);
        let moment = last_as_before.map(|index| &self.passage.moments[index]);
        moment.map_or(Duration::ZERO, |moment| moment.onset + Duration::from_ticks(1))
    }

    fn stretches(&self) -> Vec<Stretch> {
        let old = &self.before.stretches;
        let first = self.first();
        let head = old.partition_point(|stretch| stretch.onset < first);
        let mut stretches = Vec::with_capacity(old.len() + self.otherwise.moments.len());
        stretches.extend_from_slice(&old[..head]);
        if let Some(last) = stretches.last_mut() {
            last.end = self.end_of_bar(last.onset);
        }
        for index in self.otherwise.moments.start..self.passage.moments.len() {
            let Some(stretch) = self.stretch(index, stretches.last_mut()) else { continue };
            if index >= self.otherwise.moments.end
                && let Some(rest) = going_on_with(&stretch, old)
            {
                stretches.extend_from_slice(rest);
                break;
            }
            stretches.push(stretch);
        }
        stretches
    }

    /// The stretch that begins at a moment, if one does; it ends the last one.
    fn stretch(&self, index: usize, last: Option<&mut Stretch>) -> Option<Stretch> {
        let written = |_: &HarmonyId| self.is_written(index);
        let harmony = self.search.hearing(index).harmony.filter(written)?;
        let step = self.passage.step(index);
        let onset = step.now.onset;
        let last = last.filter(|last| last.end >= onset);
        let prolonged = last.as_ref().filter(|last| last.harmony == harmony);
        if prolonged.is_some() && !step.is_downbeat() {
            return None;
        }
        let prolonged_from = prolonged.map(|last| last.prolonged_from.unwrap_or(last.onset));
        if let Some(last) = last {
            last.end = onset;
        }
        Some(Stretch {
            onset,
            end: self.end_of_bar(onset),
            numeral: self.numeral(index, harmony),
            harmony,
            prolonged_from,
            alternatives: self.alternatives(index, harmony),
        })
    }

    fn end_of_bar(&self, onset: Duration) -> Duration {
        let setting = self.passage.listener.setting;
        setting.bar_start(setting.bar_of(onset) + 1)
    }

    /// Whether anything sounds at a moment; a harmony of which nothing is written is not told.
    fn is_written(&self, index: usize) -> bool {
        let lines = &self.passage.memories[index + 1].lines;
        VoiceId::BOTH.into_iter().any(|voice| lines[voice].sounding().is_some())
    }

    /// The harmony with the figures of the note in the bass, as far as one is there and belongs to it.
    fn numeral(&self, index: usize, harmony: HarmonyId) -> Numeral {
        let memory = &self.passage.memories[index + 1];
        let voice = memory.pair.now().map_or(VoiceId::Lower, |sounded| sounded.bass());
        let bass = memory.lines[voice].sounding();
        let harmony = &self.passage.listener.vocabulary[harmony];
        harmony.numeral_over(bass.and_then(|note| harmony.member(note.pitch.class())))
    }

    fn alternatives(&self, index: usize, chosen: HarmonyId) -> Arc<[Alternative]> {
        let limit = u64::from(self.passage.listener.rules.plan.costs.alternatives);
        let margins = self.search.margins(index).iter();
        let near = margins.filter(|known| known.0 != chosen && known.1 <= limit);
        let alternative = |&(harmony, margin): &(HarmonyId, u64)| Alternative {
            numeral: self.numeral(index, harmony),
            harmony,
            margin,
        };
        let mut alternatives: Vec<_> = near.map(alternative).collect();
        alternatives.sort_by_key(|alternative| alternative.margin);
        alternatives.into()
    }

    fn functions(&self, outcomes: &Outcomes<'_>, voice: VoiceId) -> Vec<NoteFunction> {
        let (old, moments) = (&self.before.functions[voice], self.passage.moments);
        let first = self.first();
        let since = self.otherwise.since.map_or(first, |since| since.min(first));
        let as_before = moments.get(self.otherwise.moments.end).map(|moment| moment.onset);
        let place = |onset| old.partition_point(|known| known.note.onset < onset);
        let (head, tail) = (place(since), as_before.map_or(old.len(), place));
        let from = moments.partition_point(|moment| moment.onset < since);
        let again = from..self.otherwise.moments.end;
        let function = |index: usize| self.function(index, outcomes, voice);
        let mut functions = Vec::with_capacity(old.len() + again.len());
        functions.extend_from_slice(&old[..head]);
        functions.extend(again.filter_map(function));
        functions.extend_from_slice(&old[tail..]);
        functions
    }

    fn function(
        &self,
        index: usize,
        outcomes: &Outcomes<'_>,
        voice: VoiceId,
    ) -> Option<NoteFunction> {
        let note = self.passage.moments[index].struck(voice)?;
        let figure = self.search.hearing(index).figures[voice];
        let function = match (outcomes.told(voice, note), figure) {
            (Some(outcome), _) => self.of_foreign(outcome),
            (None, Figure::Foreign(offence, _)) => Function::Pending(offence),
            (None, Figure::Stable(Some(member))) => Function::Member(member),
            (None, Figure::Stable(None)) => Function::Consonance,
            (None, Figure::Open) => Function::Open,
        };
        Some(NoteFunction { note, function })
    }

    fn of_foreign(&self, outcome: &Outcome) -> Function {
        match outcome.ending {
            Ending::Failed(failure) => Function::Fails(outcome.link.offence, failure),
            Ending::FailsWith(first) => Function::FailsWith(outcome.link.offence, first),
            Ending::Fulfilled(shape, resolution) => {
                let (entry, link) = (outcome.entry, outcome.link);
                let kind = self.kind(outcome, resolution);
                Function::Embellishes { shape, entry, link, resolution, kind }
            }
        }
    }

    /// The kind of a suspension, seen from its resolution.
    fn kind(&self, outcome: &Outcome, resolution: Heard) -> Option<SuspensionKind> {
        let moments = self.passage.moments;
        let index = moments.binary_search_by_key(&resolution.onset, |moment| moment.onset).ok()?;
        SuspensionKind::of(outcome, &self.passage.memories[index + 1])
    }
}

/// What was told from a stretch on, if it was told as it is now: then so is all that follows.
fn going_on_with<'s>(stretch: &Stretch, told: &'s [Stretch]) -> Option<&'s [Stretch]> {
    let index = told.binary_search_by_key(&stretch.onset, |known| known.onset).ok()?;
    let is_same = told[index].harmony == stretch.harmony
        && told[index].prolonged_from == stretch.prolonged_from;
    is_same.then(|| &told[index..])
}

/// What became of foreign notes, in the order of the notes.
struct Outcomes<'a>(Vec<&'a Outcome>);

impl<'a> Outcomes<'a> {
    fn of(search: &'a Search) -> Self {
        let mut outcomes: Vec<_> = search.told().flat_map(|told| &told.outcomes).collect();
        outcomes.sort_by_key(|outcome| (outcome.voice, outcome.link.note.onset));
        Self(outcomes)
    }

    /// What was first told of a note.
    fn told(&self, voice: VoiceId, note: Heard) -> Option<&'a Outcome> {
        let key = |outcome: &Outcome| (outcome.voice, outcome.link.note.onset);
        let start = self.0.partition_point(|outcome| key(outcome) < (voice, note.onset));
        let of_onset = self.0[start..].iter().take_while(|it| key(it) == (voice, note.onset));
        of_onset.copied().find(|outcome| outcome.link.note == note)
    }
}
