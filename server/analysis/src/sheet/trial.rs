//! A trial: what the judge would say if some notes were others. Fixes promise only what a trial
//! has shown.

use bicinium_theory::{Duration, Pitch};

use super::judged::Exercise;
use crate::finding::Level;
use crate::judge::{Breach, Spot, judge};
use crate::score::{Score, Sound, VoiceId};

/// A note put in place of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Change {
    /// The voice.
    pub voice: VoiceId,
    /// When the note begins.
    pub onset: Duration,
    /// The pitch it gets.
    pub pitch: Pitch,
}

/// What stands against an exercise: breaches that no licence accepts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Account {
    breaches: Vec<(&'static str, Level, Spot)>,
}

/// How many breaches there are, the gravest first. The smaller, the better.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tally {
    /// Faults.
    pub faults: usize,
    /// Cautions.
    pub cautions: usize,
    /// Advice.
    pub advice: usize,
}

impl Exercise {
    /// What stands against the exercise as it is.
    pub fn account(&self) -> Account {
        Account::of(&self.score, &self.verdict.breaches)
    }

    /// The same exercise with other music, judged by the same rules.
    #[must_use]
    pub fn rewritten(&self, score: Score) -> Self {
        let verdict = judge(&score, self.rulebook.rules(score.setting.writing()));
        Self { score, verdict, ..self.clone() }
    }

    /// What would stand against it with some notes changed.
    pub fn account_with(&self, changes: &[Change]) -> Account {
        let mut score = self.score.clone();
        for change in changes {
            let events = score.lines[change.voice].events.iter_mut();
            for event in events.filter(|event| event.onset == change.onset) {
                event.sound = Sound::Note(change.pitch);
            }
        }
        self.rewritten(score).account()
    }
}

impl Account {
    fn of(score: &Score, breaches: &[Breach]) -> Self {
        let stands = |breach: &&Breach| !is_accepted(score, breach);
        let kept = breaches.iter().filter(stands);
        Self { breaches: kept.map(|breach| (breach.rule, breach.level, breach.spot)).collect() }
    }

    /// The faults: each rule with the place where it is broken.
    pub fn faults(&self) -> impl Iterator<Item = (&'static str, Spot)> {
        let faults = self.breaches.iter().filter(|breach| breach.1 <= Level::Fault);
        faults.map(|breach| (breach.0, breach.2))
    }

    /// How many breaches there are.
    pub fn tally(&self) -> Tally {
        let count = |level| self.breaches.iter().filter(|breach| breach.1 == level).count();
        Tally {
            faults: count(Level::Fault),
            cautions: count(Level::Caution),
            advice: count(Level::Advice),
        }
    }

    /// Whether a rule is broken at a place.
    pub fn has(&self, rule: &str, spot: Spot) -> bool {
        self.breaches.iter().any(|breach| breach.0 == rule && breach.2 == spot)
    }

    /// Whether it has no fault that another account does not have.
    pub fn brings_no_fault_to(&self, other: &Self) -> bool {
        let faults = self.breaches.iter().filter(|breach| breach.1 == Level::Fault);
        faults.into_iter().all(|breach| other.breaches.contains(breach))
    }
}

/// Whether a licence of the exercise accepts a breach.
pub fn is_accepted(score: &Score, breach: &Breach) -> bool {
    let place = super::place(&score.setting, breach.spot.onset);
    let place = Some((place.bar, place.beat));
    score.licences.iter().any(|licence| licence.accepts(breach.rule, place))
}
