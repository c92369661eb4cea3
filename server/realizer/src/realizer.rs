//! The questions that can be asked of an exercise with open places, and how they are answered: a rough
//! chart of all ways guides an exact one; counts and chances come from the exact one, the best ways
//! from a search that either of them guides.

mod charts;
mod dead_end;

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::ops::{Range, RangeInclusive};

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::{Heard, Moment, moments};
use bicinium_analysis::reading::{Listener, Vocabulary};
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_theory::{Duration, Pitch};

use crate::bench::Bench;
use crate::best::best;
use crate::candidates;
use crate::chart::Chart;
use crate::completed::completed;
use crate::count::{Counts, sample};
use crate::graph::Edge;
use crate::layout::Layout;
use crate::result::{Count, Extent, Found, Opening, Realization, Viable};
use crate::terms::Terms;
use crate::watch::{Spent, Watch};

/// How many ways are looked for where they cannot all be counted.
const SOME: usize = 1000;

/// An exercise, ready to be realized.
#[derive(Debug)]
pub struct Realizer<'a> {
    exercise: &'a Exercise,
    terms: Terms,
    score: Score,
    watch: &'a Watch<'a>,
    vocabulary: Vocabulary,
    moments: Vec<Moment>,
    layout: Layout,
    pitches: Vec<Pitch>,
    rhythm: Option<u32>,
    guide: OnceCell<Result<Chart, Spent>>,
    exact: OnceCell<Result<Chart, Spent>>,
    ranked: OnceCell<Result<Chart, Spent>>,
}

impl<'a> Realizer<'a> {
    /// Makes ready: everything that is open is to be filled, as long as the watch lets it.
    pub fn new(exercise: &'a Exercise, watch: &'a Watch<'a>) -> Self {
        Self::on(Terms::default(), exercise, watch)
    }

    /// The same on terms of one's own.
    pub fn on(terms: Terms, exercise: &'a Exercise, watch: &'a Watch<'a>) -> Self {
        let (score, rules) = (completed(&exercise.score), exercise.rules());
        let score = terms.applied_to(score);
        let layout = Layout::new(&score).filling(|voice, onset| terms.fill(voice, onset));
        let mut realizer = Self {
            exercise,
            terms,
            watch,
            vocabulary: Vocabulary::new(&rules.plan, score.setting.key, &score.harmonies),
            moments: moments(&score),
            layout,
            pitches: candidates::pitches(&score.setting),
            score,
            rhythm: None,
            guide: OnceCell::new(),
            exact: OnceCell::new(),
            ranked: OnceCell::new(),
        };
        realizer.rhythm = realizer.fixed_rhythm();
        realizer
    }

    /// The same with no pitch tried in a hole that lies outside a compass.
    #[must_use]
    pub fn within(mut self, compass: RangeInclusive<Pitch>) -> Self {
        self.pitches.retain(|pitch| compass.contains(pitch));
        self
    }

    /// Whether anything is open.
    pub fn is_open(&self) -> bool {
        !self.layout.open().is_empty()
    }

    /// How many ways there are.
    pub fn count(&self) -> Count {
        if let Ok(chart) = self.exact() {
            return Count { number: Counts::of(chart).all(), extent: Extent::All };
        }
        let found = self.best(if self.can_merge() { SOME } else { usize::MAX });
        let extent = if found.found.len() == SOME { Extent::AtLeast } else { found.extent };
        Count { number: found.found.len().into(), extent }
    }

    /// The best ways, the best first.
    pub fn best(&self, most: usize) -> Found<Realization> {
        let mut known = [&self.ranked, &self.exact].into_iter();
        let known = known.find_map(|chart| chart.get()?.as_ref().ok());
        let chart = known.or_else(|| self.guide().ok());
        chart.map_or_else(Found::nothing, |chart| self.best_of(chart, most))
    }

    /// A way with what it weighs, if it is one of those that there are.
    pub fn find(&self, moments: &[Moment]) -> Option<Realization> {
        let is_one = self.nearest().is_some_and(|chart| chart.holds(moments));
        is_one.then(|| self.bench().weighed(moments.to_vec())).flatten()
    }

    /// Ways drawn with equal chances from all; the same ones for the same seed. None where they
    /// cannot all be counted.
    pub fn sample(&self, number: usize, seed: u64) -> Found<Realization> {
        let Ok(chart) = self.exact() else { return Found::nothing() };
        let bench = self.bench();
        let drawn = sample(chart, number, seed).into_iter();
        let found = drawn.filter_map(|moments| bench.weighed(moments)).collect();
        Found { found, extent: Extent::All }
    }

    /// What every open place may still become, in order of time.
    pub fn openings(&self) -> Found<Opening> {
        let Some(chart) = self.nearest() else { return Found::nothing() };
        let mut places: Vec<_> = chart.walked().flat_map(|edge| self.begun(edge)).collect();
        places.sort_unstable();
        places.dedup();
        let mut extent = Extent::All;
        let openings = places.into_iter().map(|(onset, voice)| {
            let opening = self.opening(voice, onset);
            extent = extent.and(opening.extent);
            Opening { voice, onset, viable: opening.found }
        });
        let found = openings.filter(|opening| !opening.viable.is_empty()).collect();
        Found { found, extent }
    }

    /// What may begin in a voice at an instant, the best first.
    pub fn opening(&self, voice: VoiceId, onset: Duration) -> Found<Viable> {
        self.firsts(self.best_known(), voice, &(onset..onset + Duration::from_ticks(1)))
    }

    /// What may be the first note that a voice begins in a stretch, at its start or where a note ends that is
    /// held into it, the best first.
    pub fn first_notes(&self, voice: VoiceId, stretch: &Range<Duration>) -> Found<Viable> {
        // Where rhythms differ too, little is found without the exact chart: it may use up everything.
        let chart = self.nearest().and_then(|_| self.best_known());
        self.firsts(chart, voice, stretch)
    }

    fn firsts(
        &self,
        chart: Option<&Chart>,
        voice: VoiceId,
        stretch: &Range<Duration>,
    ) -> Found<Viable> {
        let Some(chart) = chart else { return Found::nothing() };
        let mut extent = Extent::All;
        let mut found = Vec::new();
        for (onset, pitch) in firsts(chart, voice, stretch) {
            let is_before = |note: &Heard| stretch.contains(&note.onset) && note.onset < onset;
            let admits = |edge: &Edge| {
                edge.agrees(voice, onset, pitch)
                    && !edge.note(voice).as_ref().is_some_and(is_before)
            };
            let through = chart.through(admits);
            let best = self.best_of(&through, 1);
            extent = extent.and(best.extent);
            let way = best.found.into_iter().next().or_else(|| self.sure(&through));
            found.extend(way.and_then(|way| viable(way, voice, onset)));
        }
        found.sort_by_key(|viable: &Viable| viable.way.resistance);
        Found { found, extent }
    }

    fn score(&self) -> &Score {
        &self.score
    }

    fn best_of(&self, chart: &Chart, most: usize) -> Found<Realization> {
        best(&self.bench(), chart, most, self.watch)
    }

    /// A way of which a chart knows without a search, the one that it takes for the best; nothing as long as
    /// only the rough chart is there.
    fn sure(&self, chart: &Chart) -> Option<Realization> {
        self.exact().ok()?;
        self.bench().weighed(chart.cheapest()?)
    }

    /// What the rules weigh that ask for rhythm alone, if no way differs in that.
    fn fixed_rhythm(&self) -> Option<u32> {
        let any = *self.pitches.first()?;
        let moments = self.layout.in_rhythm(any)?;
        self.bench().rhythm_of(&moments)
    }

    fn bench(&self) -> Bench<'_> {
        let (score, rules) = (self.score(), self.exercise.rules());
        let (setting, written) = (&score.setting, score.harmonies.as_slice());
        let listener = Listener { setting, written, rules, vocabulary: &self.vocabulary };
        let rhythm = self.rhythm;
        Bench { score, terms: &self.terms, listener, moments: &self.moments, rhythm }
    }

    /// The open places at which something begins on an edge.
    fn begun(&self, edge: &Edge) -> Vec<(Duration, VoiceId)> {
        let notes = VoiceId::BOTH.map(|voice| Some((edge.note(voice)?.onset, voice)));
        let is_open = |place: &(Duration, VoiceId)| self.layout.is_open_at(place.1, place.0);
        notes.into_iter().flatten().filter(is_open).collect()
    }
}

/// The notes that may be the first in a stretch, with their pitches: those at its earliest choice, and those that
/// follow on one that is held into it.
fn firsts(chart: &Chart, voice: VoiceId, stretch: &Range<Duration>) -> BTreeSet<(Duration, Pitch)> {
    let notes: Vec<Heard> = chart.walked().filter_map(|edge| edge.note(voice)).collect();
    let inside: Vec<_> = notes.iter().filter(|note| stretch.contains(&note.onset)).collect();
    let held = notes.iter().filter(|note| note.onset < stretch.start).map(|note| note.end());
    let begun = inside.iter().map(|note| note.onset).min();
    let onsets: BTreeSet<_> = held.filter(|end| stretch.contains(end)).chain(begun).collect();
    let first = |note: &&Heard| onsets.contains(&note.onset);
    inside.into_iter().filter(first).map(|note| (note.onset, note.pitch)).collect()
}

fn viable(way: Realization, voice: VoiceId, onset: Duration) -> Option<Viable> {
    let note = way.note(voice, onset)?;
    Some(Viable { onset, pitch: note.pitch, duration: note.duration, way })
}
