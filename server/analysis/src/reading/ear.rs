//! Decides what the notes of one moment are taken for, given one way of hearing what came before:
//! ends the figures that end there, hands on those that go on, and begins new ones. Knows how a note
//! stands and how figures go, not what is said of them.

use super::figure::{
    Accented, Admitted, Ending, Entry, Failure, Figure, Figures, Follower, Held, Link, Offence,
    Origin, Outcome, Pursuit, StrongFigures, Told, Weak, WeakFigures, is_second,
};
use super::hearing::{Hearing, Taken};
use super::standing::{self, Standing};
use super::suspension;
use super::vocabulary::{HarmonyId, Vocabulary};
use crate::judge::{Heard, LineState, Step, Stroke};
use crate::score::{Pair, VoiceId};

/// How the music is heard after one more moment in a harmony, and what became of foreign notes.
pub(super) fn listen(
    before: &Hearing,
    step: &Step<'_>,
    harmony: Option<HarmonyId>,
    vocabulary: &Vocabulary,
    figures: Figures,
) -> (Hearing, Vec<Outcome>) {
    let mut ear = Ear { before, step, harmony, vocabulary, figures, outcomes: Vec::new() };
    let taken = Pair::from_fn(|voice| ear.figure(voice));
    let after = before.after(step, harmony, taken, &ear.outcomes);
    (after, ear.outcomes)
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
    /// What the note of a voice is taken for.
    fn figure(&mut self, voice: VoiceId) -> Taken {
        let line = self.step.line(voice);
        let taken = match (line.state, line.last()) {
            (LineState::Striking, Some(note)) => self.struck(voice, note),
            (LineState::Holding, Some(note)) => self.held(voice, note),
            (LineState::Silent, _) => self.silenced(voice),
            _ => Taken::default(),
        };
        let is_last = |note: Heard| note.end() >= self.step.setting.length();
        if line.sounding().is_some_and(is_last) { self.closed(voice, taken) } else { taken }
    }

    /// Nothing follows the last note that could end a figure.
    fn closed(&mut self, voice: VoiceId, taken: Taken) -> Taken {
        if let Some(pursuit) = taken.pursuit {
            self.tell(voice, pursuit.break_off(Failure::NeverResolved));
        }
        Taken { figure: taken.figure, pursuit: None }
    }

    fn struck(&mut self, voice: VoiceId, note: Heard) -> Taken {
        let standing = self.standing(voice, note);
        let going_on = self.follow(voice, note, standing);
        match (standing, going_on) {
            (Standing::Stable(member), going_on) => {
                Taken { figure: Figure::Stable(member), pursuit: going_on }
            }
            (Standing::Foreign(_), _) if !self.step.setting.is_written(voice) => Taken::default(),
            (Standing::Foreign(offence), Some(pursuit)) => {
                let figure = Figure::Foreign(offence, pursuit.entry());
                Taken { figure, pursuit: Some(pursuit) }
            }
            (Standing::Foreign(offence), None) => self.enter(voice, note, offence),
        }
    }

    fn standing(&self, voice: VoiceId, note: Heard) -> Standing {
        match self.harmony.and_then(|id| self.vocabulary.get(id)) {
            Some(harmony) => standing::in_harmony(harmony, self.step.after, voice, note),
            None => standing::by_interval(self.step.after, voice, self.step.setting),
        }
    }

    /// Ends the figure before a note, or hands it on if the note belongs to it.
    fn follow(&mut self, voice: VoiceId, note: Heard, standing: Standing) -> Option<Box<Pursuit>> {
        let pursuit = self.before.pursuits[voice].as_deref()?;
        let offence = match standing {
            Standing::Stable(_) => None,
            Standing::Foreign(offence) => Some(offence),
        };
        let is_tonic = self.step.setting.key.tonic == note.pitch.class();
        let is_strong = self.step.is_downbeat();
        let follower = Follower { note, offence, harmony: self.harmony, is_tonic, is_strong };
        let mut told = Vec::new();
        let pursuit = pursuit.follow(follower, self.figures).into_parts(&mut told);
        self.tell(voice, told);
        pursuit
    }

    fn tell(&mut self, voice: VoiceId, ends: Vec<Told>) {
        let told = ends.into_iter();
        self.outcomes.extend(told.map(|(link, entry, ending)| Outcome {
            voice,
            link,
            entry,
            ending,
        }));
    }

    fn enter(&mut self, voice: VoiceId, note: Heard, offence: Offence) -> Taken {
        let from = self.step.line(voice).back(1);
        let link = Link { note, from, offence, at: note.onset };
        let entry = if self.step.is_downbeat() { Entry::Accented } else { Entry::Weak };
        let figure = Figure::Foreign(offence, entry);
        if let Some(crossing) = self.crossing(voice, link, entry) {
            return Taken { figure, pursuit: Some(Box::new(Pursuit::Weak(crossing))) };
        }
        if let Some(failure) = self.entry_failure(voice, link, entry) {
            self.tell(voice, vec![(link, entry, Ending::Failed(failure))]);
            return Taken { figure, pursuit: None };
        }
        let pursuit = match entry {
            Entry::Accented => Pursuit::Accented(Accented::new(link, self.harmony)),
            _ => Pursuit::Weak(Weak::new(link, self.origin(voice))),
        };
        Taken { figure, pursuit: Some(Box::new(pursuit)) }
    }

    /// How the note of a voice stands that comes before the one that begins.
    fn origin(&self, voice: VoiceId) -> Origin {
        self.before.figures[voice].origin(self.step.before.lines[voice].state)
    }

    /// The second of two neighbours, after a first one that stood for itself, as the note did that
    /// they turn around, unless that one is not written.
    fn crossing(&self, voice: VoiceId, link: Link, entry: Entry) -> Option<Weak> {
        let admits = self.figures.double_neighbour == Admitted::Yes && entry == Entry::Weak;
        let home = self.step.line(voice).back(2);
        let is_home_open = match self.before.origins[voice] {
            Origin::Stable => home.is_some(),
            Origin::Unwritten => home.is_none(),
            Origin::Doubtful => false,
        };
        let is_open = admits && is_home_open && self.origin(voice) == Origin::Stable;
        is_open.then(|| Weak::crossing(link, home)).flatten()
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
        let is_carried =
            self.before.harmony == self.harmony || self.figures.strong == StrongFigures::Passing;
        (entry == Entry::Accented && !is_carried).then_some(Failure::NotProlonged)
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
    fn held(&mut self, voice: VoiceId, note: Heard) -> Taken {
        let standing = self.standing(voice, note);
        let figure = self.before.figures[voice];
        let pursuit = self.before.pursuits[voice].clone();
        match (figure, standing) {
            (Figure::Foreign(..), _) => self.still_foreign(voice, figure, pursuit),
            (_, Standing::Stable(member)) => Taken { figure: Figure::Stable(member), pursuit },
            (_, Standing::Foreign(_)) if !self.step.setting.is_written(voice) => Taken::default(),
            (_, Standing::Foreign(offence)) => {
                if let Some(pursuit) = pursuit {
                    self.tell(voice, pursuit.break_off(Failure::NeverResolved));
                }
                let at = self.step.now.onset;
                let link = Link { note, from: None, offence, at };
                let held = Held::new(link, suspension::due(self.step.setting, at));
                let figure = Figure::Foreign(offence, Entry::Held);
                Taken { figure, pursuit: Some(Box::new(Pursuit::Held(held))) }
            }
        }
    }

    /// A foreign note on a weak beat has to go on before the next strong one.
    fn still_foreign(
        &mut self,
        voice: VoiceId,
        figure: Figure,
        pursuit: Option<Box<Pursuit>>,
    ) -> Taken {
        match pursuit {
            Some(pursuit) if matches!(*pursuit, Pursuit::Weak(_)) && self.step.is_downbeat() => {
                self.tell(voice, pursuit.break_off(Failure::HeldOver));
                Taken { figure, pursuit: None }
            }
            pursuit => Taken { figure, pursuit },
        }
    }

    /// A foreign note that is followed by silence is never resolved. Where nothing more is
    /// written, nothing is said.
    fn silenced(&mut self, voice: VoiceId) -> Taken {
        let rests = matches!(self.step.now.strokes[voice], Stroke::Rests);
        if let (true, Some(pursuit)) = (rests, &self.before.pursuits[voice]) {
            self.tell(voice, pursuit.break_off(Failure::NeverResolved));
        }
        Taken::default()
    }
}
