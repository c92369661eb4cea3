//! One way of hearing the music up to a moment: the harmony in force, what the present note of
//! each voice is taken for, and what the last weak beats were made of. It is advanced moment by
//! moment, like the memory of the notes, and is the part of the judge's state that is hidden.

use arrayvec::ArrayVec;
use bicinium_theory::Duration;

use super::figure::{
    Ending, Entry, Failure, Figure, Figures, Follower, Foreign, Link, Offence, Outcome,
    StrongFigures, WeakFigures, is_second,
};
use super::standing::{self, Standing};
use super::vocabulary::{Harmony, HarmonyId, Vocabulary};
use crate::judge::{Heard, LineState, Step, Stroke};
use crate::score::{Pair, VoiceId, WrittenHarmony};

/// How many weak beats are remembered: those of one bar, and the present one.
const WEAK_BEATS: usize = 6;

/// One way of hearing the music up to a moment.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Hearing {
    /// The harmony in force; `None` before the beginning, or where none is implied.
    pub harmony: Option<HarmonyId>,
    /// What the present note of each voice is taken for.
    pub figures: Pair<Figure>,
    weak_beats: ArrayVec<(Duration, Part), WEAK_BEATS>,
}

/// What two notes that sound together are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Both belong to their harmony.
    Real,
    /// At least one of them only embellishes.
    Melodic,
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

    /// How the music is heard after one more moment in a harmony, and what became of foreign
    /// notes.
    pub fn after(
        &self,
        step: &Step<'_>,
        harmony: Option<HarmonyId>,
        vocabulary: &Vocabulary,
        figures: Figures,
    ) -> (Self, Vec<Outcome>) {
        let mut ear =
            Ear { before: self, step, harmony, vocabulary, figures, outcomes: Vec::new() };
        let figures = Pair::from_fn(|voice| ear.figure(voice));
        let outcomes = ear.outcomes;
        let mut next = Self { harmony, figures, weak_beats: self.weak_beats.clone() };
        next.remember_weak_beat(step);
        (next, outcomes)
    }

    fn remember_weak_beat(&mut self, step: &Step<'_>) {
        if step.is_downbeat() {
            return;
        }
        let melodic = |voice| matches!(self.figures[voice], Figure::Foreign(_));
        let part = if VoiceId::BOTH.into_iter().any(melodic) { Part::Melodic } else { Part::Real };
        if self.weak_beats.is_full() {
            self.weak_beats.remove(0);
        }
        self.weak_beats.push((step.now.onset, part));
    }
}

/// Decides what the notes of one moment are taken for.
struct Ear<'a> {
    before: &'a Hearing,
    step: &'a Step<'a>,
    harmony: Option<HarmonyId>,
    vocabulary: &'a Vocabulary,
    figures: Figures,
    outcomes: Vec<Outcome>,
}

impl Ear<'_> {
    fn figure(&mut self, voice: VoiceId) -> Figure {
        let line = self.step.line(voice);
        match (line.state, line.last()) {
            (LineState::Striking, Some(note)) => self.struck(voice, note),
            (LineState::Holding, Some(note)) => self.held(voice, note),
            (LineState::Silent, _) => self.silenced(voice),
            _ => Figure::Open,
        }
    }

    fn struck(&mut self, voice: VoiceId, note: Heard) -> Figure {
        let standing = self.standing(voice, note);
        let going_on = self.leave(voice, note, standing);
        match standing {
            Standing::Stable(member) => Figure::Stable(member),
            Standing::Foreign(_) if !self.step.setting.is_written(voice) => Figure::Open,
            Standing::Foreign(offence) => {
                Figure::Foreign(self.enter(voice, note, offence, going_on))
            }
        }
    }

    fn standing(&self, voice: VoiceId, note: Heard) -> Standing {
        match self.harmony.and_then(|id| self.vocabulary.get(id)) {
            Some(harmony) => standing::in_harmony(harmony, self.step.after, voice, note),
            None => standing::by_interval(self.step.after, voice, self.step.setting),
        }
    }

    /// Ends the figure before a note, or hands on the chain of notes that still wait for an end.
    fn leave(&mut self, voice: VoiceId, note: Heard, standing: Standing) -> Option<Foreign> {
        let Figure::Foreign(foreign) = &self.before.figures[voice] else { return None };
        if foreign.is_settled {
            return None;
        }
        let is_stable = matches!(standing, Standing::Stable(_));
        let next = Follower { note, is_stable, harmony: self.harmony };
        match foreign.leave(next, self.figures) {
            Some(ending) => {
                self.outcomes.extend(foreign.outcomes(voice, ending));
                None
            }
            None => Some(foreign.clone()),
        }
    }

    fn enter(
        &mut self,
        voice: VoiceId,
        note: Heard,
        offence: Offence,
        going_on: Option<Foreign>,
    ) -> Foreign {
        let from = self.step.line(voice).back(1);
        let link = Link { note, from, offence };
        if let Some(chain) = going_on {
            return self.extend(voice, chain, link);
        }
        let entry = if self.step.is_downbeat() { Entry::Accented } else { Entry::Weak };
        let failure = self.entry_failure(voice, link, entry);
        self.outcomes.extend(failure.map(|failure| Outcome {
            voice,
            link,
            entry,
            ending: Ending::Failed(failure),
        }));
        let is_settled = failure.is_some();
        Foreign { link, waiting: ArrayVec::new(), entry, harmony: self.harmony, is_settled }
    }

    fn extend(&mut self, voice: VoiceId, mut chain: Foreign, link: Link) -> Foreign {
        if chain.waiting.is_full() {
            let ending = Ending::Failed(Failure::NeverResolved);
            self.outcomes.extend(chain.outcomes(voice, ending));
            return Foreign { link, waiting: ArrayVec::new(), is_settled: true, ..chain };
        }
        chain.waiting.push(chain.link);
        Foreign { link, ..chain }
    }

    fn entry_failure(&self, voice: VoiceId, link: Link, entry: Entry) -> Option<Failure> {
        if self.figures.weak == WeakFigures::None {
            return Some(Failure::NotAllowed);
        }
        if entry == Entry::Accented && self.figures.strong == StrongFigures::None {
            return Some(Failure::StrongBeat);
        }
        if let Some(failure) = self.approach_failure(voice, link, entry) {
            return Some(failure);
        }
        (entry == Entry::Accented && self.before.harmony != self.harmony)
            .then_some(Failure::NotProlonged)
    }

    fn approach_failure(&self, voice: VoiceId, link: Link, entry: Entry) -> Option<Failure> {
        match (link.from, self.step.line(voice).interval(0)) {
            (Some(from), Some(interval)) if !is_second(interval) => {
                Some(Failure::NotReachedByStep(from))
            }
            (Some(_), _) => None,
            (None, _) => (!self.may_be_approached(voice, entry)).then_some(Failure::NotPrepared),
        }
    }

    /// Whether a note that is not written yet may still lead to the foreign one. A consonance on a
    /// strong beat stands for itself as long as nothing written shows that it does not; otherwise
    /// a blank bar could be taken for any harmony, and nothing after it would ever be wrong.
    fn may_be_approached(&self, voice: VoiceId, entry: Entry) -> bool {
        let unknown = self.step.before.lines[voice].state == LineState::Unknown;
        let sounded = self.step.after.pair.now();
        let dissonant = sounded.is_some_and(|sounded| sounded.interval().is_dissonant());
        unknown && (entry == Entry::Weak || dissonant)
    }

    /// A held note stays what it was, unless what moves under or over it makes it foreign.
    fn held(&mut self, voice: VoiceId, note: Heard) -> Figure {
        let standing = self.standing(voice, note);
        match (&self.before.figures[voice], standing) {
            (Figure::Foreign(foreign), _) => self.still_foreign(voice, foreign.clone()),
            (_, Standing::Stable(member)) => Figure::Stable(member),
            (_, Standing::Foreign(_)) if !self.step.setting.is_written(voice) => Figure::Open,
            (_, Standing::Foreign(offence)) => Figure::Foreign(Foreign {
                link: Link { note, from: None, offence },
                waiting: ArrayVec::new(),
                entry: Entry::Held,
                harmony: self.harmony,
                is_settled: false,
            }),
        }
    }

    /// A foreign note on a weak beat has to go on before the next strong one.
    fn still_foreign(&mut self, voice: VoiceId, mut foreign: Foreign) -> Figure {
        let is_weak = foreign.entry == Entry::Weak && !foreign.is_settled;
        if is_weak && self.step.is_downbeat() {
            self.outcomes.extend(foreign.outcomes(voice, Ending::Failed(Failure::HeldOver)));
            foreign.is_settled = true;
        }
        Figure::Foreign(foreign)
    }

    /// A foreign note that is followed by silence is never resolved. Where nothing more is
    /// written, nothing is said.
    fn silenced(&mut self, voice: VoiceId) -> Figure {
        let rests = matches!(self.step.now.strokes[voice], Stroke::Rests);
        if let (true, Figure::Foreign(foreign)) = (rests, &self.before.figures[voice])
            && !foreign.is_settled
        {
            let ending = Ending::Failed(Failure::NeverResolved);
            self.outcomes.extend(foreign.outcomes(voice, ending));
        }
        Figure::Open
    }
}
