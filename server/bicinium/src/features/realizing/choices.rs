//! What an open place may become, the best first, each with what it makes there.

use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::{Extent, Realizer, Viable, Watch};
use bicinium_theory::{Duration, Interval};

use super::bar_text::bar_text;
use super::places::open_at;

/// What an open place may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choices {
    /// What is replaced, in bytes of the sheet.
    pub range: Range<usize>,
    /// What may stand there, the best first.
    pub choices: Vec<Choice>,
    /// Whether these are all.
    pub extent: Extent,
}

/// Something that an open place may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The pitch; in a blank bar that of its first note.
    pub pitch: String,
    /// What is written: the pitch, or the whole bar of the best way that begins with it.
    pub text: String,
    /// What it makes there.
    pub detail: String,
}

/// What the hole or the blank bar at a byte of a sheet may become; `None` if nothing is open there.
pub fn choices(snapshot: &Snapshot, offset: usize) -> Option<Choices> {
    let block = snapshot.block_at(offset)?;
    let exercise = block.judged.exercise.as_ref()?;
    let open = open_at(block, exercise, offset)?;
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(super::PROMPT, &cancelled);
    let realizer = Realizer::new(exercise, &watch);
    let bar = exercise.score.setting.bar_length();
    let (onset, range) = match open.sound {
        Sound::Blank => {
            let first = realizer.first_choice(open.voice, open.onset, open.onset + bar);
            (first?, offset..offset)
        }
        _ => (open.onset, open.range.clone()),
    };
    let found = realizer.opening(open.voice, onset);
    let choice = |viable: &Viable| {
        let pitch = viable.pitch.to_string();
        let notes: Vec<_> = viable.way.notes(open.voice).collect();
        let text = match open.sound {
            Sound::Blank => bar_text(&notes, open.onset, bar)?,
            _ => pitch.clone(),
        };
        let detail = detail(exercise, (open.voice, onset), viable, &text);
        Some(Choice { pitch, text, detail })
    };
    let choices = found.found.iter().filter_map(choice).collect();
    Some(Choices { range, choices, extent: found.extent })
}

/// "a major third over C4"; the length of the note where nothing sounds against it. For a bar of
/// several notes, these come first.
fn detail(
    exercise: &Exercise,
    (voice, onset): (VoiceId, Duration),
    viable: &Viable,
    text: &str,
) -> String {
    let pitch = viable.pitch;
    let other = exercise.score.lines[voice.other()].sounding_at(onset).and_then(Event::pitch);
    let interval = match other {
        None => viable.duration.to_string(),
        Some(other) => {
            let interval = Interval::between(pitch.min(other), pitch.max(other));
            let side = if pitch < other { "under" } else { "over" };
            format!("{} {side} {other}", wording::an_interval(interval))
        }
    };
    if text == pitch.to_string() { interval } else { format!("{text}: {interval}") }
}
