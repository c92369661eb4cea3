//! Where dissonances are written: at the note that makes one, or at the `-` that holds it into one.

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::{Function, Offence};
use bicinium_analysis::score::{Event, Line, Score, VoiceId};
use bicinium_grammar::{Mark, TextRange, TextSize};
use bicinium_theory::{Duration, Interval};

/// Where the words begin that are dissonant, in the order of the text.
pub(super) fn places(
    score: &Score,
    exercise: &Exercise,
    marks: &[(Mark, TextRange)],
) -> Vec<TextSize> {
    let of_voice = |voice: VoiceId| {
        let functions = exercise.verdict.reading.functions[voice].iter();
        let dissonant = functions.filter(|known| is_dissonance(known.function));
        dissonant.filter_map(move |known| place(score, voice, known.note.onset, marks))
    };
    let mut places: Vec<_> = VoiceId::BOTH.into_iter().flat_map(of_voice).collect();
    places.sort_unstable();
    places
}

fn is_dissonance(function: Function) -> bool {
    let offence = match function {
        Function::Embellishes { link, .. } => link.offence,
        Function::Pending(offence)
        | Function::Fails(offence, _)
        | Function::FailsWith(offence, _) => offence,
        Function::Member(_) | Function::Consonance | Function::Open => return false,
    };
    offence == Offence::Dissonant
}

fn place(
    score: &Score,
    voice: VoiceId,
    onset: Duration,
    marks: &[(Mark, TextRange)],
) -> Option<TextSize> {
    let line = &score.lines[voice];
    let event = line.event_at(onset)?;
    let at = first_dissonance(&score.lines[voice.other()], event)?;
    if at == onset {
        return Some(event.range.start());
    }
    let is_at_barline = score.setting.within_bar(at) == Duration::ZERO;
    let bar = usize::try_from(score.setting.bar_of(at)).ok().filter(|_| is_at_barline)?;
    hold_in(*line.bars.get(bar)?, marks)
}

/// When a note first is dissonant with the other voice.
fn first_dissonance(other: &Line, event: &Event) -> Option<Duration> {
    let pitch = event.pitch()?;
    let is_dissonant = |against: &Event| {
        let interval = against.pitch().map(|against| Interval::between(pitch, against));
        interval.is_some_and(Interval::is_dissonant)
    };
    let first = other.events.partition_point(|against| against.end() <= event.onset);
    let together = other.events[first..].iter().take_while(|it| it.onset < event.end());
    let mut dissonant = together.filter(|against| is_dissonant(against));
    dissonant.next().map(|against| against.onset.max(event.onset))
}

/// The `-` with which a bar begins.
fn hold_in(bar: TextRange, marks: &[(Mark, TextRange)]) -> Option<TextSize> {
    let first = marks.partition_point(|(_, range)| range.start() < bar.start());
    let mut inside = marks[first..].iter().filter(|(mark, _)| *mark != Mark::Group);
    let (mark, range) = inside.next()?;
    (*mark == Mark::Hold && bar.contains_range(*range)).then(|| range.start())
}
