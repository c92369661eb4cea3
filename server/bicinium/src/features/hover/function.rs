//! What a note does, in words, with the reason: the figure it is part of, the harmony that carries
//! it, and where it ends.

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::Heard;
use bicinium_analysis::reading::{Entry, Function, Link, Offence, Shape, Stretch};
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Setting, VoiceId};
use bicinium_theory::{Duration, Interval};

use super::harmony;

/// What the note of a voice that begins at an onset does.
pub(super) fn say(exercise: &Exercise, voice: VoiceId, onset: Duration) -> Option<String> {
    let reading = &exercise.verdict.reading;
    let known = reading.function_at(voice, onset)?;
    let stretch = reading.stretch_at(onset);
    let setting = &exercise.score.setting;
    match known.function {
        Function::Member(member) => Some(harmony::member(stretch?, member)),
        Function::Consonance => Some("consonant with the other voice".to_owned()),
        Function::Embellishes { shape, entry, link, resolution } => {
            Some(embellishment(setting, stretch, shape, entry, link, resolution))
        }
        Function::Pending(offence) => {
            Some(format!("{} so far: it has to go on by step", foreign(offence)))
        }
        Function::Fails(offence, _) => {
            Some(format!("{} without support; see below", foreign(offence)))
        }
        Function::Open => None,
    }
}

/// "accented neighbour: IV is prolonged from bar 2, resolves to C3".
fn embellishment(
    setting: &Setting,
    stretch: Option<&Stretch>,
    shape: Shape,
    entry: Entry,
    link: Link,
    resolution: Heard,
) -> String {
    let name = figure(shape, entry);
    let from = link.from.map(|from| format!("from {}", from.pitch));
    let carried = match (entry, stretch) {
        (Entry::Accented, Some(stretch)) => carrier(setting, stretch),
        _ => None,
    };
    let resolves =
        format!("resolves to {}{}", resolution.pitch, bar_if_later(setting, link.note, resolution));
    let ends = match (shape, entry) {
        (Shape::Passing, Entry::Weak) => format!("passes to {}", resolution.pitch),
        (Shape::Neighbour, Entry::Weak) => format!("returns to {}", resolution.pitch),
        _ => resolves,
    };
    let parts: Vec<_> = [carried.or(from), Some(ends)].into_iter().flatten().collect();
    format!("{name}: {}", parts.join(", "))
}

fn figure(shape: Shape, entry: Entry) -> &'static str {
    match (shape, entry) {
        (Shape::Passing, Entry::Weak) => "passing note",
        (Shape::Neighbour, Entry::Weak) => "neighbour",
        (Shape::Passing, _) => "accented passing note",
        (Shape::Neighbour, _) => "accented neighbour",
        (Shape::Suspension, _) => "suspension",
    }
}

/// The harmony that reaches over the barline and carries an accented figure.
fn carrier(setting: &Setting, stretch: &Stretch) -> Option<String> {
    let from = stretch.prolonged_from?;
    let numeral = stretch.numeral.with_inversion(bicinium_theory::Inversion::Root);
    Some(format!("{numeral} is prolonged from bar {}", setting.bar_of(from) + 1))
}

fn bar_if_later(setting: &Setting, note: Heard, resolution: Heard) -> String {
    let (here, there) = (setting.bar_of(note.onset), setting.bar_of(resolution.onset));
    if here == there { String::new() } else { format!(" in bar {}", there + 1) }
}

fn foreign(offence: Offence) -> &'static str {
    match offence {
        Offence::Dissonant => "a dissonance",
        Offence::Outside => "a note outside the harmony",
        Offence::SixFour => "the fifth in the bass, a six-four",
        Offence::Misplaced => "a member that may not be the bass",
    }
}

/// Why fifths or octaves on the afterbeats of neighbouring bars are admitted, where they are.
pub(super) fn afterbeats(exercise: &Exercise, onset: Duration) -> Option<String> {
    let setting = &exercise.score.setting;
    let earlier = onset.ticks().checked_sub(setting.bar_length().ticks())?;
    let earlier = Duration::from_ticks(earlier);
    if setting.within_bar(onset) == Duration::ZERO || is_reported(exercise, onset) {
        return None;
    }
    let (now, before) = (pair(exercise, onset)?, pair(exercise, earlier)?);
    let class = now.2.perfect_class().filter(|class| before.2.perfect_class() == Some(*class))?;
    if now.0 == before.0 || now.1 == before.1 {
        return None;
    }
    let melodic = melodic_note(exercise, onset).or_else(|| melodic_note(exercise, earlier))?;
    let name = match class {
        bicinium_theory::PerfectClass::Fifth => "fifths",
        bicinium_theory::PerfectClass::Octave => "octaves",
    };
    Some(format!(
        "The {name} on the afterbeats of bars {} and {} are admitted: {} only embellishes.",
        setting.bar_of(earlier) + 1,
        setting.bar_of(onset) + 1,
        wording::note_in(setting, melodic),
    ))
}

fn is_reported(exercise: &Exercise, onset: Duration) -> bool {
    let mut breaches = exercise.verdict.breaches.iter();
    breaches.any(|breach| breach.rule == "afterbeat-perfects" && breach.spot.onset == onset)
}

type Sounding = (bicinium_theory::Pitch, bicinium_theory::Pitch, Interval);

fn pair(exercise: &Exercise, onset: Duration) -> Option<Sounding> {
    let pitch = |voice: VoiceId| exercise.score.lines[voice].sounding_at(onset)?.pitch();
    let (upper, lower) = (pitch(VoiceId::Upper)?, pitch(VoiceId::Lower)?);
    Some((upper, lower, Interval::between(lower, upper)))
}

fn melodic_note(exercise: &Exercise, onset: Duration) -> Option<Heard> {
    VoiceId::BOTH.into_iter().find_map(|voice| {
        let known = exercise.verdict.reading.function_at(voice, onset)?;
        matches!(known.function, Function::Embellishes { .. }).then_some(known.note)
    })
}
