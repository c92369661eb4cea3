//! The search for the best way of hearing a whole exercise: all ways are carried forward moment by
//! moment, equal ones merged, and the cheapest is kept; a pass back gives for every bar what each
//! other harmony would cost. What was worked out is kept: where an exercise differs from the one
//! before in a few moments, the search goes on from the first of them and stops as soon as all is
//! again as it was. Knows nothing of the rules.

use bicinium_theory::Duration;

use super::account::Otherwise;
use super::cost::Cost;
use super::figure::Outcome;
use super::hearing::Hearing;
use super::lattice::{Layer, Surplus};
use super::listener::Listener;
use super::vocabulary::HarmonyId;
use crate::judge::{Admission, Breach, Change, Detail, Memory, Moment, Step};

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

/// The best way of hearing a passage, with all that was worked out to find it.
#[derive(Clone, Debug)]
pub struct Search {
    /// One before the first moment, and one after each.
    layers: Vec<Layer>,
    /// For each layer, what it costs to go to the end from each of its nodes.
    to_go: Vec<Vec<Cost>>,
    /// For each layer, how much more each harmony would cost in the whole; only those that can be
    /// heard at all, in the order of the vocabulary.
    margins: Vec<Vec<(HarmonyId, u64)>>,
    /// For each layer, the node that the best way goes through.
    path: Vec<usize>,
    /// For each moment, what is told of the best way.
    told: Vec<Option<Told>>,
}

/// What is told of one moment.
#[derive(Clone, Debug)]
pub struct Told {
    /// What became of foreign notes.
    pub outcomes: Vec<Outcome>,
    /// What the rules say.
    pub breaches: Vec<Breach>,
    /// What they let pass for a reason.
    pub admissions: Vec<Admission>,
}

impl Told {
    /// When the notes began of which is told what became of them.
    fn notes(&self) -> impl Iterator<Item = Duration> {
        self.outcomes.iter().map(|outcome| outcome.link.note.onset)
    }
}

/// Where the search has come back to what it was, in the old count and in the new.
struct Junction {
    old: usize,
    new: usize,
    surplus: Surplus,
}

impl Default for Search {
    fn default() -> Self {
        Self {
            layers: vec![Layer::start()],
            to_go: vec![vec![Cost::default()]],
            margins: vec![Vec::new()],
            path: vec![0],
            told: Vec::new(),
        }
    }
}

impl Search {
    /// Searches a passage from its beginning.
    pub fn of(passage: &Passage<'_>) -> Self {
        let inserted = passage.moments.len();
        let mut search = Self::default();
        search.follow(passage, Change { head: 0, removed: 0, inserted }, inserted + 1);
        search
    }

    /// How the passage is heard after a moment.
    pub fn hearing(&self, index: usize) -> &Hearing {
        let layer = index + 1;
        &self.layers[layer].nodes[self.path[layer]].hearing
    }

    /// For a moment, how much more each harmony would cost in the whole.
    pub fn margins(&self, index: usize) -> &[(HarmonyId, u64)] {
        &self.margins[index + 1]
    }

    /// What is told of each moment.
    pub fn told(&self) -> impl Iterator<Item = &Told> {
        self.told.iter().flatten()
    }

    /// Goes over to a passage that differs from the one before by a change. From the memory `settled`
    /// on, all memories go on as they did. Says how many moments were heard again, and where something
    /// is heard otherwise for it.
    pub fn follow(
        &mut self,
        passage: &Passage<'_>,
        change: Change,
        settled: usize,
    ) -> (usize, Otherwise) {
        let length = passage.moments.len();
        if change.is_none() {
            return (0, Otherwise { moments: length..length, since: None });
        }
        let (fresh, junction) = self.carry_forward(passage, change, settled);
        let count = fresh.len();
        let last = change.head + count;
        let gone = self.put_in(fresh, change.head, junction.as_ref());
        let weighed = self.carry_back(change.head, last, junction.is_some());
        self.weigh(weighed + 1..=last);
        let from = self.trace(change.head, last, junction.is_some());
        let told = self.told[from..last].iter().flatten().flat_map(Told::notes).min();
        self.tell(passage, from..last);
        let retold = self.told[from..last].iter().flatten().flat_map(Told::notes).min();
        let since = [gone, told, retold].into_iter().flatten().min();
        (count, Otherwise { moments: from.min(weighed)..last, since })
    }

    /// The layers after the change, up to the one in which all is again as it was.
    fn carry_forward(
        &self,
        passage: &Passage<'_>,
        change: Change,
        settled: usize,
    ) -> (Vec<Layer>, Option<Junction>) {
        let mut fresh: Vec<Layer> = Vec::new();
        for index in change.head..passage.moments.len() {
            let layer = fresh.last().unwrap_or(&self.layers[change.head]).next(passage, index);
            let new = index + 1;
            let old = (new >= settled).then(|| change.old(new));
            let surplus = old.and_then(|old| layer.surplus_over(&self.layers[old]));
            fresh.push(layer);
            if let (Some(old), Some(surplus)) = (old, surplus) {
                return (fresh, Some(Junction { old, new, surplus }));
            }
        }
        (fresh, None)
    }

    /// Puts new layers in the place of those that they replace. What belongs to the layer of the
    /// junction stays. Returns the onset of the first note of which something was told that is gone.
    fn put_in(
        &mut self,
        fresh: Vec<Layer>,
        head: usize,
        junction: Option<&Junction>,
    ) -> Option<Duration> {
        let count = fresh.len();
        let end = junction.map_or(self.layers.len(), |junction| junction.old + 1);
        self.layers.splice(head + 1..end, fresh);
        let (end, fill) = match junction {
            Some(junction) => (junction.old, count - 1),
            None => (self.path.len(), count),
        };
        self.to_go.splice(head + 1..end, vec![Vec::new(); fill]);
        self.margins.splice(head + 1..end, vec![Vec::new(); fill]);
        self.path.splice(head + 1..end, vec![0; fill]);
        let end = junction.map_or(self.told.len(), |junction| junction.old);
        let gone = self.told.splice(head..end, vec![None; count]).flatten();
        let gone = gone.filter_map(|told| told.notes().min()).min();
        if let Some(junction) = junction {
            self.layers[junction.new + 1..]
                .iter_mut()
                .for_each(|layer| layer.add(junction.surplus));
        }
        gone
    }

    /// Brings the costs to the end up to date, from the last new layer back to the one from which on
    /// all differ by the same; returns that one.
    fn carry_back(&mut self, head: usize, last: usize, is_joined: bool) -> usize {
        if !is_joined {
            self.to_go[last] = vec![Cost::default(); self.layers[last].nodes.len()];
        }
        for index in (0..last).rev() {
            let costs = self.layers[index + 1].back(&self.to_go[index + 1]);
            let old = &self.to_go[index];
            let surplus = (index <= head).then(|| Surplus::between(&costs, old)).flatten();
            if let Some(surplus) = surplus {
                let before = self.to_go[..=index].iter_mut().flatten();
                before.for_each(|cost| *cost = surplus.added_to(*cost));
                return index;
            }
            self.to_go[index] = costs;
        }
        0
    }

    /// Brings the margins of layers up to date.
    fn weigh(&mut self, layers: std::ops::RangeInclusive<usize>) {
        let total = self.layers.last().map(Layer::least).unwrap_or_default();
        for index in layers {
            self.margins[index] = self.layers[index].margins(&self.to_go[index], total);
        }
    }

    /// Brings the best way up to date, from the last new layer back to the one before which it is
    /// the same as before; returns that one.
    fn trace(&mut self, head: usize, last: usize, is_joined: bool) -> usize {
        if !is_joined {
            self.path[last] = self.layers[last].cheapest();
        }
        for index in (0..last).rev() {
            let from = self.layers[index + 1].nodes[self.path[index + 1]].from;
            if index <= head && self.path[index] == from {
                return index;
            }
            self.path[index] = from;
        }
        0
    }

    /// Walks along some moments of the best way once more, to hear what the rules say in words.
    fn tell(&mut self, passage: &Passage<'_>, moments: std::ops::Range<usize>) {
        for index in moments {
            let before = &self.layers[index].nodes[self.path[index]].hearing;
            let harmony = self.hearing(index).harmony;
            let step = passage.step(index);
            let heard = passage.listener.hear(step, before, harmony, Detail::Worded);
            let (outcomes, breaches) = (heard.outcomes, heard.breaches);
            self.told[index] = Some(Told { outcomes, breaches, admissions: heard.admissions });
        }
    }
}
