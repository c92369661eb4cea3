//! The search: every hole is tried with every pitch, moment by moment, and a way is left as soon as
//! the judge closes it. The most natural pitches come first, so that an answer cut short is still a
//! good one.

use std::collections::{BTreeMap, BTreeSet};

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::{Moment, Stroke};
use bicinium_analysis::reading::{Listener, Vocabulary};
use bicinium_analysis::score::{Pair, VoiceId};
use bicinium_theory::{Duration, Interval, Pitch};

use crate::candidates;
use crate::gaps::{self, Hole, Part, Slot};
use crate::result::{Budget, DeadEnd, Extent, Opening, Realization, Realizations};
use crate::state::{Bench, Closed, State};

/// Finds all ways to fill the holes of an exercise without leaving a fault, as far as the budget
/// goes. Bars in which nothing is written stay as they are.
pub fn realize(exercise: &Exercise, budget: Budget) -> Realizations {
    let (score, rules) = (&exercise.score, exercise.rules());
    let vocabulary = Vocabulary::new(&rules.plan, score.setting.key, &score.harmonies);
    let (setting, written) = (&score.setting, score.harmonies.as_slice());
    let listener = Listener { setting, written, rules, vocabulary: &vocabulary };
    let slots = gaps::slots(score);
    let pitches = candidates::pitches(setting);
    let bench = Bench { score, listener };
    Search { bench, slots: &slots, pitches: &pitches, budget, found: Found::default() }.run()
}

struct Search<'a> {
    bench: Bench<'a>,
    slots: &'a [Slot],
    pitches: &'a [Pitch],
    budget: Budget,
    found: Found,
}

/// What has been found so far.
#[derive(Default)]
struct Found {
    trials: u64,
    count: u64,
    viable: BTreeMap<(Duration, VoiceId, Pitch), u64>,
    best: BTreeSet<Realization>,
    farthest: Duration,
    closed: BTreeSet<&'static str>,
}

/// A moment at which the search stands, with what is still to be tried there.
struct Stand {
    state: State,
    /// The last to be tried comes first.
    untried: Vec<Pair<Stroke>>,
}

impl Search<'_> {
    fn run(mut self) -> Realizations {
        let mut path: Vec<Moment> = Vec::new();
        let first = (!self.slots.is_empty()).then(|| self.stand(State::start(), &path));
        let mut stands: Vec<_> = first.into_iter().collect();
        while let Some(stand) = stands.last_mut() {
            let Some(strokes) = stand.untried.pop() else {
                stands.pop();
                path.pop();
                continue;
            };
            if self.found.trials >= self.budget.trials {
                return self.answer(Extent::AtLeast);
            }
            self.found.trials += 1;
            let moment = Moment { onset: self.slots[path.len()].onset, strokes };
            match self.bench.after(&stand.state, &moment) {
                Err(rules) => self.found.close(moment.onset, rules),
                Ok(state) => {
                    path.push(moment);
                    if path.len() < self.slots.len() {
                        stands.push(self.stand(state, &path));
                    } else {
                        self.arrive(&state, &path);
                        path.pop();
                    }
                }
            }
        }
        self.answer(Extent::All)
    }

    /// What is to be tried after a path.
    fn stand(&self, state: State, path: &[Moment]) -> Stand {
        let parts = self.slots[path.len()].parts;
        let options = Pair::from_fn(|voice| self.options(voice, parts[voice], path));
        let pairs = options.upper.iter().flat_map(|upper| {
            options.lower.iter().map(|lower| Pair { upper: *upper, lower: *lower })
        });
        let mut untried: Vec<_> = pairs.collect();
        untried.reverse();
        Stand { state, untried }
    }

    /// What a voice may do, the nearest to its last note first.
    fn options(&self, voice: VoiceId, part: Part, path: &[Moment]) -> Vec<Stroke> {
        let hole = match part {
            Part::Fixed(stroke) => return vec![stroke],
            Part::Free(hole) => hole,
        };
        let last = path.iter().rev().find_map(|moment| moment.struck(voice));
        let way =
            |pitch: &Pitch| last.map(|last| Interval::between(last.pitch, *pitch).steps().abs());
        let mut pitches = self.pitches.to_vec();
        pitches.sort_by_key(way);
        pitches.into_iter().map(|pitch| hole.filled(pitch)).collect()
    }

    fn arrive(&mut self, state: &State, path: &[Moment]) {
        let resistance = match self.bench.close(state, path) {
            Ok(resistance) => resistance,
            Err(rules) => {
                let end = path.last().map_or(Duration::ZERO, |moment| moment.onset);
                return self.found.close(end, rules);
            }
        };
        self.found.count += 1;
        let mut pitches = Vec::new();
        for hole in gaps::holes(self.slots) {
            let filled = path.iter().find(|moment| moment.onset == hole.onset);
            let Some(note) = filled.and_then(|moment| moment.struck(hole.voice)) else { continue };
            let known = self.found.viable.entry((hole.onset, hole.voice, note.pitch));
            let least = known.or_insert(resistance);
            *least = resistance.min(*least);
            pitches.push(note.pitch);
        }
        self.found.keep(Realization { resistance, pitches }, self.budget.best);
    }

    fn answer(self, extent: Extent) -> Realizations {
        let found = self.found;
        let holes = gaps::holes(self.slots);
        let openings = holes.into_iter().map(|hole| found.opening(hole)).collect();
        let is_closed = found.count == 0 && extent == Extent::All;
        let dead_end = is_closed.then(|| DeadEnd {
            onset: found.farthest,
            rules: found.closed.iter().copied().collect(),
        });
        let best = found.best.into_iter().collect();
        Realizations { count: found.count, extent, openings, best, dead_end }
    }
}

impl Found {
    /// Remembers the rules that close the farthest moment reached.
    fn close(&mut self, onset: Duration, rules: Closed) {
        if onset > self.farthest {
            self.farthest = onset;
            self.closed.clear();
        }
        if onset == self.farthest {
            self.closed.extend(rules);
        }
    }

    fn keep(&mut self, realization: Realization, most: usize) {
        self.best.insert(realization);
        if self.best.len() > most {
            self.best.pop_last();
        }
    }

    fn opening(&self, hole: Hole) -> Opening {
        let own = self
            .viable
            .iter()
            .filter(|((onset, voice, _), _)| *onset == hole.onset && *voice == hole.voice);
        let mut viable: Vec<_> = own.map(|((_, _, pitch), least)| (*pitch, *least)).collect();
        viable.sort_by_key(|known| known.1);
        Opening { hole, viable }
    }
}
