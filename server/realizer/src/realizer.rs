//! The questions that can be asked of an exercise with open places, and how they are answered: a rough
//! chart of all ways guides an exact one; counts and chances come from the exact one, the best ways
//! from a search that either of them guides.

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

use bicinium_analysis::judge::{Moment, Sight, Trace, moments};
use bicinium_analysis::reading::{Listener, Vocabulary};
use bicinium_analysis::rulebook::Active;
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_analysis::{Exercise, Level};
use bicinium_theory::{Duration, Pitch};

use crate::bench::Bench;
use crate::best::best;
use crate::candidates;
use crate::chart::Chart;
use crate::completed::completed;
use crate::count::{Counts, sample};
use crate::graph::{Barrier, Edge, Graph, Task};
use crate::layout::Layout;
use crate::result::{Count, DeadEnd, Extent, Found, Opening, Realization, Viable};
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

    /// When the first note begins that a voice may choose from one instant on and before another.
    pub fn first_choice(&self, voice: VoiceId, from: Duration, to: Duration) -> Option<Duration> {
        let edges = self.nearest()?.walked();
        let begun = edges.flat_map(|edge| self.begun(edge)).filter(|known| known.1 == voice);
        begun.map(|known| known.0).filter(|onset| (from..to).contains(onset)).min()
    }

    /// What may begin in a voice at an instant, the best first.
    pub fn opening(&self, voice: VoiceId, onset: Duration) -> Found<Viable> {
        let Some(chart) = self.best_known() else { return Found::nothing() };
        let begun = chart.walked().filter_map(|edge| edge.begins(voice, onset));
        let pitches: BTreeSet<Pitch> = begun.map(|note| note.pitch).collect();
        let mut extent = Extent::All;
        let mut found = Vec::new();
        for pitch in pitches {
            let through = chart.through(|edge| edge.agrees(voice, onset, pitch));
            let best = self.best_of(&through, 1);
            extent = extent.and(best.extent);
            let way = best.found.into_iter().next().or_else(|| self.sure(&through));
            found.extend(way.and_then(|way| viable(way, voice, onset)));
        }
        found.sort_by_key(|viable: &Viable| viable.way.resistance);
        Found { found, extent }
    }

    /// The smallest stretch that cannot be joined; nothing if there is a way, or if the budget is
    /// used up before that is known.
    pub fn dead_end(&self) -> Option<DeadEnd> {
        let best = self.best(1);
        if best.extent == Extent::AtLeast || !best.found.is_empty() {
            return None;
        }
        let setting = &self.score().setting;
        let stretch = (0, setting.bars.checked_sub(1)?);
        let barrier = |stretch| self.barrier(stretch, &self.terms).ok().flatten();
        let last = setting.bar_of(barrier(stretch)?.onset);
        (0..=last).rev().find_map(|first| {
            let barrier = barrier((first, last))?;
            let rules = self.responsible((first, last), &barrier);
            Some(DeadEnd { first, last, onset: barrier.onset, rules })
        })
    }

    /// The rules each of which has to give way for a stretch to be joined; what closes its last moment,
    /// if no single one would do.
    fn responsible(&self, stretch: (u32, u32), barrier: &Barrier) -> Vec<&'static str> {
        let is_one = |rule: &&&'static str| {
            let waived = self.barrier(stretch, &self.terms.waiving(rule));
            matches!(waived, Ok(None))
        };
        let alone: Vec<_> = barrier.all.iter().filter(is_one).copied().collect();
        if alone.is_empty() { barrier.rules.iter().copied().collect() } else { alone }
    }

    fn score(&self) -> &Score {
        &self.score
    }

    /// What closes a stretch of bars on these terms, if everything outside it is left unwritten; nothing
    /// if it can be joined.
    fn barrier(&self, (first, last): (u32, u32), terms: &Terms) -> Result<Option<Barrier>, Spent> {
        let setting = &self.score().setting;
        let layout = self.layout.only(setting.bar_start(first), setting.bar_start(last + 1));
        let bench = Bench { terms, ..self.bench() };
        let task = Task { bench: &bench, layout: &layout, pitches: &self.pitches };
        let graph = Graph::build(task, self.exact_sight(), None, self.watch)?;
        let barrier = graph.barrier.clone();
        Ok((!Chart::new(graph).is_open()).then_some(barrier))
    }

    fn best_of(&self, chart: &Chart, most: usize) -> Found<Realization> {
        best(&self.bench(), chart, most, self.watch)
    }

    /// The exact chart if there is one, otherwise the rough one.
    fn nearest(&self) -> Option<&Chart> {
        self.exact().or_else(|_| self.guide()).ok()
    }

    /// The chart that tells most exactly what a way costs, as far as the budget lets it be found.
    fn best_known(&self) -> Option<&Chart> {
        let guide = self.guide().ok()?;
        let exact = self.watch.half(|| self.exact()).ok();
        let ranked = exact.and_then(|_| self.watch.half(|| self.ranked()).ok());
        ranked.or(exact).or(Some(guide))
    }

    /// A way of which a chart knows without a search, the one that it takes for the best; nothing as long as
    /// only the rough chart is there.
    fn sure(&self, chart: &Chart) -> Option<Realization> {
        self.exact.get()?.as_ref().ok()?;
        self.bench().weighed(chart.cheapest()?)
    }

    /// A chart in which ways meet only if they also agree in what cautions go by.
    fn ranked(&self) -> Result<&Chart, Spent> {
        let exact = self.exact()?;
        if self.ranking_sight().is_within(self.exact_sight()) {
            return Ok(exact);
        }
        let build = || self.chart(self.ranking_sight(), Some(exact));
        self.ranked.get_or_init(build).as_ref().map_err(|spent| *spent)
    }

    fn guide(&self) -> Result<&Chart, Spent> {
        let build = || self.chart(self.guide_sight(), None);
        self.guide.get_or_init(build).as_ref().map_err(|spent| *spent)
    }

    fn exact(&self) -> Result<&Chart, Spent> {
        let guide = self.guide()?;
        if self.exact_sight().is_within(self.guide_sight()) {
            return Ok(guide);
        }
        if !self.can_merge() {
            return Err(Spent);
        }
        let build = || self.chart(self.exact_sight(), Some(guide));
        self.exact.get_or_init(build).as_ref().map_err(|spent| *spent)
    }

    fn chart(&self, sight: Sight, guide: Option<&Chart>) -> Result<Chart, Spent> {
        let bench = self.bench();
        let task = Task { bench: &bench, layout: &self.layout, pitches: &self.pitches };
        Graph::build(task, sight, guide, self.watch).map(Chart::new)
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

    /// What the last two notes decide.
    fn guide_sight(&self) -> Sight {
        self.own_sight().and(Sight::notes(2))
    }

    /// What every rule sees that can close a way.
    fn exact_sight(&self) -> Sight {
        self.own_sight().and(self.bench().strict().sight())
    }

    /// What every rule sees that weighs as much as a caution, but for those that look at the whole. Advice
    /// weighs little and looks far.
    fn ranking_sight(&self) -> Sight {
        let counts = |active: &Active| {
            active.level <= Level::Caution && !active.rule.sight().sees(Trace::Whole)
        };
        self.own_sight().and(self.bench().panel(counts).sight())
    }

    /// What is seen in any case: what the ear goes by, and a cantus that is given.
    fn own_sight(&self) -> Sight {
        let ear = self.bench().listener.sight();
        let has_licences = !self.score().licences.is_empty();
        let places = Sight::of(Trace::Figures).and(Sight::of(Trace::Extremes));
        let ear = if has_licences { ear.and(places) } else { ear };
        let is_given = self.score().setting.cantus.is_some_and(|voice| !self.layout.is_open(voice));
        if is_given { ear.and(Sight::of(Trace::Cantus)) } else { ear }
    }

    /// Whether ways may meet at all: no rule that can close one looks at the whole.
    fn can_merge(&self) -> bool {
        let strict = self.bench().strict().sight();
        let sees_cantus = strict.sees(Trace::Cantus) && !self.own_sight().sees(Trace::Cantus);
        let is_defined = self.score().setting.definition.is_some();
        !(strict.sees(Trace::Whole) || (sees_cantus && is_defined))
    }

    /// The open places at which something begins on an edge.
    fn begun(&self, edge: &Edge) -> Vec<(Duration, VoiceId)> {
        let notes = VoiceId::BOTH.map(|voice| Some((edge.note(voice)?.onset, voice)));
        let is_open = |place: &(Duration, VoiceId)| self.layout.is_open_at(place.1, place.0);
        notes.into_iter().flatten().filter(is_open).collect()
    }
}

fn viable(way: Realization, voice: VoiceId, onset: Duration) -> Option<Viable> {
    let note = way.note(voice, onset)?;
    Some(Viable { pitch: note.pitch, duration: note.duration, way })
}
