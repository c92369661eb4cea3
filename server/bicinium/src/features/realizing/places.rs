//! Where something is open in the text: a hole, or a bar in which nothing is written. Knows places,
//! not what may stand there.

use std::ops::Range;

use bicinium_analysis::Exercise;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::TextSize;
use bicinium_theory::Duration;

/// A place in the text at which something is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Open {
    /// The voice.
    pub voice: VoiceId,
    /// When what is open begins, from the start of the exercise.
    pub onset: Duration,
    /// What stands there, in bytes of the sheet.
    pub range: Range<usize>,
    /// A hole, or a blank bar.
    pub sound: Sound,
}

/// What is open at a byte of a sheet.
pub fn open_at(block: &Placed, exercise: &Exercise, offset: usize) -> Option<Open> {
    let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
    let is_here = |event: &&Event| event.range.contains_inclusive(within);
    VoiceId::BOTH.into_iter().find_map(|voice| {
        let line = &exercise.score.lines[voice];
        let mut events = line.events.iter().filter(|event| event.range != line.head);
        let event = events.find(|event| event.is_open() && is_here(event))?;
        let range = block.in_sheet(event.range);
        Some(Open { voice, onset: event.onset, range, sound: event.sound })
    })
}
