//! What an open place may become, the best first, each with what it makes there.

use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::judge::Heard;
use bicinium_analysis::reading::Function;
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::{Extent, Realizer, Terms, Viable, Watch};
use bicinium_theory::{Duration, Interval};

use super::bar_text::bar_of;
use super::filled::filled;
use super::places::{Open, open_at};
use crate::features::hover::function;

/// What an open place may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choices {
    /// The place.
    pub open: Open,
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
    /// The notes that begin there.
    pub notes: Vec<Heard>,
}

impl Choices {
    /// The change of the text that writes one of them; `None` if there are not so many.
    pub fn change(&self, index: usize) -> Option<(Range<usize>, String)> {
        let text = &self.choices.get(index)?.text;
        let text = if self.open.sound == Sound::Blank { format!(" {text} ") } else { text.clone() };
        Some((self.open.range.clone(), text))
    }
}

/// What the hole or the blank bar at a byte of a sheet may become; `None` if nothing is open there.
pub fn choices(snapshot: &Snapshot, offset: usize, cancelled: &AtomicBool) -> Option<Choices> {
    let block = snapshot.block_at(offset)?;
    let exercise = block.judged.exercise.as_ref()?;
    let open = open_at(block, exercise, offset)?;
    let watch = Watch::new(super::PROMPT, cancelled);
    let realizer = Realizer::on(Terms::as_it_stands(exercise), exercise, &watch);
    let bar = exercise.score.setting.bar_length();
    let (end, range, found) = if open.sound == Sound::Blank {
        let end = open.onset + bar;
        (end, offset..offset, realizer.first_notes(open.voice, &(open.onset..end)))
    } else {
        let end = open.onset + Duration::from_ticks(1);
        (end, open.range.clone(), realizer.opening(open.voice, open.onset))
    };
    let choice = |viable: &Viable| {
        let pitch = viable.pitch.to_string();
        let notes: Vec<_> = viable.way.notes(open.voice).collect();
        let text = match open.sound {
            Sound::Blank => bar_of(&viable.way, open.voice, open.onset, bar)?,
            _ => pitch.clone(),
        };
        let detail = detail(exercise, open.voice, viable, &text);
        let is_inside = |note: &Heard| (open.onset..end).contains(&note.onset);
        let notes = notes.into_iter().filter(is_inside).collect();
        Some(Choice { pitch, text, detail, notes })
    };
    let choices = found.found.iter().filter_map(choice).collect();
    Some(Choices { open, range, choices, extent: found.extent })
}

/// "a major third over C4, the third of V"; for a bar of several notes, these come first.
fn detail(exercise: &Exercise, voice: VoiceId, viable: &Viable, text: &str) -> String {
    let filled = filled(exercise, &viable.way);
    let parts = [Some(interval(&filled, voice, viable)), function(&filled, voice, viable.onset)];
    let detail = parts.into_iter().flatten().collect::<Vec<_>>().join(", ");
    if text == viable.pitch.to_string() { detail } else { format!("{text}: {detail}") }
}

/// The interval with the other voice; the length of the note where nothing sounds against it.
fn interval(filled: &Exercise, voice: VoiceId, viable: &Viable) -> String {
    let Viable { onset, pitch, .. } = *viable;
    let other = filled.score.lines[voice.other()].sounding_at(onset).and_then(Event::pitch);
    let Some(other) = other else { return viable.duration.to_string() };
    let interval = Interval::between(pitch.min(other), pitch.max(other));
    let side = if pitch < other { "under" } else { "over" };
    format!("{} {side} {other}", wording::an_interval(interval))
}

/// The harmony and what the note does in it; nothing where only the intervals count and it is one that
/// stands for itself.
fn function(filled: &Exercise, voice: VoiceId, onset: Duration) -> Option<String> {
    let reading = &filled.verdict.reading;
    let known = reading.function_at(voice, onset)?.function;
    let said = function::say(filled, voice, onset)?;
    let stretch = reading.stretch_at(onset);
    match (known, stretch) {
        (Function::Consonance, None) => None,
        (Function::Member(_), _) | (_, None) => Some(said),
        (_, Some(stretch)) => Some(format!("in {}: {said}", stretch.numeral)),
    }
}
