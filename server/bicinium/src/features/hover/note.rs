//! What is said about a note: its pitch, its place in the key, what it makes with the other voice,
//! how the line comes to it and goes on, the harmony, what it does there, and what was found.

use std::cmp::Ordering;

use bicinium_analysis::Exercise;
use bicinium_analysis::finding::Finding;
use bicinium_analysis::judge::Heard;
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Line, Score, VoiceId};
use bicinium_theory::{Duration, Interval, Key, Motion, Pitch};

use super::{Section, function, harmony, rule};

/// What is said about an event of a voice; nothing about silence.
pub(super) fn say(
    exercise: &Exercise,
    findings: &[Finding],
    voice: VoiceId,
    event: &Event,
) -> Option<Vec<Section>> {
    let Some(pitch) = event.pitch() else { return open(exercise, event) };
    let score = &exercise.score;
    let heard = Heard { pitch, onset: event.onset, duration: event.duration };
    let place = wording::place(&score.setting, event.onset);
    let mut body = vec![
        Section::Heading(format!("{pitch}, {} voice, {place}", voice.name())),
        Section::Fact("degree", degree(score.setting.key, pitch)),
    ];
    body.extend(vertical(score, voice, heard).map(|text| Section::Fact("interval", text)));
    body.extend(motion(score, event.onset).map(|text| Section::Fact("motion", text)));
    body.extend(line(&score.lines[voice], event).map(|text| Section::Fact("line", text)));
    body.extend(harmony::at(exercise, event.onset).map(|text| Section::Fact("harmony", text)));
    body.extend(
        function::say(exercise, voice, event.onset).map(|text| Section::Fact("function", text)),
    );
    body.extend(admissions(exercise, voice, event.onset).map(Section::Text));
    body.extend(rule::findings(findings.iter().filter(|found| found.range == event.range)));
    Some(body)
}

/// What the rules let pass at a note, with the reason.
fn admissions(
    exercise: &Exercise,
    voice: VoiceId,
    onset: Duration,
) -> impl Iterator<Item = String> + '_ {
    let here = exercise.verdict.admissions.iter().filter(move |admission| {
        admission.spot.onset == onset && admission.spot.voice.is_none_or(|of| of == voice)
    });
    here.map(|admission| admission.message.clone())
}

/// A note still to be chosen: what the bar leaves open.
fn open(exercise: &Exercise, event: &Event) -> Option<Vec<Section>> {
    let place = wording::place(&exercise.score.setting, event.onset);
    let harmony = harmony::at(exercise, event.onset)?;
    let is_open = event.sound != bicinium_analysis::score::Sound::Rest;
    let heading = Section::Heading(format!("A note to be chosen, {place}"));
    is_open.then(|| vec![heading, Section::Fact("harmony", harmony)])
}

fn degree(key: Key, pitch: Pitch) -> String {
    let degree = key.degree(pitch.class());
    format!("{degree}, the {} of {key}", degree.name())
}

fn vertical(score: &Score, voice: VoiceId, note: Heard) -> Option<String> {
    let other = score.lines[voice.other()].sounding_at(note.onset)?.pitch()?;
    let interval = Interval::between(note.pitch.min(other), note.pitch.max(other));
    let kind = if interval.is_perfect() {
        "a perfect consonance"
    } else if interval.is_imperfect() {
        "an imperfect consonance"
    } else {
        "a dissonance"
    };
    let side = match note.pitch.cmp(&other) {
        Ordering::Less => "under",
        Ordering::Equal => "with",
        Ordering::Greater => "over",
    };
    let compound = interval.is_compound();
    let simple = compound.then(|| format!(", a compound {}", interval.simple().words()));
    let name = wording::an_interval(interval);
    Some(format!("{name} ({interval}) {side} {other}{}: {kind}", simple.unwrap_or_default()))
}

/// How the voices come to a moment from the one before.
fn motion(score: &Score, onset: Duration) -> Option<String> {
    let before = last_moment_before(score, onset)?;
    let way = |voice: VoiceId| -> Option<(Pitch, Pitch)> {
        let line = &score.lines[voice];
        Some((line.sounding_at(before)?.pitch()?, line.sounding_at(onset)?.pitch()?))
    };
    let (upper, lower) = (way(VoiceId::Upper)?, way(VoiceId::Lower)?);
    let motion = Motion::between(upper, lower);
    let interval =
        |(above, below): (Pitch, Pitch)| Interval::between(below.min(above), below.max(above));
    let from = interval((upper.0, lower.0));
    let to = interval((upper.1, lower.1));
    Some(format!("{}, {from} to {to}", motion.name()))
}

fn last_moment_before(score: &Score, onset: Duration) -> Option<Duration> {
    let events = VoiceId::BOTH.iter().flat_map(|voice| &score.lines[*voice].events);
    events.map(|event| event.onset).filter(|earlier| *earlier < onset).max()
}

fn line(line: &Line, event: &Event) -> Option<String> {
    let pitch = event.pitch()?;
    let index = line.events.iter().position(|known| known.onset == event.onset)?;
    let before = index.checked_sub(1).and_then(|index| line.events.get(index)?.pitch());
    let after = line.events.get(index + 1).and_then(Event::pitch);
    let comes = before.map(|from| format!("comes from {from}, {}", step(from, pitch)));
    let goes = after.map(|to| format!("goes on to {to}, {}", step(pitch, to)));
    match (comes, goes) {
        (Some(comes), Some(goes)) => Some(format!("{comes}; {goes}")),
        (comes, goes) => comes.or(goes),
    }
}

/// "a major second down", "the same note again".
fn step(from: Pitch, to: Pitch) -> String {
    use bicinium_theory::Direction::{Down, Level, Up};
    let interval = Interval::between(from, to);
    let name = wording::an_interval(interval);
    match interval.direction() {
        Level => "the same note again".to_owned(),
        Up => format!("{name} up"),
        Down => format!("{name} down"),
    }
}
