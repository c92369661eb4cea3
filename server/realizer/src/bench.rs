//! The judge at work on what is being written: a moment is taken in, or closed by a rule that it
//! breaks. All ways of hearing that are still without a fault are carried along, so that a way of
//! writing counts once, however many readings justify it.

use bicinium_analysis::judge::{
    Breach, Close, Detail, Matter, Memory, Moment, Report, Sight, Step,
};
use bicinium_analysis::reading::{Hearing, Listener};
use bicinium_analysis::rulebook::Active;
use bicinium_analysis::score::Score;
use bicinium_analysis::sheet;

use rustc_hash::FxHashMap;

use crate::resistance;
use crate::result::Realization;
use crate::terms::Terms;

/// The rule that closes a way.
pub(crate) type Closed = &'static str;

/// What has been written up to a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct State {
    pub(crate) memory: Memory,
    /// The ways of hearing it without a fault, each with what speaks against it.
    pub(crate) hearings: Vec<(Hearing, u32)>,
}

/// The rules that are asked: first those that may close a way.
#[derive(Clone, Debug)]
pub(crate) struct Panel<'a>(Vec<&'a Active>);

/// The judge, with an exercise to be filled.
#[derive(Clone, Debug)]
pub(crate) struct Bench<'a> {
    pub(crate) score: &'a Score,
    pub(crate) terms: &'a Terms,
    pub(crate) listener: Listener<'a>,
    /// The moments as they stand, for rules that look at a cantus as a whole.
    pub(crate) moments: &'a [Moment],
    /// What the rules weigh that ask for rhythm alone, where no way differs in that; these are then
    /// not asked again.
    pub(crate) rhythm: Option<u32>,
}

impl State {
    /// Before the first moment.
    pub(crate) fn start() -> Self {
        Self { memory: Memory::default(), hearings: vec![(Hearing::default(), 0)] }
    }

    /// What speaks against the kindest hearing.
    pub(crate) fn against(&self) -> u32 {
        self.hearings.iter().map(|known| known.1).min().unwrap_or(0)
    }
}

impl<'a> Panel<'a> {
    /// The rules in force that some condition holds for.
    fn of(listener: &Listener<'a>, asks: impl Fn(&Active) -> bool) -> Self {
        let active = &listener.rules.active;
        let mut rules: Vec<_> = active.iter().filter(|active| asks(active)).collect();
        rules.sort_by_key(|active| active.level);
        Self(rules)
    }

    /// How far back they look together.
    pub(crate) fn sight(&self) -> Sight {
        self.0.iter().fold(Sight::LAST, |sight, active| sight.and(active.rule.sight()))
    }

    /// Asks every rule until one closes the way; what the others weigh.
    fn ask(
        &self,
        bench: &Bench<'_>,
        mut question: impl FnMut(&Active, &mut Report),
    ) -> Result<u32, Closed> {
        let mut report = Report::new(Detail::Counted);
        let mut weight = 0;
        for active in &self.0 {
            report.open(active.entry.name, active.level);
            question(active, &mut report);
            for breach in report.take_breaches() {
                weight += bench.weigh(&breach)?;
            }
        }
        Ok(weight)
    }
}

impl<'a> Bench<'a> {
    /// What a breach weighs; its rule, if that closes the way.
    fn weigh(&self, breach: &Breach) -> Result<u32, Closed> {
        if sheet::is_accepted(self.score, breach) {
            Ok(0)
        } else if self.terms.closes(breach) {
            Err(breach.rule)
        } else {
            Ok(resistance::of_level(&self.listener.rules.ranking, breach.level))
        }
    }

    /// What a moment costs by its notes, or the rule that closes the way.
    pub(crate) fn step(&self, panel: &Panel<'_>, step: &Step<'_>) -> Result<u32, Closed> {
        panel.ask(self, |active, report| active.rule.step(step, report))
    }

    /// The ways of hearing a moment without a fault, or the rule that closes them.
    pub(crate) fn hear<'h>(
        &self,
        panel: &Panel<'_>,
        hearings: impl Iterator<Item = (&'h Hearing, u32)>,
        step: &Step<'_>,
    ) -> Result<Vec<(Hearing, u32)>, Closed> {
        let choices = self.listener.choices(step);
        let mut heard: FxHashMap<Hearing, u32> = FxHashMap::default();
        let mut closed = "";
        for (before, against) in hearings {
            for harmony in choices.after(before, step) {
                let (after, outcomes) = self.listener.listen(step, before, harmony);
                let hearing = self.listener.heard(*step, before, &after, &outcomes);
                let asked =
                    |active: &Active, report: &mut Report| active.rule.hear(&hearing, report);
                match panel.ask(self, asked) {
                    Ok(weight) => {
                        let known = heard.entry(after).or_insert(u32::MAX);
                        *known = (*known).min(against + weight);
                    }
                    Err(rule) => closed = rule,
                }
            }
        }
        if heard.is_empty() { Err(closed) } else { Ok(heard.into_iter().collect()) }
    }

    /// The state after one more moment, and what that costs by the notes.
    pub(crate) fn after(
        &self,
        panel: &Panel<'_>,
        state: &State,
        now: &Moment,
    ) -> Result<(State, u32), Closed> {
        let memory = state.memory.after(now);
        let setting = &self.score.setting;
        let step = Step { setting, before: &state.memory, now, after: &memory };
        let own =
            self.step(panel, &step)? + resistance::of_notes(&self.listener.rules.ranking, &step);
        let hearings = state.hearings.iter().map(|(hearing, against)| (hearing, *against));
        let hearings = self.hear(panel, hearings, &step)?;
        Ok((State { memory, hearings }, own))
    }

    /// A whole way with what it costs; nothing if a rule closes it.
    pub(crate) fn weighed(&self, moments: Vec<Moment>) -> Option<Realization> {
        let all = self.all();
        let (mut state, mut resistance) = (State::start(), self.rhythm.unwrap_or(0));
        for moment in &moments {
            let (next, own) = self.after(&all, &state, moment).ok()?;
            state = next;
            resistance += own;
        }
        resistance += state.against() + self.close(&all, &state.memory, &moments).ok()?;
        Some(Realization { resistance, moments })
    }

    /// What the end costs, or the rule that closes it.
    pub(crate) fn close(
        &self,
        panel: &Panel<'_>,
        memory: &Memory,
        moments: &[Moment],
    ) -> Result<u32, Closed> {
        let close = Close { setting: &self.score.setting, moments, memory };
        panel.ask(self, |active, report| active.rule.close(&close, report))
    }

    /// What the rules that ask for rhythm alone weigh in a way; nothing if one of them closes it.
    pub(crate) fn rhythm_of(&self, moments: &[Moment]) -> Option<u32> {
        let asks = |active: &Active| active.rule.matter() == Matter::Rhythm;
        let panel = Panel::of(&self.listener, asks);
        let setting = &self.score.setting;
        let (mut memory, mut weight) = (Memory::default(), 0);
        for now in moments {
            let after = memory.after(now);
            let step = Step { setting, before: &memory, now, after: &after };
            weight += self.step(&panel, &step).ok()?;
            memory = after;
        }
        Some(weight + self.close(&panel, &memory, moments).ok()?)
    }

    /// The rules that may close a way.
    pub(crate) fn strict(&self) -> Panel<'a> {
        self.panel(|active| self.terms.is_strict(active.entry.name, active.level))
    }

    /// All rules that are asked.
    pub(crate) fn all(&self) -> Panel<'a> {
        self.panel(|_| true)
    }

    /// The rules that look no farther back than a sight.
    pub(crate) fn within(&self, sight: Sight) -> Panel<'a> {
        self.panel(|active| active.rule.sight().is_within(sight))
    }

    /// The rules that are asked, of those that some condition holds for.
    pub(crate) fn panel(&self, condition: impl Fn(&Active) -> bool) -> Panel<'a> {
        let is_asked =
            |active: &Active| self.rhythm.is_none() || active.rule.matter() != Matter::Rhythm;
        Panel::of(&self.listener, |active| is_asked(active) && condition(active))
    }
}
