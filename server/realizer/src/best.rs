//! The best ways: a search that goes on first where the end can be reached at the least cost, as
//! far as a graph of all ways can tell. Every way is judged by all rules, with all that has come
//! before it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::rc::Rc;

use bicinium_analysis::judge::Moment;

use crate::bench::{Bench, Panel, State};
use crate::chart::Chart;
use crate::graph::{Edge, Graph};
use crate::result::{Extent, Found, Realization};
use crate::watch::{REMEMBERED, Spent, Watch};

/// Finds the best ways, the best first.
pub(crate) fn best(
    bench: &Bench<'_>,
    chart: &Chart,
    most: usize,
    watch: &Watch<'_>,
) -> Found<Realization> {
    let mut search = Search::new(bench, chart);
    let mut found = Vec::new();
    while found.len() < most {
        let Some(Reverse(first)) = search.open.pop() else { break };
        match search.go_on(first, watch) {
            Ok(way) => found.extend(way),
            Err(Spent) => return Found { found, extent: Extent::AtLeast },
        }
    }
    Found { found, extent: Extent::All }
}

struct Search<'a> {
    bench: &'a Bench<'a>,
    chart: &'a Chart,
    all: Panel<'a>,
    open: BinaryHeap<Reverse<Candidate>>,
    /// How many candidates have been made: of equal ones the first comes first.
    made: usize,
}

/// A way as far as it has been gone, with the next edge to be tried or without, when it has come to its end.
struct Candidate {
    /// What the whole will cost at least.
    at_least: u32,
    /// The farther a way has come, the sooner it is gone on with.
    to_come: Reverse<usize>,
    made: usize,
    trunk: Rc<Trunk>,
    edge: Option<Edge>,
}

/// A way as far as it has been judged.
struct Trunk {
    state: State,
    node: usize,
    cost: u32,
    path: Option<Rc<Link>>,
    length: usize,
}

struct Link {
    moment: Moment,
    before: Option<Rc<Link>>,
}

impl<'a> Search<'a> {
    fn new(bench: &'a Bench<'a>, chart: &'a Chart) -> Self {
        let mut search = Self { bench, chart, all: bench.all(), open: BinaryHeap::new(), made: 0 };
        if chart.is_open() {
            let state = State::start();
            let node = Graph::START;
            let cost = bench.rhythm.unwrap_or(0);
            let trunk = Rc::new(Trunk { state, node, cost, path: None, length: 0 });
            search.offer(&trunk);
        }
        search
    }

    /// Offers all ways to go on from a trunk.
    fn offer(&mut self, trunk: &Rc<Trunk>) {
        for (edge, rest) in self.chart.ways_on(trunk.node) {
            let at_least = (trunk.cost + trunk.state.against()).saturating_add(rest);
            self.open.push(Reverse(Candidate {
                at_least,
                to_come: Reverse(trunk.length),
                made: self.made,
                trunk: trunk.clone(),
                edge: Some(*edge),
            }));
            self.made += 1;
        }
    }

    /// Judges the next edge of a candidate; the whole way, if it has come to its end.
    fn go_on(
        &mut self,
        candidate: Candidate,
        watch: &Watch<'_>,
    ) -> Result<Option<Realization>, Spent> {
        let trunk = candidate.trunk;
        let Some(edge) = candidate.edge else {
            let resistance = candidate.at_least;
            return Ok(Some(Realization { resistance, moments: path(trunk.path.as_deref()) }));
        };
        watch.spend(REMEMBERED)?;
        let onset = self.chart.graph.onset(trunk.node);
        let moment = Moment { onset, strokes: edge.strokes };
        let Ok((state, own)) = self.bench.after(&self.all, &trunk.state, &moment) else {
            return Ok(None);
        };
        let link = Rc::new(Link { moment, before: trunk.path.clone() });
        let (cost, length) = (trunk.cost + own, trunk.length + 1);
        let next =
            Trunk { state, node: edge.to.unwrap_or_default(), cost, path: Some(link), length };
        match edge.to {
            Some(_) => self.offer(&Rc::new(next)),
            None => self.arrive(next),
        }
        Ok(None)
    }

    fn arrive(&mut self, trunk: Trunk) {
        let moments = path(trunk.path.as_deref());
        let Ok(end) = self.bench.close(&self.all, &trunk.state.memory, &moments) else { return };
        let at_least = trunk.cost + trunk.state.against() + end;
        let to_come = Reverse(trunk.length);
        let made = self.made;
        self.made += 1;
        let trunk = Rc::new(trunk);
        self.open.push(Reverse(Candidate { at_least, to_come, made, trunk, edge: None }));
    }
}

fn path(mut link: Option<&Link>) -> Vec<Moment> {
    let mut moments = Vec::new();
    while let Some(here) = link {
        moments.push(here.moment);
        link = here.before.as_deref();
    }
    moments.reverse();
    moments
}

impl Candidate {
    fn rank(&self) -> (u32, Reverse<usize>, usize) {
        (self.at_least, self.to_come, self.made)
    }
}

impl PartialEq for Candidate {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}

impl Eq for Candidate {}

impl PartialOrd for Candidate {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Candidate {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.rank().cmp(&other.rank())
    }
}
