//! What an open place may become, the best first, each with what it makes there.

use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Sound};
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::{Extent, Realizer, Viable, Watch};
use bicinium_theory::Interval;

use super::places::{Open, open_at};

/// The pitches that an open place may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choices {
    /// The place, in bytes of the sheet.
    pub range: Range<usize>,
    /// The pitches, the best first.
    pub choices: Vec<Choice>,
    /// Whether these are all.
    pub extent: Extent,
}

/// A pitch that an open place may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The pitch.
    pub pitch: String,
    /// What it makes there.
    pub detail: String,
}

/// What the hole at a byte of a sheet may become; `None` if there is no hole.
pub fn choices(snapshot: &Snapshot, offset: usize) -> Option<Choices> {
    let block = snapshot.block_at(offset)?;
    let exercise = block.judged.exercise.as_ref()?;
    let open = open_at(block, exercise, offset).filter(|open| open.sound == Sound::Hole)?;
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(super::PROMPT, &cancelled);
    let found = Realizer::new(exercise, &watch).opening(open.voice, open.onset);
    let choice = |viable: &Viable| Choice {
        pitch: viable.pitch.to_string(),
        detail: detail(exercise, &open, viable),
    };
    let choices = found.found.iter().map(choice).collect();
    Some(Choices { range: open.range.clone(), choices, extent: found.extent })
}

/// "a major third over C4"; the length of the note where nothing sounds against it.
fn detail(exercise: &Exercise, open: &Open, viable: &Viable) -> String {
    let pitch = viable.pitch;
    let other = exercise.score.lines[open.voice.other()].sounding_at(open.onset);
    let Some(other) = other.and_then(Event::pitch) else { return viable.duration.to_string() };
    let interval = Interval::between(pitch.min(other), pitch.max(other));
    let side = if pitch < other { "under" } else { "over" };
    format!("{} {side} {other}", wording::an_interval(interval))
}
