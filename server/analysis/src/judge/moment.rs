//! Time cut into moments: the instants at which a bar or a note begins. A moment says what each
//! voice does there; it remembers nothing.

use bicinium_theory::{Duration, Pitch};

use crate::score::{Event, Pair, Score, Sound, VoiceId};

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
    let bars = score.setting.bars;
    let mut bar_starts = (0..bars).map(|bar| score.setting.bar_start(bar)).peekable();
    let mut parts = Pair::from_fn(|voice| Part { events: &score.lines[voice].events, begun: 0 });
    let mut moments = Vec::with_capacity(bars as usize);
    loop {
        let begins = [bar_starts.peek().copied(), parts.upper.next(), parts.lower.next()];
        let Some(onset) = begins.into_iter().flatten().min() else { return moments };
        bar_starts.next_if_eq(&onset);
        let strokes = Pair { upper: parts.upper.goes_to(onset), lower: parts.lower.goes_to(onset) };
        moments.push(Moment { onset, strokes });
    }
}

/// A voice on its way through time.
struct Part<'a> {
    events: &'a [Event],
    /// How many of its events have begun.
    begun: usize,
}

impl Part<'_> {
    /// When it begins something next.
    fn next(&self) -> Option<Duration> {
        self.events.get(self.begun).map(|event| event.onset)
    }

    /// What it does at an instant, at or before the one at which it begins something next.
    fn goes_to(&mut self, onset: Duration) -> Stroke {
        self.begun += usize::from(self.next() == Some(onset));
        let latest = self.events[..self.begun].last().filter(|event| onset < event.end());
        let Some(event) = latest else { return Stroke::Ended };
        match event.sound {
            Sound::Rest => Stroke::Rests,
            Sound::Hole | Sound::Held | Sound::Blank => Stroke::Unknown,
            Sound::Note(_) if event.onset < onset => Stroke::Holds,
            Sound::Note(pitch) => Stroke::Strikes(Heard { pitch, onset, duration: event.duration }),
        }
    }
}
