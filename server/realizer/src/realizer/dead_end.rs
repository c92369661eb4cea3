//! Where no way is left: the smallest stretch that cannot be joined, and the rules that close it.

use super::Realizer;
use crate::bench::Bench;
use crate::chart::Chart;
use crate::graph::{Barrier, Graph, Task};
use crate::result::{DeadEnd, Extent};
use crate::terms::Terms;
use crate::watch::Spent;

impl Realizer<'_> {
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
}
