//! What a hole may still become, and how all holes of an exercise may be filled, as plain data made
//! from a snapshot. The realizer finds the ways; here they are only put into words and edits.

use std::ops::Range;

use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_grammar::TextSize;
use bicinium_realizer::{Budget, Extent, Opening, Realizations, realize};
use bicinium_theory::{Interval, Pitch};

/// The pitches that a hole may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choices {
    /// The hole, in bytes of the sheet.
    pub range: Range<usize>,
    /// The pitches, the best first.
    pub choices: Vec<Choice>,
    /// Whether these are all.
    pub extent: Extent,
}

/// A pitch that a hole may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The pitch.
    pub pitch: String,
    /// What it makes there.
    pub detail: String,
}

/// A way to fill all holes of an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Filling {
    /// What it does, as a line in a menu.
    pub title: String,
    /// The changes of the text: ranges in bytes of the sheet, and what stands there instead.
    pub edits: Vec<(Range<usize>, String)>,
}

/// What the hole at a byte of a sheet may become; `None` if there is no hole.
pub fn choices(snapshot: &Snapshot, offset: usize) -> Option<Choices> {
    let block = snapshot.block_at(offset)?;
    let exercise = block.judged.exercise.as_ref()?;
    let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
    let is_here =
        |event: &&Event| event.sound == Sound::Hole && event.range.contains_inclusive(within);
    let (voice, event) = VoiceId::BOTH.into_iter().find_map(|voice| {
        Some((voice, exercise.score.lines[voice].events.iter().find(is_here)?))
    })?;
    let found = realize(exercise, Budget::default());
    let mut openings = found.openings.iter();
    let opening = openings.find(|it| it.hole.voice == voice && it.hole.onset == event.onset)?;
    let choice = |(pitch, _): &(Pitch, u64)| Choice {
        pitch: pitch.to_string(),
        detail: detail(exercise, opening, *pitch),
    };
    let choices = opening.viable.iter().map(choice).collect();
    Some(Choices { range: block.in_sheet(event.range), choices, extent: found.extent })
}

/// The best ways to fill the holes of the exercise at a byte of a sheet.
pub fn fillings(snapshot: &Snapshot, offset: usize) -> Vec<Filling> {
    let Some(block) = snapshot.block_at(offset) else { return Vec::new() };
    let Some(exercise) = &block.judged.exercise else { return Vec::new() };
    if !has_holes(exercise) {
        return Vec::new();
    }
    let found = realize(exercise, Budget::default());
    let ways = found.best.iter().zip(["the best", "the second best", "the third best"]);
    ways.map(|(way, rank)| Filling {
        title: title(&found, rank),
        edits: edits(block, exercise, &found, &way.pitches),
    })
    .collect()
}

fn has_holes(exercise: &Exercise) -> bool {
    let mut events = VoiceId::BOTH.iter().flat_map(|voice| &exercise.score.lines[*voice].events);
    events.any(|event| event.sound == Sound::Hole)
}

fn title(found: &Realizations, rank: &str) -> String {
    let holes = match found.openings.len() {
        1 => "Fill the hole".to_owned(),
        number => format!("Fill the {number} holes"),
    };
    match (found.count, found.extent) {
        (1, Extent::All) => format!("{holes}: the only way"),
        (count, Extent::All) => format!("{holes}: {rank} of {count} ways"),
        (count, Extent::AtLeast) => format!("{holes}: {rank} of the first {count} ways"),
    }
}

fn edits(
    block: &Placed,
    exercise: &Exercise,
    found: &Realizations,
    pitches: &[Pitch],
) -> Vec<(Range<usize>, String)> {
    let filled = found.openings.iter().zip(pitches);
    let edit = |(opening, pitch): (&Opening, &Pitch)| {
        let event = exercise.score.lines[opening.hole.voice].event_at(opening.hole.onset)?;
        Some((block.in_sheet(event.range), pitch.to_string()))
    };
    filled.filter_map(edit).collect()
}

/// "a major third over C4"; the length of the note where nothing sounds against it.
fn detail(exercise: &Exercise, opening: &Opening, pitch: Pitch) -> String {
    let hole = opening.hole;
    let other = exercise.score.lines[hole.voice.other()].sounding_at(hole.onset);
    let Some(other) = other.and_then(Event::pitch) else { return hole.duration.to_string() };
    let interval = Interval::between(pitch.min(other), pitch.max(other));
    let side = if pitch < other { "under" } else { "over" };
    format!("{} {side} {other}", wording::an_interval(interval))
}
