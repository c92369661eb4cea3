//! The two voices and anything that exists once for each of them. Knows nothing about notes.

use std::ops::{Index, IndexMut};

/// One of the two voices, named by its place on the page. Where voices cross, the upper voice of
/// the page sounds below the lower one for a while; its name does not change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum VoiceId {
    /// The first voice row of an exercise.
    Upper,
    /// The second voice row of an exercise.
    Lower,
}

impl VoiceId {
    /// Both voices, the upper one first.
    pub const BOTH: [Self; 2] = [Self::Upper, Self::Lower];

    /// The other voice.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Upper => Self::Lower,
            Self::Lower => Self::Upper,
        }
    }

    /// `upper` or `lower`, as written in reports.
    pub fn name(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }
}

/// A value for each voice.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Pair<T> {
    /// The value of the upper voice.
    pub upper: T,
    /// The value of the lower voice.
    pub lower: T,
}

impl<T> Pair<T> {
    /// Makes a pair by asking for the value of each voice, the upper one first.
    pub fn from_fn(mut value: impl FnMut(VoiceId) -> T) -> Self {
        Self { upper: value(VoiceId::Upper), lower: value(VoiceId::Lower) }
    }
}

impl<T> Index<VoiceId> for Pair<T> {
    type Output = T;

    fn index(&self, voice: VoiceId) -> &T {
        match voice {
            VoiceId::Upper => &self.upper,
            VoiceId::Lower => &self.lower,
        }
    }
}

impl<T> IndexMut<VoiceId> for Pair<T> {
    fn index_mut(&mut self, voice: VoiceId) -> &mut T {
        match voice {
            VoiceId::Upper => &mut self.upper,
            VoiceId::Lower => &mut self.lower,
        }
    }
}
