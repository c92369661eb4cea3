//! A graph of ways with what it costs at least from every node to the end. Where a condition is put on the
//! ways, the graph stays and only the costs change.

use std::rc::Rc;

use bicinium_analysis::judge::Moment;

use crate::graph::{Edge, Graph};

/// A graph, and the least that it costs to the end.
#[derive(Clone, Debug)]
pub(crate) struct Chart {
    pub(crate) graph: Rc<Graph>,
    /// From each edge, the edge included; nothing where there is no way.
    rests: Vec<Option<u32>>,
    /// From each node.
    to_go: Vec<Option<u32>>,
}

impl Chart {
    pub(crate) fn new(graph: Graph) -> Self {
        Self::of(Rc::new(graph), |_| true)
    }

    /// The same ways, as far as all that is done in them is admitted.
    pub(crate) fn through(&self, admits: impl Fn(&Edge) -> bool) -> Self {
        Self::of(self.graph.clone(), admits)
    }

    fn of(graph: Rc<Graph>, admits: impl Fn(&Edge) -> bool) -> Self {
        let mut rests = vec![None; graph.edges.len()];
        let mut to_go: Vec<Option<u32>> = vec![None; graph.len()];
        for node in graph.order().rev() {
            for index in graph.edges_of(node) {
                let edge = &graph.edges[index];
                let after = edge.to.map_or(Some(0), |to| to_go[to]);
                rests[index] = after.filter(|_| admits(edge)).map(|after| edge.cost + after);
            }
            to_go[node] = graph.edges_of(node).filter_map(|index| rests[index]).min();
        }
        Self { graph, rests, to_go }
    }

    /// Whether there is any way.
    pub(crate) fn is_open(&self) -> bool {
        self.to_go.get(Graph::START).is_some_and(Option::is_some)
    }

    /// What can be done at a node so that the end can be reached, each with the least that it costs to
    /// the end.
    pub(crate) fn ways_on(&self, node: usize) -> impl Iterator<Item = (&Edge, u32)> {
        let edges = self.graph.edges_of(node);
        edges.filter_map(|index| Some((&self.graph.edges[index], self.rests[index]?)))
    }

    /// The way that costs least, as far as the graph can tell.
    pub(crate) fn cheapest(&self) -> Option<Vec<Moment>> {
        let (mut moments, mut node) = (Vec::new(), Some(Graph::START).filter(|_| self.is_open()));
        while let Some(here) = node {
            let (edge, _) = self.ways_on(here).min_by_key(|way_on| way_on.1)?;
            moments.push(Moment { onset: self.graph.onset(here), strokes: edge.strokes });
            node = edge.to;
        }
        (!moments.is_empty()).then_some(moments)
    }

    /// Whether something is one of the ways.
    pub(crate) fn holds(&self, moments: &[Moment]) -> bool {
        let mut node = Some(Graph::START);
        for moment in moments {
            let Some(here) = node else { return false };
            let does = |edge: &Edge| edge.strokes == moment.strokes;
            let way_on = self.ways_on(here).find(|(edge, _)| does(edge));
            let Some((edge, _)) = way_on.filter(|_| self.graph.onset(here) == moment.onset) else {
                return false;
            };
            node = edge.to;
        }
        node.is_none()
    }

    /// All that is done on some way from the beginning to the end.
    pub(crate) fn walked(&self) -> impl Iterator<Item = &Edge> {
        let mut reached = vec![false; self.graph.len()];
        if let Some(start) = reached.get_mut(Graph::START) {
            *start = true;
        }
        let mut walked = Vec::new();
        for node in self.graph.order().filter(|_| self.is_open()) {
            if !reached[node] {
                continue;
            }
            for (edge, _) in self.ways_on(node) {
                edge.to.into_iter().for_each(|to| reached[to] = true);
                walked.push(edge);
            }
        }
        walked.into_iter()
    }
}
