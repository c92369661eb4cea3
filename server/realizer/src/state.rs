//! The judge at work on what is being written: a moment is taken in, or closed by the rules that it
//! breaks. All ways of hearing that are still without a fault are carried along, so that a way of
//! writing counts once, however many readings justify it.

use std::collections::HashMap;

use bicinium_analysis::judge::{Breach, Close, Detail, Memory, Moment, Report, Step};
use bicinium_analysis::reading::{Hearing, Listener};
use bicinium_analysis::score::Score;
use bicinium_analysis::{Level, sheet};

use crate::resistance;

/// What has been written up to a moment, as far as it can still be seen.
#[derive(Clone, Debug)]
pub(crate) struct State {
    memory: Memory,
    /// The ways of hearing it without a fault, each with what speaks against it.
    hearings: Vec<(Hearing, u64)>,
    resistance: u64,
}

/// The rules that close a way.
pub(crate) type Closed = Vec<&'static str>;

/// The judge, with an exercise to be filled.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bench<'a> {
    pub(crate) score: &'a Score,
    pub(crate) listener: Listener<'a>,
}

impl State {
    /// Before the first moment.
    pub(crate) fn start() -> Self {
        let hearings = vec![(Hearing::default(), 0)];
        Self { memory: Memory::default(), hearings, resistance: 0 }
    }

    /// How much resistance the way here has met, with the kindest hearing.
    pub(crate) fn resistance(&self) -> u64 {
        let kindest = self.hearings.iter().map(|known| known.1).min().unwrap_or(0);
        self.resistance + kindest
    }
}

impl Bench<'_> {
    /// The state after one more moment, or the rules that close the way.
    pub(crate) fn after(&self, state: &State, now: &Moment) -> Result<State, Closed> {
        let memory = state.memory.after(now);
        let step =
            Step { setting: &self.score.setting, before: &state.memory, now, after: &memory };
        let breaches = ask(|report| self.listener.rules.step(&step, report));
        let own = self.admit(&breaches)? + resistance::of_notes(&step);
        let hearings = self.hear(state, &step)?;
        Ok(State { hearings, resistance: state.resistance + own, memory })
    }

    /// What the whole costs, or the rules that close the way at its end.
    pub(crate) fn close(&self, state: &State, moments: &[Moment]) -> Result<u64, Closed> {
        let close = Close { setting: &self.score.setting, moments, memory: &state.memory };
        let breaches = ask(|report| self.listener.rules.close(&close, report));
        Ok(state.resistance() + self.admit(&breaches)?)
    }

    /// What breaches cost that are no faults, or are accepted; the rules of those that are.
    fn admit(&self, breaches: &[Breach]) -> Result<u64, Closed> {
        let stands = |breach: &&Breach| !sheet::is_accepted(self.score, breach);
        let faults = breaches.iter().filter(|breach| breach.level <= Level::Fault).filter(stands);
        let closed: Closed = faults.map(|breach| breach.rule).collect();
        if closed.is_empty() {
            Ok(resistance::of_breaches(breaches.iter().filter(stands)))
        } else {
            Err(closed)
        }
    }

    fn hear(&self, state: &State, step: &Step<'_>) -> Result<Vec<(Hearing, u64)>, Closed> {
        let choices = self.listener.choices(step);
        let mut heard: HashMap<Hearing, u64> = HashMap::new();
        let mut closed = Closed::new();
        for (before, against) in &state.hearings {
            for harmony in choices.after(before, step) {
                let listened = self.listener.hear(*step, before, harmony, Detail::Counted);
                match self.admit(&listened.breaches) {
                    Ok(cost) => {
                        let known = heard.entry(listened.after).or_insert(u64::MAX);
                        *known = (*known).min(against + cost);
                    }
                    Err(rules) => closed.extend(rules),
                }
            }
        }
        if heard.is_empty() { Err(closed) } else { Ok(heard.into_iter().collect()) }
    }
}

fn ask(question: impl FnOnce(&mut Report)) -> Vec<Breach> {
    let mut report = Report::new(Detail::Counted);
    question(&mut report);
    report.into_breaches()
}
