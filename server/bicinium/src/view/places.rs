//! Places of the music and where they are written. Knows no page.

use std::ops::Range;

use bicinium_analysis::Snapshot;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::{Exercise, Placed};
use bicinium_grammar::TextSize;
use serde::Serialize;

use crate::features::pointed::event_at;

/// Where something begins in a voice of an exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Spot {
    /// The number of the exercise, counted from 1.
    pub number: usize,
    /// 0 for the upper voice, 1 for the lower.
    pub voice: usize,
    /// When, in ticks from the beginning of the exercise.
    pub at: u32,
}

impl Spot {
    /// The exercise with its block.
    pub(super) fn exercise(self, sheet: &Snapshot) -> Option<(&Placed, &Exercise)> {
        let mut exercises = sheet.exercises();
        exercises.find(|known| known.0 == self.number).map(|(_, block, exercise)| (block, exercise))
    }

    /// What stands there, in bytes of the sheet: what begins there, or what is held.
    pub(super) fn in_sheet(self, sheet: &Snapshot) -> Option<Range<usize>> {
        let (block, exercise) = self.exercise(sheet)?;
        let voice = *VoiceId::BOTH.get(self.voice)?;
        let mut events = exercise.score.lines[voice].events.iter();
        let event = events.rfind(|event| event.onset.ticks() <= self.at)?;
        Some(block.in_sheet(event.range))
    }

    /// What the text has at a byte of the sheet; `None` where no sign of the score stands for it.
    pub(super) fn pointed_at(sheet: &Snapshot, offset: usize) -> Option<Self> {
        let block = sheet.block_at(offset)?;
        let (number, exercise) = (block.number?, block.judged.exercise.as_ref()?);
        let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
        let pointed = event_at(&block.judged, exercise, within)?;
        let spot = Self { number, voice: index(pointed.voice), at: pointed.event.onset.ticks() };
        (pointed.event.sound != Sound::Blank).then_some(spot)
    }
}

/// The places of an exercise at which something is to be chosen, in order of time.
pub(super) fn open(exercise: &Exercise) -> Vec<(VoiceId, &Event)> {
    let mut open: Vec<_> = VoiceId::BOTH
        .into_iter()
        .flat_map(|voice| {
            let line = &exercise.score.lines[voice];
            let events = line.events.iter().filter(|event| event.range != line.head);
            events.filter(|event| event.is_open()).map(move |event| (voice, event))
        })
        .collect();
    open.sort_by_key(|(_, event)| event.onset);
    open
}

/// The number of a voice.
pub(super) fn index(voice: VoiceId) -> usize {
    match voice {
        VoiceId::Upper => 0,
        VoiceId::Lower => 1,
    }
}
