//! All ways of hearing the music at one moment, and how each comes from those of the moment before.
//! Knows how to ask the rules, not what they say, and nothing of other moments.

use super::cost::Cost;
use super::hearing::Hearing;
use super::search::Passage;
use super::vocabulary::HarmonyId;
use crate::judge::Detail;

/// All ways of hearing the music after a moment; equal ones are one.
#[derive(Clone, Debug, Default)]
pub(super) struct Layer {
    pub(super) nodes: Vec<Node>,
    edges: Vec<Edge>,
}

/// One way of hearing.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub(super) hearing: Hearing,
    /// The cheapest way to here.
    cost: Cost,
    /// The node that it comes from.
    pub(super) from: usize,
}

#[derive(Clone, Debug)]
struct Edge {
    from: usize,
    to: usize,
    cost: Cost,
}

impl Layer {
    /// What is heard before the first moment: nothing, in one way.
    pub(super) fn start() -> Self {
        let node = Node { hearing: Hearing::default(), cost: Cost::default(), from: 0 };
        Self { nodes: vec![node], edges: Vec::new() }
    }

    /// All ways of hearing the music after one more moment.
    pub(super) fn next(&self, passage: &Passage<'_>, index: usize) -> Self {
        let mut next = Self::default();
        let step = passage.step(index);
        let choices = passage.listener.choices(&step);
        for (from, node) in self.nodes.iter().enumerate() {
            for harmony in choices.after(&node.hearing, &step) {
                let heard = passage.listener.hear(step, &node.hearing, harmony, Detail::Counted);
                let total = node.cost + heard.cost;
                let to = next.offer(Node { hearing: heard.after, cost: total, from });
                next.edges.push(Edge { from, to, cost: heard.cost });
            }
        }
        next
    }

    /// Takes in a way of hearing, or the cheaper one of two that are equal; returns its place. Few are
    /// of one harmony, so that looking at all of them is quick.
    fn offer(&mut self, node: Node) -> usize {
        let is_same = |known: &Node| known.hearing == node.hearing;
        let at = self.nodes.iter().position(is_same).unwrap_or(self.nodes.len());
        match self.nodes.get_mut(at) {
            Some(known) if node.cost < known.cost => *known = node,
            Some(_) => {}
            None => self.nodes.push(node),
        }
        at
    }

    /// The node with the cheapest way to it.
    pub(super) fn cheapest(&self) -> usize {
        let costs = self.nodes.iter().enumerate().map(|(index, node)| (node.cost, index));
        costs.min().map_or(0, |(_, index)| index)
    }

    /// What the cheapest way to here costs.
    pub(super) fn least(&self) -> Cost {
        self.nodes.iter().map(|node| node.cost).min().unwrap_or_default()
    }

    /// What it costs to go to the end from each node of the layer before.
    pub(super) fn back(&self, to_go: &[Cost]) -> Vec<Cost> {
        let before = self.edges.iter().map(|edge| edge.from + 1).max().unwrap_or(0);
        let mut costs: Vec<Option<Cost>> = vec![None; before];
        for edge in &self.edges {
            let cost = edge.cost + to_go[edge.to];
            let known = costs[edge.from].get_or_insert(cost);
            *known = cost.min(*known);
        }
        costs.into_iter().map(Option::unwrap_or_default).collect()
    }

    /// How much more each harmony would cost in the whole than the best way of hearing it.
    pub(super) fn margins(&self, to_go: &[Cost], total: Cost) -> Vec<(HarmonyId, u64)> {
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

    /// How much more it costs to be here than in another layer, if all else is the same: what
    /// comes after is then the same after both.
    pub(super) fn surplus_over(&self, other: &Self) -> Option<Surplus> {
        let hearings = |layer: &Self| layer.nodes.len();
        let is_same = |(own, other): (&Node, &Node)| own.hearing == other.hearing;
        let is_alike =
            hearings(self) == hearings(other) && self.nodes.iter().zip(&other.nodes).all(is_same);
        let costs = |layer: &Self| layer.nodes.iter().map(|node| node.cost).collect::<Vec<_>>();
        is_alike.then(|| Surplus::between(&costs(self), &costs(other))).flatten()
    }

    /// Counts a surplus in.
    pub(super) fn add(&mut self, surplus: Surplus) {
        self.nodes.iter_mut().for_each(|node| node.cost = surplus.added_to(node.cost));
    }
}

/// By how much all costs of one layer exceed, or fall short of, those of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Surplus(i64);

impl Surplus {
    /// The surplus, if it is the same for all.
    pub(super) fn between(own: &[Cost], other: &[Cost]) -> Option<Self> {
        let mut surpluses = own.iter().zip(other).map(|(own, other)| own.beyond(*other));
        let first = surpluses.next()??;
        (own.len() == other.len() && surpluses.all(|it| it == Some(first))).then_some(Self(first))
    }

    /// A cost with the surplus.
    pub(super) fn added_to(self, cost: Cost) -> Cost {
        cost.moved_by(self.0)
    }
}
