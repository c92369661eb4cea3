//! All ways to fill an exercise as one graph: ways that go on alike, as far as a sight reaches, meet
//! in one node. With the sight of every rule that can close a way the graph holds each way exactly
//! once; with a shorter one it holds more than there are, and what it costs to the end is a lower
//! bound. Knows no rule by name.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{BuildHasher, Hash};
use std::ops::Range;

use bicinium_analysis::judge::{Heard, Memory, Moment, Sight, Step, Stroke};
use bicinium_analysis::reading::Hearing;
use bicinium_analysis::score::{Pair, Setting, VoiceId};
use bicinium_theory::{Duration, Interval, Pitch};
use indexmap::IndexMap;
use rustc_hash::{FxBuildHasher, FxHashMap};

use crate::bench::{Bench, Closed, Panel};
use crate::chart::Chart;
use crate::layout::{Layout, Part};
use crate::resistance;
use crate::watch::{REMEMBERED, Spent, Watch};

/// What an exercise is to be filled with, and who judges it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Task<'a> {
    pub(crate) bench: &'a Bench<'a>,
    pub(crate) layout: &'a Layout,
    /// What may be tried in a hole.
    pub(crate) pitches: &'a [Pitch],
}

/// A moment at which ways meet.
#[derive(Clone, Debug)]
struct Node {
    onset: Duration,
    edges: Range<usize>,
}

/// What is done at a moment.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    pub(crate) strokes: Pair<Stroke>,
    /// The node it leads to; the end if there is none.
    pub(crate) to: Option<usize>,
    pub(crate) cost: u32,
}

impl Edge {
    /// The note that a voice begins.
    pub(crate) fn note(&self, voice: VoiceId) -> Option<Heard> {
        match self.strokes[voice] {
            Stroke::Strikes(note) => Some(note),
            _ => None,
        }
    }

    /// Whether a voice can still begin a pitch at an instant.
    pub(crate) fn agrees(&self, voice: VoiceId, onset: Duration, pitch: Pitch) -> bool {
        self.note(voice).is_none_or(|note| {
            let is_apart = onset < note.onset || note.end() <= onset;
            is_apart || (note.onset == onset && note.pitch == pitch)
        })
    }
}

/// The ways to fill an exercise.
#[derive(Clone, Debug)]
pub(crate) struct Graph {
    nodes: Vec<Node>,
    pub(crate) edges: Vec<Edge>,
    /// The nodes in order of time; the first is where all ways begin.
    order: Vec<usize>,
    pub(crate) barrier: Barrier,
}

/// The farthest moment that was closed, by what, and what closed anything before.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Barrier {
    pub(crate) onset: Duration,
    /// What closed the farthest moment.
    pub(crate) rules: BTreeSet<Closed>,
    /// What closed any.
    pub(crate) all: BTreeSet<Closed>,
}

/// What may still be seen at a node.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct Outlook {
    memory: Memory,
    hearings: Vec<Hearing>,
}

impl Graph {
    /// Where all ways begin.
    pub(crate) const START: usize = 0;

    /// Finds all ways as far as a sight reaches; with a guide, only those that the guide holds too.
    pub(crate) fn build(
        task: Task<'_>,
        sight: Sight,
        guide: Option<&Chart>,
        watch: &Watch<'_>,
    ) -> Result<Self, Spent> {
        let length = task.bench.score.setting.length();
        let mut builder = Builder::new(task, sight, guide);
        while let Some((onset, layer)) = builder.pending.pop_first() {
            watch.tell(f64::from(onset.ticks()) / f64::from(length.ticks().max(1)));
            builder.expand(onset, layer, watch)?;
        }
        Ok(builder.graph)
    }

    pub(crate) fn onset(&self, node: usize) -> Duration {
        self.nodes[node].onset
    }

    pub(crate) fn len(&self) -> usize {
        self.nodes.len()
    }

    /// The nodes in order of time.
    pub(crate) fn order(&self) -> impl DoubleEndedIterator<Item = usize> + '_ {
        self.order.iter().copied()
    }

    /// Where the edges of a node stand among all.
    pub(crate) fn edges_of(&self, node: usize) -> Range<usize> {
        self.nodes[node].edges.clone()
    }
}

struct Builder<'a> {
    task: Task<'a>,
    sight: Sight,
    guide: Option<&'a Chart>,
    /// The rules that see only the last notes, and the others.
    near: Panel<'a>,
    far: Panel<'a>,
    /// All of them.
    within: Panel<'a>,
    graph: Graph,
    /// What is still to be gone on from, by time; each with its node and that of the guide.
    pending: BTreeMap<Duration, Layer>,
}

type Layer = IndexMap<Outlook, Place, FxBuildHasher>;

/// Where an outlook stands.
#[derive(Clone, Copy, Debug)]
struct Place {
    node: usize,
    guide: usize,
}

/// What rules that see only the last notes say, found once for all ways that share these.
#[derive(Default)]
struct Known {
    outlooks: FxHashMap<Memory, u32>,
    verdicts: FxHashMap<(u32, Pair<Stroke>), Result<u32, Closed>>,
}

impl<'a> Builder<'a> {
    fn new(task: Task<'a>, sight: Sight, guide: Option<&'a Chart>) -> Self {
        let is_near = |of: Sight| of.is_within(Sight::LAST);
        let near = task.bench.panel(|active| is_near(active.rule.sight()));
        let far = task.bench.panel(|active| {
            let own = active.rule.sight();
            !is_near(own) && own.is_within(sight)
        });
        let within = task.bench.within(sight);
        let graph = Graph {
            nodes: Vec::new(),
            edges: Vec::new(),
            order: Vec::new(),
            barrier: Barrier::default(),
        };
        let pending = BTreeMap::new();
        let mut builder = Self { task, sight, guide, near, far, within, graph, pending };
        if task.bench.score.setting.bars > 0 {
            let outlook = Outlook { memory: Memory::default(), hearings: vec![Hearing::default()] };
            builder.place(Duration::ZERO, outlook, 0);
        }
        builder
    }

    fn place(&mut self, onset: Duration, outlook: Outlook, guide: usize) -> usize {
        let next = self.graph.nodes.len();
        let layer = self.pending.entry(onset).or_default();
        let place = *layer.entry(outlook).or_insert(Place { node: next, guide });
        if place.node == next {
            self.graph.nodes.push(Node { onset, edges: 0..0 });
        }
        place.node
    }

    fn expand(&mut self, onset: Duration, layer: Layer, watch: &Watch<'_>) -> Result<(), Spent> {
        let mut known = Known::default();
        for (outlook, place) in layer {
            watch.spend(REMEMBERED)?;
            let start = self.graph.edges.len();
            self.go_on(onset, &outlook, place, &mut known, watch)?;
            self.graph.order.push(place.node);
            self.graph.nodes[place.node].edges = start..self.graph.edges.len();
        }
        Ok(())
    }

    fn go_on(
        &mut self,
        onset: Duration,
        outlook: &Outlook,
        place: Place,
        known: &mut Known,
        watch: &Watch<'_>,
    ) -> Result<(), Spent> {
        let last = known.outlook(&outlook.memory, &self.task);
        for (strokes, guide) in self.options(onset, outlook, place) {
            watch.spend(1)?;
            let moment = Moment { onset, strokes };
            match self.edge(&moment, outlook, (last, guide), known) {
                Ok(edge) => self.graph.edges.push(edge),
                Err(rule) => self.graph.barrier.close(onset, rule),
            }
        }
        Ok(())
    }

    /// What may be tried at a node, each with the node of the guide that it leads to.
    fn options(
        &self,
        onset: Duration,
        outlook: &Outlook,
        place: Place,
    ) -> Vec<(Pair<Stroke>, usize)> {
        if let Some(guide) = self.guide {
            let ways = guide.ways_on(place.guide);
            return ways.map(|(edge, _)| (edge.strokes, edge.to.unwrap_or_default())).collect();
        }
        self.task.options(onset, &outlook.memory).into_iter().map(|strokes| (strokes, 0)).collect()
    }

    fn edge(
        &mut self,
        moment: &Moment,
        outlook: &Outlook,
        (last, guide): (u32, usize),
        known: &mut Known,
    ) -> Result<Edge, Closed> {
        let bench = self.task.bench;
        let setting = &bench.score.setting;
        if let Some(Err(rule)) = known.verdicts.get(&(last, moment.strokes)) {
            return Err(rule);
        }
        let after = outlook.memory.after(moment);
        let step = Step { setting, before: &outlook.memory, now: moment, after: &after };
        let near = *known
            .verdicts
            .entry((last, moment.strokes))
            .or_insert_with(|| bench.step(&self.near, &step));
        let mut cost = near?
            + resistance::of_notes(&bench.listener.rules.ranking, &step)
            + bench.step(&self.far, &step)?;
        let before = outlook.hearings.iter().map(|hearing| (hearing, 0));
        let hearings = bench.hear(&self.within, before, &step)?;
        cost += hearings.iter().map(|known| known.1).min().unwrap_or(0);
        let Some(next) = self.task.layout.next(moment.onset, &after) else {
            cost += bench.close(&self.within, &after, bench.moments)?;
            return Ok(Edge { strokes: moment.strokes, to: None, cost });
        };
        let outlook = Outlook::new(&after, &hearings, self.sight, (setting, next));
        let to = self.place(next, outlook, guide);
        Ok(Edge { strokes: moment.strokes, to: Some(to), cost })
    }
}

impl Task<'_> {
    /// What both voices may do at a moment, the nearest to their last notes first.
    pub(crate) fn options(&self, onset: Duration, memory: &Memory) -> Vec<Pair<Stroke>> {
        let own = Pair::from_fn(|voice| self.options_of(voice, onset, memory));
        let pairs = own
            .upper
            .iter()
            .flat_map(|upper| own.lower.iter().map(|lower| Pair { upper: *upper, lower: *lower }));
        pairs.collect()
    }

    fn options_of(&self, voice: VoiceId, onset: Duration, memory: &Memory) -> Vec<Stroke> {
        let line = &memory.lines[voice];
        let (lengths, may_rest) = match self.layout.part(voice, onset, line) {
            Part::Fixed(stroke) => return vec![stroke],
            Part::Lasting(note, lengths) => {
                let longer = lengths.into_iter().map(|duration| Heard { duration, ..note });
                return [note].into_iter().chain(longer).map(Stroke::Strikes).collect();
            }
            Part::Free(lengths) => (lengths, false),
            Part::FreeOrRest(lengths) => (lengths, true),
        };
        let last = line.last();
        let way =
            |pitch: &Pitch| last.map(|last| Interval::between(last.pitch, *pitch).steps().abs());
        let mut pitches = self.pitches.to_vec();
        pitches.sort_by_key(way);
        let strike = |pitch: Pitch| {
            lengths
                .iter()
                .map(move |duration| Stroke::Strikes(Heard { pitch, onset, duration: *duration }))
        };
        let rest = may_rest.then_some(Stroke::Rests);
        rest.into_iter().chain(pitches.into_iter().flat_map(strike)).collect()
    }
}

impl Known {
    /// A number for all memories that agree in what every rule sees.
    fn outlook(&mut self, memory: &Memory, task: &Task<'_>) -> u32 {
        let setting = &task.bench.score.setting;
        let next = u32::try_from(self.outlooks.len()).unwrap_or(u32::MAX);
        let last = memory.within(Sight::LAST, setting, Duration::ZERO, &[]);
        *self.outlooks.entry(last).or_insert(next)
    }
}

impl Outlook {
    fn new(
        memory: &Memory,
        hearings: &[(Hearing, u32)],
        sight: Sight,
        (setting, next): (&Setting, Duration),
    ) -> Self {
        let places: Vec<_> = hearings.iter().flat_map(|known| known.0.places()).collect();
        let memory = memory.within(sight, setting, next, &places);
        let cut = hearings.iter().map(|known| known.0.within(sight, &memory));
        let mut hearings: Vec<_> =
            cut.map(|hearing| (FxBuildHasher.hash_one(&hearing), hearing)).collect();
        hearings.sort_by_key(|known| known.0);
        hearings.dedup_by(|a, b| a.1 == b.1);
        Self { memory, hearings: hearings.into_iter().map(|known| known.1).collect() }
    }
}

impl Barrier {
    /// Remembers what closes the farthest moment.
    fn close(&mut self, onset: Duration, rule: Closed) {
        self.all.insert(rule);
        if onset > self.onset {
            self.onset = onset;
            self.rules.clear();
        }
        if onset == self.onset {
            self.rules.insert(rule);
        }
    }
}
