//! How a line comes to a note and how it leaves it, a note struck again counted as one. Knows no
//! rules and no schools.

use bicinium_theory::{Direction, Interval};

use crate::judge::{Heard, LineMemory, Step};
use crate::score::VoiceId;

/// A note between its neighbours.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn {
    /// The note before.
    pub(super) before: Heard,
    /// The note, where it was first struck.
    pub(super) note: Heard,
    /// The note after.
    pub(super) after: Heard,
}

impl Turn {
    /// The note that a voice leaves at the moment, if it had come to it from another.
    pub(super) fn latest(step: &Step<'_>, voice: VoiceId) -> Option<Self> {
        let (_, after, exit) = step.entered(voice)?;
        let (before, note) = arrival(&step.before.lines[voice])?;
        (!exit.is_unison()).then_some(Self { before, note, after })
    }

    /// The last three notes of a voice, if the latest begins at the moment; a note struck again counts
    /// as another one.
    pub(super) fn of_notes(step: &Step<'_>, voice: VoiceId) -> Option<Self> {
        let (note, after, _) = step.entered(voice)?;
        let before = step.before.lines[voice].back(1)?;
        Some(Self { before, note, after })
    }

    /// The interval by which the line comes to the note.
    pub(super) fn entry(self) -> Interval {
        Interval::between(self.before.pitch, self.note.pitch)
    }

    /// Whether the line turns back from the note by step.
    pub(super) fn is_back_by_step(self) -> bool {
        self.is_back() && self.exit().is_step()
    }

    /// Whether the line turns back from the note, and by less than it came.
    pub(super) fn is_back_by_less(self) -> bool {
        self.is_back() && self.exit().number() < self.entry().number()
    }

    fn exit(self) -> Interval {
        Interval::between(self.note.pitch, self.after.pitch)
    }

    fn is_back(self) -> bool {
        matches!(
            (self.entry().direction(), self.exit().direction()),
            (Direction::Up, Direction::Down) | (Direction::Down, Direction::Up)
        )
    }
}

/// The latest note of a line where it was first struck, after the note before it.
pub(super) fn arrival(line: &LineMemory) -> Option<(Heard, Heard)> {
    let again = usize::try_from(line.equal_notes).ok()?.checked_sub(1)?;
    Some((line.back(again + 1)?, line.back(again)?))
}
