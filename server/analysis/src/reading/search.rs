//! The search for the best way of hearing a whole exercise: all ways are carried forward moment by
//! moment, equal ones merged, and the cheapest is kept; a pass back gives for every bar what each
//! other harmony would cost. Knows how to ask the rules, not what they say.

use std::collections::HashMap;

use super::cost::Cost;
use super::figure::Outcome;
use super::hearing::Hearing;
use super::listener::Listener;
use super::vocabulary::HarmonyId;
use crate::judge::{Admission, Breach, Detail, Memory, Moment, Step};

/// A whole exercise, ready to be heard: its moments, and what can be seen of the notes before and
/// after each of them.
#[derive(Clone, Copy, Debug)]
pub struct Passage<'a> {
    /// The ear that hears it.
    pub listener: Listener<'a>,
    /// The moments.
    pub moments: &'a [Moment],
    /// What can be seen before each moment, and after the last one.
    pub memories: &'a [Memory],
}

impl<'a> Passage<'a> {
    /// A moment with what can be seen around it.
    pub fn step(&self, index: usize) -> Step<'a> {
        Step {
            setting: self.listener.setting,
            before: &self.memories[index],
            now: &self.moments[index],
            after: &self.memories[index + 1],
        }
    }
}

/// The best way of hearing a passage.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Best {
    /// How it is heard after each moment.
    pub path: Vec<Hearing>,
    /// What became of every foreign note.
    pub outcomes: Vec<Outcome>,
    /// What the rules say of it.
    pub breaches: Vec<Breach>,
    /// What they let pass for a reason.
    pub admissions: Vec<Admission>,
    /// For each moment, how much more each harmony would cost in the whole; only those that can
    /// be heard at all, in the order of the vocabulary.
    pub margins: Vec<Vec<(HarmonyId, u64)>>,
}

/// Finds the best way of hearing a passage.
pub fn best(passage: &Passage<'_>) -> Best {
    let lattice = Lattice::build(passage);
    let path = lattice.cheapest_path();
    let mut best = Best { margins: lattice.margins(), ..Best::default() };
    best.retell(passage, &path);
    best.path = path;
    best
}

impl Best {
    /// Walks along a path once more, to hear what the rules say in words.
    fn retell(&mut self, passage: &Passage<'_>, path: &[Hearing]) {
        let mut before = &Hearing::default();
        for (index, after) in path.iter().enumerate() {
            let step = passage.step(index);
            let heard = passage.listener.hear(step, before, after.harmony, Detail::Worded);
            self.outcomes.extend(heard.outcomes);
            self.breaches.extend(heard.breaches);
            self.admissions.extend(heard.admissions);
            before = after;
        }
    }
}

/// All ways of hearing a passage, moment by moment.
struct Lattice {
    layers: Vec<Layer>,
}

#[derive(Default)]
struct Layer {
    nodes: Vec<Node>,
    edges: Vec<Edge>,
}

struct Node {
    hearing: Hearing,
    /// The cheapest way to here.
    cost: Cost,
    /// The node it comes from.
    from: usize,
}

struct Edge {
    from: usize,
    to: usize,
    cost: Cost,
}

impl Lattice {
    fn build(passage: &Passage<'_>) -> Self {
        let start = Node { hearing: Hearing::default(), cost: Cost::default(), from: 0 };
        let mut layers = vec![Layer { nodes: vec![start], edges: Vec::new() }];
        for index in 0..passage.moments.len() {
            let next = layers.last().map(|layer| layer.next(passage, index)).unwrap_or_default();
            layers.push(next);
        }
        Self { layers }
    }

    fn cheapest_path(&self) -> Vec<Hearing> {
        let mut index = self.layers.last().map_or(0, Layer::cheapest);
        let mut path = Vec::new();
        for layer in self.layers.iter().skip(1).rev() {
            let node = &layer.nodes[index];
            path.push(node.hearing.clone());
            index = node.from;
        }
        path.reverse();
        path
    }

    /// For each moment, how much more each harmony would cost in the whole.
    fn margins(&self) -> Vec<Vec<(HarmonyId, u64)>> {
        let total = self.layers.last().map(|layer| layer.nodes[layer.cheapest()].cost);
        let total = total.unwrap_or_default();
        let mut to_go = vec![Cost::default(); self.layers.last().map_or(0, |l| l.nodes.len())];
        let mut margins = Vec::new();
        for layer in self.layers.iter().skip(1).rev() {
            margins.push(layer.margins(&to_go, total));
            to_go = layer.back(&to_go);
        }
        margins.reverse();
        margins
    }
}

impl Layer {
    fn next(&self, passage: &Passage<'_>, index: usize) -> Self {
        let mut known: HashMap<Hearing, usize> = HashMap::new();
        let mut next = Self::default();
        let step = passage.step(index);
        let choices = passage.listener.choices(&step);
        for (from, node) in self.nodes.iter().enumerate() {
            for harmony in choices.after(&node.hearing, &step) {
                let heard = passage.listener.hear(step, &node.hearing, harmony, Detail::Counted);
                let total = node.cost + heard.cost;
                let to = *known.entry(heard.after.clone()).or_insert(next.nodes.len());
                next.edges.push(Edge { from, to, cost: heard.cost });
                next.offer(to, Node { hearing: heard.after, cost: total, from });
            }
        }
        next
    }

    fn offer(&mut self, at: usize, node: Node) {
        match self.nodes.get_mut(at) {
            Some(known) if node.cost < known.cost => *known = node,
            Some(_) => {}
            None => self.nodes.push(node),
        }
    }

    fn cheapest(&self) -> usize {
        let costs = self.nodes.iter().enumerate().map(|(index, node)| (node.cost, index));
        costs.min().map_or(0, |(_, index)| index)
    }

    /// What it costs to go to the end from each node of the layer before.
    fn back(&self, to_go: &[Cost]) -> Vec<Cost> {
        let before = self.edges.iter().map(|edge| edge.from + 1).max().unwrap_or(0);
        let mut costs: Vec<Option<Cost>> = vec![None; before];
        for edge in &self.edges {
            let cost = edge.cost + to_go[edge.to];
            let known = costs[edge.from].get_or_insert(cost);
            *known = cost.min(*known);
        }
        costs.into_iter().map(Option::unwrap_or_default).collect()
    }

    fn margins(&self, to_go: &[Cost], total: Cost) -> Vec<(HarmonyId, u64)> {
        let mut margins: Vec<(HarmonyId, u64)> = Vec::new();
        for (node, to_go) in self.nodes.iter().zip(to_go) {
            let Some(harmony) = node.hearing.harmony else { continue };
            let margin = (node.cost + *to_go).above(total);
            match margins.iter_mut().find(|known| known.0 == harmony) {
                Some(known) => known.1 = known.1.min(margin),
                None => margins.push((harmony, margin)),
            }
        }
        margins.sort_unstable();
        margins
    }
}
