//! How many ways there are, and any of them drawn with equal chances. Exact, however many.

use bicinium_analysis::judge::Moment;
use num_bigint::{BigUint, RandBigInt};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use crate::chart::Chart;
use crate::graph::{Edge, Graph};

/// For each node of a graph, how many ways lead from it to the end.
pub(crate) struct Counts(Vec<BigUint>);

impl Counts {
    pub(crate) fn of(chart: &Chart) -> Self {
        let mut counts = Self(vec![BigUint::ZERO; chart.graph.len()]);
        for node in chart.graph.order().rev() {
            counts.0[node] = chart.ways_on(node).map(|(edge, _)| counts.beyond(edge)).sum();
        }
        counts
    }

    /// How many ways there are in all.
    pub(crate) fn all(&self) -> BigUint {
        self.0.get(Graph::START).cloned().unwrap_or_default()
    }

    fn beyond(&self, edge: &Edge) -> BigUint {
        edge.to.map_or(BigUint::from(1u8), |to| self.0[to].clone())
    }
}

/// Draws ways with equal chances; the same ones for the same seed.
pub(crate) fn sample(chart: &Chart, number: usize, seed: u64) -> Vec<Vec<Moment>> {
    let counts = Counts::of(chart);
    let mut chance = ChaCha8Rng::seed_from_u64(seed);
    let number = if chart.is_open() { number } else { 0 };
    (0..number).map(|_| draw(chart, &counts, &mut chance)).collect()
}

fn draw(chart: &Chart, counts: &Counts, chance: &mut ChaCha8Rng) -> Vec<Moment> {
    let mut moments = Vec::new();
    let mut node = Some(Graph::START);
    while let Some(here) = node {
        let mut lot = chance.gen_biguint_below(&counts.0[here]);
        let chosen = chart.ways_on(here).find(|(edge, _)| {
            let ways = counts.beyond(edge);
            let is_chosen = lot < ways;
            if !is_chosen {
                lot -= ways;
            }
            is_chosen
        });
        let Some((edge, _)) = chosen else { break };
        moments.push(Moment { onset: chart.graph.onset(here), strokes: edge.strokes });
        node = edge.to;
    }
    moments
}
