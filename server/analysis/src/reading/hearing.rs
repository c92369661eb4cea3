//! One way of hearing the music up to a moment: the harmony in force, what the present note of
//! each voice is taken for, and what the last weak beats were made of. It is advanced moment by
//! moment, like the memory of the notes, and is the part of the judge's state that is hidden.

use arrayvec::ArrayVec;
use bicinium_theory::Duration;

use super::figure::{Figure, Origin, Outcome, Pursuit};
use super::suspension::{Chain, SuspensionKind};
use super::vocabulary::{Harmony, HarmonyId, Vocabulary};
use crate::judge::{LineState, Memory, Sight, Step, Trace};
use crate::score::{Pair, VoiceId, WrittenHarmony};

/// How many weak beats are remembered: those of one bar of twelve, and the present one.
const WEAK_BEATS: usize = 12;

/// One way of hearing the music up to a moment.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Hearing {
    /// The harmony in force; `None` before the beginning, or where none is implied.
    pub harmony: Option<HarmonyId>,
    /// What the present note of each voice is taken for.
    pub figures: Pair<Figure>,
    /// How the note before the present one of each voice stands.
    pub origins: Pair<Origin>,
    /// The figure that each voice is in the midst of.
    pub pursuits: Pair<Option<Box<Pursuit>>>,
    /// The suspensions of one kind that each voice has just brought.
    pub chains: Pair<Option<Chain>>,
    /// When a harmony entered inside a bar, as long as another might still do so there.
    changed_inside: Option<Duration>,
    weak_beats: ArrayVec<(Duration, Part), WEAK_BEATS>,
}

/// What the note of a voice is taken for, and the figure that it leaves under way.
#[derive(Debug, Default)]
pub(super) struct Taken {
    pub figure: Figure,
    pub pursuit: Option<Box<Pursuit>>,
}

/// What two notes that sound together are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Both belong to their harmony.
    Real,
    /// At least one of them only embellishes: that of this voice, or of both.
    Melodic(VoiceId),
}

/// One moment as it is heard.
#[derive(Clone, Copy, Debug)]
pub struct HearingStep<'a> {
    /// The moment and what can be seen of the notes.
    pub notes: Step<'a>,
    /// The harmonies that may be heard.
    pub vocabulary: &'a Vocabulary,
    /// How the music was heard before the moment.
    pub before: &'a Hearing,
    /// How it is heard with the moment included.
    pub after: &'a Hearing,
    /// What became of foreign notes at this moment.
    pub outcomes: &'a [Outcome],
    /// The harmony that the writer lets enter at this moment.
    pub written: Option<&'a WrittenHarmony>,
}

impl HearingStep<'_> {
    /// The harmony in force before the moment.
    pub fn harmony_before(&self) -> Option<&Harmony> {
        self.vocabulary.get(self.before.harmony?)
    }

    /// The harmony in force at the moment.
    pub fn harmony(&self) -> Option<&Harmony> {
        self.vocabulary.get(self.after.harmony?)
    }
}

impl Hearing {
    /// What the notes at a weak beat were made of, if it is still remembered.
    pub fn part_at(&self, onset: Duration) -> Option<Part> {
        self.weak_beats.iter().rev().find(|beat| beat.0 == onset).map(|beat| beat.1)
    }

    /// Whether a voice has been held into a dissonance and has not resolved it.
    pub fn is_suspended(&self, voice: VoiceId) -> bool {
        matches!(self.pursuits[voice].as_deref(), Some(Pursuit::Held(_)))
    }

    /// The hearing as far as a sight reaches, given what that leaves of the notes.
    #[must_use]
    pub fn within(&self, sight: Sight, memory: &Memory) -> Self {
        let mut cut = self.clone();
        if sight.sees_all() {
            return cut;
        }
        if !sight.sees(Trace::Chains) {
            cut.chains = Pair::default();
        }
        if !sight.sees(Trace::Figures) {
            let in_short = |pursuit: &Pursuit| Box::new(pursuit.in_short());
            cut.pursuits = Pair::from_fn(|voice| self.pursuits[voice].as_deref().map(in_short));
        }
        let is_seen = |onset: Duration| {
            let sounded = memory.pair.at(onset);
            sight.sees(Trace::Functions)
                && sounded.is_some_and(|sounded| sounded.perfect().is_some())
        };
        cut.weak_beats.retain(|beat| is_seen(beat.0));
        cut
    }

    /// The places whose simultaneities decide what a note held into a dissonance comes to.
    pub fn places(&self) -> impl Iterator<Item = Duration> + '_ {
        let pursuits =
            VoiceId::BOTH.into_iter().filter_map(|voice| self.pursuits[voice].as_deref());
        pursuits.flat_map(Pursuit::places)
    }

    /// The hearing after one more moment, in which the notes were taken for these figures.
    pub(super) fn after(
        &self,
        step: &Step<'_>,
        harmony: Option<HarmonyId>,
        taken: Pair<Taken>,
        outcomes: &[Outcome],
    ) -> Self {
        let Pair { upper, lower } = taken;
        let mut next = Self {
            harmony,
            figures: Pair { upper: upper.figure, lower: lower.figure },
            origins: Pair::from_fn(|voice| self.origin(step, voice)),
            pursuits: Pair { upper: upper.pursuit, lower: lower.pursuit },
            chains: self.chains,
            changed_inside: self.change_inside(step, harmony),
            weak_beats: self.weak_beats.clone(),
        };
        next.count_suspensions(step, outcomes);
        next.remember_weak_beat(step);
        next
    }

    /// Whether the bar of a moment has had a second harmony before it.
    pub(super) fn has_changed_inside(&self, step: &Step<'_>) -> bool {
        self.changed_inside.is_some_and(|at| step.setting.bar_of(at) == step.bar())
    }

    /// Forgotten on the last main beat, so that ways of hearing that differ no more are merged.
    fn change_inside(&self, step: &Step<'_>, harmony: Option<HarmonyId>) -> Option<Duration> {
        let mut beats = step.setting.meter.main_beats();
        if step.is_downbeat() || !beats.any(|beat| beat > step.within_bar()) {
            return None;
        }
        let enters = (self.harmony != harmony).then_some(step.now.onset);
        self.changed_inside.or(enters)
    }

    /// How the note of a voice stands that comes before its present one.
    fn origin(&self, step: &Step<'_>, voice: VoiceId) -> Origin {
        match step.after.lines[voice].state {
            LineState::Striking => self.figures[voice].origin(step.before.lines[voice].state),
            LineState::Holding => self.origins[voice],
            LineState::Silent | LineState::Unknown => Origin::Doubtful,
        }
    }

    fn count_suspensions(&mut self, step: &Step<'_>, outcomes: &[Outcome]) {
        let bar = step.setting.bar_length();
        for outcome in outcomes {
            let Some(kind) = SuspensionKind::of(outcome, step.after) else { continue };
            let chain = &mut self.chains[outcome.voice];
            *chain = Some(Chain::after(*chain, kind, outcome.link.at, bar));
        }
        for voice in VoiceId::BOTH {
            let is_old = |chain: &Chain| chain.at + bar * 2 <= step.now.onset;
            if self.chains[voice].as_ref().is_some_and(is_old) {
                self.chains[voice] = None;
            }
        }
    }

    fn remember_weak_beat(&mut self, step: &Step<'_>) {
        let (_, behind_beat) = step.setting.meter.beat(step.within_bar());
        if step.is_downbeat() || behind_beat != Duration::ZERO {
            return;
        }
        let bar = step.setting.bar_length();
        self.weak_beats.retain(|beat| beat.0 + bar >= step.now.onset);
        if self.weak_beats.is_full() {
            self.weak_beats.remove(0);
        }
        self.weak_beats.push((step.now.onset, self.part()));
    }

    fn part(&self) -> Part {
        let is_melodic = |voice: &VoiceId| matches!(self.figures[*voice], Figure::Foreign(..));
        VoiceId::BOTH.into_iter().find(is_melodic).map_or(Part::Real, Part::Melodic)
    }
}
