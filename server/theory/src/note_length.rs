//! How a length of time is shown: as one note or as a tie of two. Knows note values and dots, no
//! notation program's names for them.

use std::fmt;

use crate::Duration;

/// The value of a plain note.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NoteValue {
    /// Two whole notes.
    Breve,
    /// The whole note.
    Whole,
    /// The half note.
    Half,
    /// The quarter note.
    Quarter,
    /// The eighth note.
    Eighth,
    /// The sixteenth note.
    Sixteenth,
    /// The thirty-second note.
    ThirtySecond,
    /// The sixty-fourth note.
    SixtyFourth,
}

/// One note: its value and its augmentation dots.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NoteLength {
    /// The value without dots.
    pub value: NoteValue,
    /// The number of dots, 0 or 1.
    pub dots: u8,
}

/// What shows a length: one note, or two that are tied.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NoteLengths {
    /// The first note; of two the longer one.
    pub first: NoteLength,
    /// The note tied to it, if it takes two.
    pub tied: Option<NoteLength>,
}

impl Duration {
    /// How it is shown; none if it takes more than two notes, or is zero.
    pub fn notes(self) -> Option<NoteLengths> {
        one_note(self).or_else(|| two_notes(self))
    }

    /// Whether one note or a tie of two can show it.
    pub fn is_showable(self) -> bool {
        self.notes().is_some()
    }
}

impl NoteValue {
    /// All values from the longest to the shortest.
    pub const ALL: [Self; 8] = [
        Self::Breve,
        Self::Whole,
        Self::Half,
        Self::Quarter,
        Self::Eighth,
        Self::Sixteenth,
        Self::ThirtySecond,
        Self::SixtyFourth,
    ];

    /// Its length.
    pub fn duration(self) -> Duration {
        Duration::from_ticks(128 >> (self as u32))
    }

    /// The name: "half note"; the longest is plainly a "breve".
    pub fn name(self) -> &'static str {
        match self {
            Self::Breve => "breve",
            Self::Whole => "whole note",
            Self::Half => "half note",
            Self::Quarter => "quarter note",
            Self::Eighth => "eighth note",
            Self::Sixteenth => "sixteenth note",
            Self::ThirtySecond => "thirty-second note",
            Self::SixtyFourth => "sixty-fourth note",
        }
    }
}

impl NoteLength {
    /// Its length with the dot.
    pub fn duration(self) -> Duration {
        let plain = self.value.duration();
        let half = Duration::from_ticks(plain.ticks() / 2);
        if self.dots == 0 { plain } else { plain + half }
    }

    fn all() -> impl Iterator<Item = Self> {
        let values = NoteValue::ALL.into_iter();
        // Half of a sixty-fourth is less than a tick, so it takes no dot.
        values.flat_map(|value| {
            let dots = if value == NoteValue::SixtyFourth { 0..=0 } else { 0..=1 };
            dots.rev().map(move |dots| Self { value, dots })
        })
    }
}

fn one_note(length: Duration) -> Option<NoteLengths> {
    NoteLength::all()
        .find(|note| note.duration() == length)
        .map(|first| NoteLengths { first, tied: None })
}

fn two_notes(length: Duration) -> Option<NoteLengths> {
    NoteLength::all().filter(|first| first.duration() < length).find_map(|first| {
        let tied = one_note(length - first.duration())?.first;
        Some(NoteLengths { first, tied: Some(tied) })
    })
}

impl fmt::Display for NoteLength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let dotted = if self.dots == 0 { "" } else { "dotted " };
        write!(f, "{dotted}{}", self.value.name())
    }
}

impl fmt::Display for NoteLengths {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(tied) = self.tied else {
            return self.first.fmt(f);
        };
        let article = match (tied.dots, tied.value) {
            (0, NoteValue::Eighth) => "an",
            _ => "a",
        };
        write!(f, "{} tied to {article} {tied}", self.first)
    }
}

/// The notes that show it; where none do, the fraction of a whole note.
impl fmt::Display for Duration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(notes) = self.notes() {
            return notes.fmt(f);
        }
        let (numerator, denominator) = self.as_fraction();
        write!(f, "{numerator}/{denominator} of a whole note")
    }
}
