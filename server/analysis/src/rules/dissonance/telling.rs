//! How the failure of a figure is told: the note, what makes it foreign, which condition failed,
//! and what would mend it. Knows the words, not which rule speaks them.

use bicinium_theory::Interval;

use crate::judge::{Heard, Report, Words};
use crate::reading::{Ending, Entry, Failure, Harmony, HearingStep, Offence, Outcome};
use crate::rules::wording;
use crate::score::VoiceId;

/// Reports the failed figures of a moment that a rule answers for.
pub(super) fn failures(
    step: &HearingStep<'_>,
    report: &mut Report,
    answers_for: impl Fn(&Outcome, Failure) -> bool,
) {
    for outcome in step.outcomes {
        let Ending::Failed(failure) = outcome.ending else { continue };
        if answers_for(outcome, failure) {
            let note = outcome.link.note;
            report.at(outcome.voice, note.onset, || tell(step, outcome, failure));
        }
    }
}

fn tell(step: &HearingStep<'_>, outcome: &Outcome, failure: Failure) -> Words {
    let told = Telling { step, outcome };
    let note = outcome.link.note;
    let mut words = Words::new(format!(
        "{} {}{}. {}",
        wording::note_in(step.notes.setting, note),
        told.what_is_wrong(),
        told.condition(failure),
        told.remedy(failure),
    ));
    if told.other().is_some() {
        words = words.with(outcome.voice.other(), outcome.link.at, "what it sounds against");
    }
    match follower(failure) {
        Some(next) => words.with(outcome.voice, next.onset, "where the line goes on"),
        None => words,
    }
}

/// How a line moves that does not go by step.
enum Unstepped {
    Again,
    Raised,
    Lowered,
    Leap,
}

impl Unstepped {
    fn between(from: Heard, to: Heard) -> Self {
        let interval = Interval::between(from.pitch, to.pitch);
        match (interval.number(), interval.semitones().signum()) {
            (1, 0) => Self::Again,
            (1, 1) => Self::Raised,
            (1, _) => Self::Lowered,
            _ => Self::Leap,
        }
    }
}

struct Telling<'a> {
    step: &'a HearingStep<'a>,
    outcome: &'a Outcome,
}

impl Telling<'_> {
    /// The note of the other voice that sounds with the foreign one.
    fn other(&self) -> Option<Heard> {
        let sounded = self.step.notes.after.pair.at(self.outcome.link.at)?;
        Some(sounded.notes[self.outcome.voice.other()])
    }

    /// The harmony that the note is foreign to.
    fn harmony(&self) -> Option<&Harmony> {
        if self.outcome.link.at == self.step.notes.now.onset {
            self.step.harmony()
        } else {
            self.step.harmony_before()
        }
    }

    fn what_is_wrong(&self) -> String {
        let harmony = self.harmony().map(|harmony| harmony.numeral.to_string());
        match (self.outcome.link.offence, harmony) {
            (Offence::Dissonant, _) => self.dissonance(),
            (Offence::Outside, Some(harmony)) => format!("is no note of {harmony}"),
            (Offence::Outside, None) => "stands outside the harmony".to_owned(),
            (Offence::SixFour, Some(harmony)) => {
                format!("puts the fifth of {harmony} in the bass, a six-four")
            }
            (Offence::SixFour, None) => "makes a six-four".to_owned(),
            (Offence::Misplaced, Some(harmony)) => format!("may not be the bass of {harmony}"),
            (Offence::Misplaced, None) => "may not stand in the bass".to_owned(),
        }
    }

    fn dissonance(&self) -> String {
        let Some(other) = self.other() else { return "is dissonant".to_owned() };
        let (note, voice) = (self.outcome.link.note, self.outcome.voice);
        let (low, high) = match voice {
            VoiceId::Upper => (other, note),
            VoiceId::Lower => (note, other),
        };
        let interval = Interval::between(low.pitch, high.pitch);
        let side = if note.pitch < other.pitch { "under" } else { "over" };
        let interval = wording::an_interval(interval);
        let at = self.outcome.link.at;
        if at == note.onset {
            return format!("makes {interval} {side} {}", other.pitch);
        }
        let place = wording::place(self.step.notes.setting, at);
        format!("is held into {place}, where it makes {interval} {side} {}", other.pitch)
    }

    fn condition(&self, failure: Failure) -> String {
        match failure {
            Failure::NotAllowed => ", and here every note must stand for itself".to_owned(),
            Failure::StrongBeat => {
                " on the strong beat, where only a consonance may be struck".to_owned()
            }
            Failure::NotPrepared => ", and no note leads to it by step".to_owned(),
            Failure::NotReachedByStep(from) => {
                format!(", and it is not reached by step: {}", self.approach(from))
            }
            Failure::NotProlonged => self.not_prolonged(),
            Failure::LeftByLeap(next) => format!(", and {}", self.departure(next)),
            Failure::TurnedBack(next) => {
                format!(", and turns back to {} instead of to the note it came from", next.pitch)
            }
            Failure::NeighbourNotAllowed(next) => {
                format!(", and turns back to {}; only a passing note may do so here", next.pitch)
            }
            Failure::HarmonyMoved(next) => {
                format!(", and the harmony has changed when the line comes to {}", next.pitch)
            }
            Failure::NotBrought(next) => {
                format!(
                    ", leaps a third as changing notes do, and does not come back as they must: it \
                     goes on to {}",
                    next.pitch
                )
            }
            Failure::ResolvedUpward(next) => format!(", and goes up to {}", next.pitch),
            Failure::ResolvedToForeign(next) => {
                format!(", and goes on to {}, which has to be resolved itself", next.pitch)
            }
            Failure::NotInTime(next) => {
                format!(
                    ", and its resolution, a step down, is not there when it is due: {} stands in \
                     {}",
                    next.pitch,
                    wording::place(self.step.notes.setting, next.onset)
                )
            }
            Failure::TooMany(most) => {
                format!(
                    ", and is one of more than {most} in a row that do not stand for themselves"
                )
            }
            Failure::HeldOver => ", and is held over the barline".to_owned(),
            Failure::NeverResolved => ", and is never resolved by step".to_owned(),
        }
    }

    /// How the line comes to the note, where it is by no step.
    fn approach(&self, from: Heard) -> String {
        match Unstepped::between(from, self.outcome.link.note) {
            Unstepped::Again => format!("{} is only struck again", from.pitch),
            Unstepped::Raised => format!("it only raises {}", from.pitch),
            Unstepped::Lowered => format!("it only lowers {}", from.pitch),
            Unstepped::Leap => format!("the line leaps to it from {}", from.pitch),
        }
    }

    /// How the line goes on from the note, where it is by no step.
    fn departure(&self, next: Heard) -> String {
        match Unstepped::between(self.outcome.link.note, next) {
            Unstepped::Again => "is struck again".to_owned(),
            Unstepped::Raised => format!("is only raised to {}", next.pitch),
            Unstepped::Lowered => format!("is only lowered to {}", next.pitch),
            Unstepped::Leap => format!("is left by a leap to {}", next.pitch),
        }
    }

    fn remedy(&self, failure: Failure) -> &'static str {
        match (self.outcome.entry, failure) {
            (Entry::Held, Failure::LeftByLeap(_) | Failure::NeverResolved) => {
                "Resolve it down by step to a consonance."
            }
            _ => remedy(failure),
        }
    }

    fn not_prolonged(&self) -> String {
        let name = |harmony: Option<&Harmony>| harmony.map(|harmony| harmony.numeral.to_string());
        match (name(self.step.harmony_before()), name(self.step.harmony())) {
            (Some(before), Some(now)) => {
                format!(
                    " on the strong beat, and no harmony reaches across the barline: {before} goes to {now}"
                )
            }
            _ => " on the strong beat, and no harmony reaches into the bar".to_owned(),
        }
    }
}

fn remedy(failure: Failure) -> &'static str {
    match failure {
        Failure::NotAllowed | Failure::StrongBeat => {
            "Take a third, a sixth, a fifth or an octave here."
        }
        Failure::NotPrepared | Failure::NotReachedByStep(_) => {
            "Come to it by step, or take a note that stands for itself."
        }
        Failure::NotProlonged | Failure::HarmonyMoved(_) => {
            "Keep the harmony on both sides, or put a note of the new harmony on the beat."
        }
        Failure::LeftByLeap(_)
        | Failure::TurnedBack(_)
        | Failure::HeldOver
        | Failure::NeverResolved => {
            "Let the line go on by step until it reaches a note that stands for itself."
        }
        Failure::TooMany(_) => "Let the line come sooner to a note that stands for itself.",
        Failure::NeighbourNotAllowed(_) => "Let it pass through in one direction.",
        Failure::NotBrought(_) => {
            "Let it return by step, or let the dissonance go on by step from the start."
        }
        Failure::ResolvedUpward(_) | Failure::ResolvedToForeign(_) => {
            "Resolve it down by step to a consonance."
        }
        Failure::NotInTime(_) => "Resolve it down by step on the next weak main beat.",
    }
}

fn follower(failure: Failure) -> Option<Heard> {
    match failure {
        Failure::LeftByLeap(next)
        | Failure::TurnedBack(next)
        | Failure::NeighbourNotAllowed(next)
        | Failure::HarmonyMoved(next)
        | Failure::ResolvedUpward(next)
        | Failure::ResolvedToForeign(next)
        | Failure::NotBrought(next)
        | Failure::NotInTime(next) => Some(next),
        _ => None,
    }
}
