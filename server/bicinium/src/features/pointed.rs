//! What of the music a reader points at in the text: a note, or the `-` that holds one. It must not know
//! what is said or shown of it.

use bicinium_analysis::Exercise;
use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::Judged;
use bicinium_grammar::{TextRange, TextSize};

/// Something that takes up time in a voice, and where it is pointed at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pointed<'e> {
    /// The voice.
    pub(crate) voice: VoiceId,
    /// The note, rest or open place.
    pub(crate) event: &'e Event,
    /// The sign pointed at, counted from the start of the block.
    pub(crate) range: TextRange,
}

/// What stands at a place, counted from the start of the block.
pub(crate) fn event_at<'e>(
    block: &Judged,
    exercise: &'e Exercise,
    offset: TextSize,
) -> Option<Pointed<'e>> {
    struck(exercise, offset).or_else(|| held(block, exercise, offset))
}

/// Whether a range reaches to a place.
pub(super) fn is_on(range: TextRange, offset: TextSize) -> bool {
    range.contains_inclusive(offset) && !range.is_empty()
}

fn struck(exercise: &Exercise, offset: TextSize) -> Option<Pointed<'_>> {
    VoiceId::BOTH.into_iter().find_map(|voice| {
        let mut events = exercise.score.lines[voice].events.iter();
        let event = events.find(|event| is_on(event.range, offset))?;
        Some(Pointed { voice, event, range: event.range })
    })
}

/// At a `-` the note that it holds.
fn held<'e>(block: &Judged, exercise: &'e Exercise, offset: TextSize) -> Option<Pointed<'e>> {
    let (range, row) = block.tree.hold_at(offset)?;
    let mut voices = VoiceId::BOTH.into_iter().map(|id| (id, &exercise.score.lines[id].events));
    let is_in_row = |event: &Event| row.contains_range(event.range);
    let (voice, events) = voices.find(|(_, events)| events.iter().any(is_in_row))?;
    let event = events.iter().rfind(|event| event.range.end() <= range.start())?;
    Some(Pointed { voice, event, range })
}
