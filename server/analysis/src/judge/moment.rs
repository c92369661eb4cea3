//! Time cut into moments: the instants at which a bar or a note begins. A moment says what each
//! voice does there; it remembers nothing.

use bicinium_theory::{Duration, Pitch};

use crate::score::{Event, Line, Pair, Score, Sound, VoiceId};

/// An instant at which a bar begins or at least one voice begins something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Moment {
    /// The instant, from the start of the exercise.
    pub onset: Duration,
    /// What each voice does.
    pub strokes: Pair<Stroke>,
}

impl Moment {
    /// The note that a voice begins.
    pub fn struck(&self, voice: VoiceId) -> Option<Heard> {
        match self.strokes[voice] {
            Stroke::Strikes(note) => Some(note),
            _ => None,
        }
    }
}

/// What one voice does at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stroke {
    /// A note begins.
    Strikes(Heard),
    /// A note begun earlier goes on.
    Holds,
    /// The voice is silent.
    Rests,
    /// What the voice does here is not written yet.
    Unknown,
    /// The voice has come to its end.
    Ended,
}

impl Stroke {
    /// The note that sounds from here on, given the one that sounded before.
    pub(super) fn sounding(self, before: Option<Heard>) -> Option<Heard> {
        match self {
            Self::Strikes(note) => Some(note),
            Self::Holds => before,
            Self::Rests | Self::Unknown | Self::Ended => None,
        }
    }
}

/// A note as it is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Heard {
    /// Its pitch.
    pub pitch: Pitch,
    /// When it began.
    pub onset: Duration,
    /// How long it lasts, ties included.
    pub duration: Duration,
}

impl Heard {
    /// When it ends.
    pub fn end(self) -> Duration {
        self.onset + self.duration
    }
}

/// The moments of a score in order of time.
pub fn moments(score: &Score) -> Vec<Moment> {
    let bars = (0..score.setting.bars).map(|bar| score.setting.bar_start(bar));
    let events = VoiceId::BOTH.iter().flat_map(|voice| &score.lines[*voice].events);
    let mut onsets: Vec<_> = bars.chain(events.map(|event| event.onset)).collect();
    onsets.sort_unstable();
    onsets.dedup();
    onsets.into_iter().map(|onset| moment(score, onset)).collect()
}

fn moment(score: &Score, onset: Duration) -> Moment {
    Moment { onset, strokes: Pair::from_fn(|voice| stroke(&score.lines[voice], onset)) }
}

fn stroke(line: &Line, onset: Duration) -> Stroke {
    match line.sounding_at(onset) {
        None => Stroke::Ended,
        Some(Event { sound: Sound::Rest, .. }) => Stroke::Rests,
        Some(Event { sound: Sound::Hole | Sound::Held | Sound::Blank, .. }) => Stroke::Unknown,
        Some(event) if event.onset < onset => Stroke::Holds,
        Some(Event { sound: Sound::Note(pitch), duration, .. }) => {
            Stroke::Strikes(Heard { pitch: *pitch, onset, duration: *duration })
        }
    }
}
