//! The score: an exercise as music, free of text. Notes have pitches, onsets and lengths; every
//! one of them remembers the place of the text it was written at, relative to its block. Knows no
//! rules, and nothing of how the text was parsed beyond `lower`.

mod licence;
pub mod lower;
pub mod settings;
pub mod shares;
mod voice;
mod writing;

use std::sync::Arc;

use bicinium_grammar::TextRange;
use bicinium_theory::{Duration, Interval, Key, Meter, Numeral, Pitch, Register};

pub use licence::{Licence, Span};
pub use voice::{Pair, VoiceId};
pub use writing::Writing;

/// An exercise as music.
#[derive(Clone, Debug, PartialEq)]
pub struct Score {
    /// What the exercise is set in.
    pub setting: Setting,
    /// The two voices.
    pub lines: Pair<Line>,
    /// What the writer put in the harmony row, in order of onset.
    pub harmonies: Vec<WrittenHarmony>,
    /// The licences taken, in the order of the text.
    pub licences: Vec<Licence>,
}

/// What an exercise is set in: everything that the rules may ask about it as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Tonic and mode.
    pub key: Key,
    /// The meter of all bars.
    pub meter: Meter,
    /// The species, 1 to 5; `None` for free two-part writing.
    pub species: Option<u8>,
    /// The voice that is given, if one is.
    pub cantus: Option<VoiceId>,
    /// The voice of a cantus that is written by itself, if the exercise is that.
    pub alone: Option<VoiceId>,
    /// The register of each voice.
    pub registers: Pair<Register>,
    /// The number of bars of the longer voice.
    pub bars: u32,
    /// How many bars each voice has.
    pub bars_of: Pair<u32>,
    /// The notes of the cantus as they are defined, if the cantus row names a definition.
    pub definition: Option<Definition>,
}

/// A cantus as it is defined, one note a bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Definition {
    /// Its name.
    pub name: String,
    /// Its notes.
    pub notes: Arc<[Pitch]>,
}

impl Definition {
    /// The transposition that most of the notes are in, each given with its bar (counted from 0);
    /// the first of several.
    pub fn transposition(&self, notes: impl Iterator<Item = (u32, Pitch)>) -> Option<Interval> {
        let interval = |(bar, pitch)| Some(Interval::between(self.note(bar)?, pitch));
        let all: Vec<_> = notes.filter_map(interval).collect();
        let votes = |candidate: &Interval| all.iter().filter(|known| *known == candidate).count();
        let most = all.iter().map(votes).max()?;
        all.iter().find(|candidate| votes(candidate) == most).copied()
    }

    /// The note of a bar, counted from 0, in a transposition.
    pub fn note_in(&self, bar: u32, by: Interval) -> Option<Pitch> {
        self.note(bar)?.transpose(by)
    }

    fn note(&self, bar: u32) -> Option<Pitch> {
        self.notes.get(usize::try_from(bar).ok()?).copied()
    }
}

impl Setting {
    /// The length of one bar.
    pub fn bar_length(&self) -> Duration {
        self.meter.bar_length()
    }

    /// The bar that an onset lies in, counted from 0.
    pub fn bar_of(&self, onset: Duration) -> u32 {
        onset.ticks() / self.bar_length().ticks().max(1)
    }

    /// Where bar `bar` (counted from 0) begins.
    pub fn bar_start(&self, bar: u32) -> Duration {
        self.bar_length() * bar
    }

    /// How far into its bar an onset lies.
    pub fn within_bar(&self, onset: Duration) -> Duration {
        onset - self.bar_start(self.bar_of(onset))
    }

    /// Where the last bar ends.
    pub fn length(&self) -> Duration {
        self.bar_start(self.bars)
    }

    /// What kind of writing it is.
    pub fn writing(&self) -> Writing {
        if self.alone.is_some() { Writing::Cantus } else { self.species.into() }
    }

    /// Whether the voice is there to be judged: all but a given cantus.
    pub fn is_written(&self, voice: VoiceId) -> bool {
        self.cantus != Some(voice) && self.alone.is_none_or(|alone| alone == voice)
    }

    /// The voices that are there to be judged, the upper one first.
    pub fn written(&self) -> impl Iterator<Item = VoiceId> + use<> {
        let is_written = VoiceId::BOTH.map(|voice| self.is_written(voice));
        VoiceId::BOTH.into_iter().zip(is_written).filter(|known| known.1).map(|known| known.0)
    }
}

/// One voice of the score.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What sounds, without gaps from the beginning on.
    pub events: Vec<Event>,
    /// The text of each bar, between its barlines.
    pub bars: Vec<TextRange>,
    /// The word that names the voice where it first appears.
    pub head: TextRange,
}

impl Line {
    /// The event that begins at an onset.
    pub fn event_at(&self, onset: Duration) -> Option<&Event> {
        let index = self.events.binary_search_by_key(&onset, |event| event.onset).ok()?;
        self.events.get(index)
    }

    /// The event that sounds at an instant, whenever it began.
    pub fn sounding_at(&self, instant: Duration) -> Option<&Event> {
        let after = self.events.partition_point(|event| event.onset <= instant);
        self.events[..after].last().filter(|event| instant < event.end())
    }

    /// Where the line ends.
    pub fn end(&self) -> Duration {
        self.events.last().map_or(Duration::ZERO, Event::end)
    }
}

/// Something that takes up time in a voice.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// When it begins, from the start of the exercise.
    pub onset: Duration,
    /// How long it lasts, ties included.
    pub duration: Duration,
    /// What is heard.
    pub sound: Sound,
    /// Where it is written; a held note is written where it begins.
    pub range: TextRange,
}

impl Event {
    /// When it ends.
    pub fn end(&self) -> Duration {
        self.onset + self.duration
    }

    /// Whether something is still to be written here.
    pub fn is_open(&self) -> bool {
        matches!(self.sound, Sound::Hole | Sound::Blank)
    }

    /// The pitch, if a note has been chosen.
    pub fn pitch(&self) -> Option<Pitch> {
        match self.sound {
            Sound::Note(pitch) => Some(pitch),
            _ => None,
        }
    }
}

/// What is heard during an event.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sound {
    /// A note.
    Note(Pitch),
    /// Silence.
    Rest,
    /// A note not yet chosen, or one that could not be read: its length is known.
    Hole,
    /// The end of a note that begins in the blank before it: it is held, whatever it will be.
    Held,
    /// A stretch not yet written: neither pitches nor rhythm are known.
    Blank,
}

/// A Roman numeral of the harmony row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WrittenHarmony {
    /// When it enters.
    pub onset: Duration,
    /// How long it is written to last.
    pub duration: Duration,
    /// The harmony and its inversion.
    pub numeral: Numeral,
    /// Where it is written.
    pub range: TextRange,
}
