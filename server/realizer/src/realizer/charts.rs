//! The charts of an exercise, each made when it is first asked for: a rough one, the exact one that it guides,
//! and one that also weighs cautions. Knows how far back each has to look, not what is asked of it.

use bicinium_analysis::Level;
use bicinium_analysis::judge::{Sight, Trace};
use bicinium_analysis::rulebook::Active;

use super::Realizer;
use crate::chart::Chart;
use crate::graph::{Graph, Task};
use crate::watch::Spent;

impl Realizer<'_> {
    /// The exact chart if there is one, otherwise the rough one.
    pub(super) fn nearest(&self) -> Option<&Chart> {
        self.exact().or_else(|_| self.guide()).ok()
    }

    /// The chart that tells most exactly what a way costs, as far as the budget lets it be found.
    pub(super) fn best_known(&self) -> Option<&Chart> {
        let guide = self.guide().ok()?;
        let exact = self.watch.half(|| self.exact()).ok();
        let ranked = exact.and_then(|_| self.watch.half(|| self.ranked()).ok());
        ranked.or(exact).or(Some(guide))
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

    /// The rough chart.
    pub(super) fn guide(&self) -> Result<&Chart, Spent> {
        let build = || self.chart(self.guide_sight(), None);
        self.guide.get_or_init(build).as_ref().map_err(|spent| *spent)
    }

    /// The chart that holds every way exactly once; none where ways cannot meet.
    pub(super) fn exact(&self) -> Result<&Chart, Spent> {
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

    /// What the last two notes decide.
    fn guide_sight(&self) -> Sight {
        self.own_sight().and(Sight::notes(2))
    }

    /// What every rule sees that can close a way.
    pub(super) fn exact_sight(&self) -> Sight {
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
    pub(super) fn can_merge(&self) -> bool {
        let strict = self.bench().strict().sight();
        let sees_cantus = strict.sees(Trace::Cantus) && !self.own_sight().sees(Trace::Cantus);
        let is_defined = self.score().setting.definition.is_some();
        !(strict.sees(Trace::Whole) || (sees_cantus && is_defined))
    }
}
