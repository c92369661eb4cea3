//! What a note does, in words, with the reason: the figure it is part of, the harmony that carries
//! it, and where it ends.

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::Heard;
use bicinium_analysis::reading::{
    Entry, FigureAround, Function, Link, NoteFunction, Offence, Shape, Stretch, SuspensionKind,
};
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Setting, VoiceId};
use bicinium_theory::Duration;

use super::harmony;

/// What the note of a voice that begins at an onset does.
pub(in crate::features) fn say(
    exercise: &Exercise,
    voice: VoiceId,
    onset: Duration,
) -> Option<String> {
    let reading = &exercise.verdict.reading;
    let known = reading.function_at(voice, onset)?;
    let alone = alone(exercise, known);
    let Some(figure) = reading.figure_around(voice, onset) else { return alone };
    let within = within(figure);
    let adds_nothing = matches!(known.function, Function::Embellishes { .. });
    let alone = alone.filter(|_| !adds_nothing);
    Some(alone.map_or_else(|| within.clone(), |alone| format!("{alone}; {within}")))
}

/// "third note of the cambiata from C5".
fn within(figure: FigureAround) -> String {
    let place = if figure.place == 3 { "third" } else { "fourth" };
    let name = if figure.shape == Shape::Cambiata { "cambiata" } else { "changing notes" };
    let origin = figure.from.map(|from| format!(" from {}", from.pitch));
    format!("{place} note of the {name}{}", origin.unwrap_or_default())
}

fn alone(exercise: &Exercise, known: &NoteFunction) -> Option<String> {
    let stretch = exercise.verdict.reading.stretch_at(known.note.onset);
    let setting = &exercise.score.setting;
    match known.function {
        Function::Member(member) => Some(harmony::member(stretch?, member)),
        Function::Consonance => Some("consonant with the other voice".to_owned()),
        Function::Embellishes { shape, entry, link, resolution, kind } => {
            let told = Embellishment { setting, stretch, shape, entry, link, resolution, kind };
            Some(told.words())
        }
        Function::Pending(offence) => {
            Some(format!("{} so far: it has to go on by step", foreign(offence)))
        }
        Function::Fails(offence, _) => {
            Some(format!("{} without support; see below", foreign(offence)))
        }
        Function::FailsWith(offence, first) => {
            let place = wording::note_in(setting, first);
            Some(format!("{}, part of a figure that fails; see {place}", foreign(offence)))
        }
        Function::Open => None,
    }
}

/// A note that only embellishes, with what there is to say about it.
struct Embellishment<'a> {
    setting: &'a Setting,
    stretch: Option<&'a Stretch>,
    shape: Shape,
    entry: Entry,
    link: Link,
    resolution: Heard,
    kind: Option<SuspensionKind>,
}

impl Embellishment<'_> {
    /// "accented neighbour: IV is prolonged from bar 2, resolves to C3".
    fn words(&self) -> String {
        let parts = [self.beginning(), Some(self.end())];
        format!("{}: {}", self.figure(), parts.into_iter().flatten().collect::<Vec<_>>().join(", "))
    }

    fn figure(&self) -> String {
        let name = match (self.shape, self.entry) {
            (Shape::Passing, Entry::Weak) => "passing note",
            (Shape::Neighbour, Entry::Weak) => "neighbour",
            (Shape::Passing, _) => "accented passing note",
            (Shape::Neighbour, _) => "accented neighbour",
            (Shape::DoubleNeighbour, _) => "double neighbour",
            (Shape::Cambiata, _) => "cambiata",
            (Shape::SkippedThird, _) => "passing note that skips a third",
            (Shape::Suspension, _) => "suspension",
            (Shape::Retardation, _) => "leading note held over",
            (Shape::Decoration, _) => "decoration of a suspension",
        };
        match self.kind {
            Some(kind) => format!("{name} {kind}"),
            None => name.to_owned(),
        }
    }

    /// What leads to the note, or carries it.
    fn beginning(&self) -> Option<String> {
        match self.entry {
            Entry::Held => {
                let bar = |onset| self.setting.bar_of(onset) + 1;
                let (prepared, dissonant) = (bar(self.link.note.onset), bar(self.link.at));
                Some(format!("prepared in bar {prepared}, dissonant in bar {dissonant}"))
            }
            Entry::Accented => self.carrier().or_else(|| self.origin()),
            Entry::Weak | Entry::Between => self.origin(),
        }
    }

    fn origin(&self) -> Option<String> {
        self.link.from.map(|from| format!("from {}", from.pitch))
    }

    /// The harmony that reaches over the barline and carries an accented figure.
    fn carrier(&self) -> Option<String> {
        let stretch = self.stretch?;
        let from = self.setting.bar_of(stretch.prolonged_from?) + 1;
        let numeral = stretch.numeral.with_inversion(bicinium_theory::Inversion::Root);
        Some(format!("{numeral} is prolonged from bar {from}"))
    }

    fn end(&self) -> String {
        let pitch = self.resolution.pitch;
        match (self.shape, self.entry) {
            (Shape::Passing, Entry::Weak) => format!("passes to {pitch}"),
            (Shape::Neighbour | Shape::DoubleNeighbour, Entry::Weak) => {
                format!("returns to {pitch}")
            }
            (Shape::Cambiata | Shape::SkippedThird, _) => {
                format!("skips a third and comes back to {pitch}{}", self.bar_if_later())
            }
            (Shape::Decoration, _) => format!("the resolution is {pitch}"),
            _ => format!("resolves to {pitch}{}", self.bar_if_later()),
        }
    }

    fn bar_if_later(&self) -> String {
        let (here, there) =
            (self.setting.bar_of(self.link.at), self.setting.bar_of(self.resolution.onset));
        if here == there { String::new() } else { format!(" in bar {}", there + 1) }
    }
}

fn foreign(offence: Offence) -> &'static str {
    match offence {
        Offence::Dissonant => "a dissonance",
        Offence::Outside => "a note outside the harmony",
        Offence::SixFour => "the fifth in the bass, a six-four",
        Offence::Misplaced => "a member that may not be the bass",
    }
}
