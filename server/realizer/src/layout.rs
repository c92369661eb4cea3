//! What stands where in an exercise that is still to be written: notes, holes of a known length, and
//! bars whose rhythm is that of the species. Knows lengths and places, no pitches to choose from.

use bicinium_analysis::judge::{Heard, LineMemory, Memory, Moment, Stroke};
use bicinium_analysis::score::{Event, Pair, Score, Setting, Sound, VoiceId};
use bicinium_theory::{Duration, Pitch};

use crate::rhythm;

/// What a stretch of a voice is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stuff {
    /// What is written: a note, or a rest where there is no pitch.
    Written(Stroke),
    /// A note of this length, to be chosen.
    Hole,
    /// Notes of any lengths that florid counterpoint has.
    Florid,
    /// What is not written and has no usual rhythm.
    Unknown,
}

/// A stretch of a voice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Span {
    pub(crate) onset: Duration,
    pub(crate) end: Duration,
    pub(crate) stuff: Stuff,
}

/// What a voice may do at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// Only this.
    Fixed(Stroke),
    /// Begin a note of one of these lengths.
    Free(Vec<Duration>),
    /// Begin a note of one of these lengths, or rest until the next place.
    FreeOrRest(Vec<Duration>),
}

/// An exercise, laid out to be filled.
#[derive(Clone, Debug)]
pub(crate) struct Layout {
    spans: Pair<Vec<Span>>,
    setting: Setting,
}

impl Layout {
    /// Lays out an exercise: everything that is open is to be filled.
    pub(crate) fn new(score: &Score) -> Self {
        let spans = Pair::from_fn(|voice| spans(score, voice));
        Self { spans, setting: score.setting.clone() }
    }

    /// The same with everything that is open and not to be filled left unwritten.
    pub(crate) fn filling(self, fill: impl Fn(VoiceId, Duration) -> bool) -> Self {
        let spans = Pair::from_fn(|voice| {
            let cut = |span: &Span| {
                let is_left = is_open(span) && !fill(voice, span.onset);
                Span { stuff: if is_left { Stuff::Unknown } else { span.stuff }, ..*span }
            };
            self.spans[voice].iter().map(cut).collect()
        });
        Self { spans, ..self }
    }

    /// The same with everything outside a stretch of time left unwritten.
    pub(crate) fn only(&self, from: Duration, to: Duration) -> Self {
        let cut = |span: &Span| {
            let is_inside = span.end > from && span.onset < to;
            let stuff = if is_inside { span.stuff } else { Stuff::Unknown };
            Span { stuff, ..*span }
        };
        let spans = Pair::from_fn(|voice| self.spans[voice].iter().map(cut).collect());
        Self { spans, setting: self.setting.clone() }
    }

    /// Everything that is open, in order of time, the upper voice first.
    pub(crate) fn open(&self) -> Vec<(VoiceId, Span)> {
        let mut open: Vec<_> = VoiceId::BOTH
            .into_iter()
            .flat_map(|voice| self.spans[voice].iter().map(move |span| (voice, *span)))
            .filter(|(_, span)| is_open(span))
            .collect();
        open.sort_by_key(|(voice, span)| (span.onset, *voice == VoiceId::Lower));
        open
    }

    /// The moments with some pitch in every hole; nothing if a rhythm is still to be chosen.
    pub(crate) fn in_rhythm(&self, pitch: Pitch) -> Option<Vec<Moment>> {
        let (mut memory, mut moments) = (Memory::default(), Vec::new());
        let mut next = (self.setting.bars > 0).then_some(Duration::ZERO);
        while let Some(onset) = next {
            let stroke = |voice: VoiceId| match self.part(voice, onset, &memory.lines[voice]) {
                Part::Fixed(stroke) => Some(stroke),
                Part::Free(lengths) => match lengths.as_slice() {
                    [duration] => Some(Heard { pitch, onset, duration: *duration }),
                    _ => None,
                }
                .map(Stroke::Strikes),
                Part::FreeOrRest(_) => None,
            };
            let (upper, lower) = (stroke(VoiceId::Upper)?, stroke(VoiceId::Lower)?);
            let moment = Moment { onset, strokes: Pair { upper, lower } };
            memory = memory.after(&moment);
            next = self.next(onset, &memory);
            moments.push(moment);
        }
        Some(moments)
    }

    /// Whether a voice has anything open.
    pub(crate) fn is_open(&self, voice: VoiceId) -> bool {
        self.open().iter().any(|(open, _)| *open == voice)
    }

    /// Whether what begins in a voice at an instant is to be chosen.
    pub(crate) fn is_open_at(&self, voice: VoiceId, onset: Duration) -> bool {
        self.span_at(voice, onset).is_some_and(is_open)
    }

    /// What a voice may do at a moment, after what it has done before.
    pub(crate) fn part(&self, voice: VoiceId, now: Duration, line: &LineMemory) -> Part {
        let Some(span) = self.span_at(voice, now) else { return Part::Fixed(Stroke::Ended) };
        match span.stuff {
            Stuff::Unknown => Part::Fixed(Stroke::Unknown),
            Stuff::Written(stroke) if span.onset == now => Part::Fixed(stroke),
            Stuff::Written(Stroke::Rests) => Part::Fixed(Stroke::Rests),
            Stuff::Hole if span.onset == now => Part::Free(vec![span.end - span.onset]),
            Stuff::Written(_) | Stuff::Hole => Part::Fixed(Stroke::Holds),
            Stuff::Florid => self.florid(now, span, line),
        }
    }

    fn florid(&self, now: Duration, span: &Span, line: &LineMemory) -> Part {
        if line.sounding().is_some_and(|note| note.end() > now) {
            return Part::Fixed(Stroke::Holds);
        }
        let rest = rhythm::florid_rest(&self.setting).unwrap_or_default();
        if now > Duration::ZERO && now < rest && line.last().is_none() {
            return Part::Fixed(Stroke::Rests);
        }
        let lengths = rhythm::florid_lengths(&self.setting, now, span.end);
        if now == Duration::ZERO { Part::FreeOrRest(lengths) } else { Part::Free(lengths) }
    }

    /// When the moment after one comes, given what is then remembered; nothing after the last.
    pub(crate) fn next(&self, now: Duration, after: &Memory) -> Option<Duration> {
        let bar = self.setting.bar_start(self.setting.bar_of(now) + 1);
        let own = VoiceId::BOTH.into_iter().map(|voice| self.next_of(voice, now, after));
        let next = own.flatten().chain([bar]).min()?;
        (next < self.setting.length()).then_some(next)
    }

    fn next_of(&self, voice: VoiceId, now: Duration, after: &Memory) -> Option<Duration> {
        let span = self.span_at(voice, now)?;
        match (span.stuff, after.lines[voice].sounding()) {
            (Stuff::Florid, Some(note)) => Some(note.end()),
            (Stuff::Florid, None) => rhythm::florid_rest(&self.setting).filter(|end| *end > now),
            _ => Some(span.end),
        }
    }

    fn span_at(&self, voice: VoiceId, now: Duration) -> Option<&Span> {
        let spans = &self.spans[voice];
        let after = spans.partition_point(|span| span.onset <= now);
        spans[..after].last().filter(|span| now < span.end)
    }
}

/// Whether a stretch is to be filled.
fn is_open(span: &Span) -> bool {
    matches!(span.stuff, Stuff::Hole | Stuff::Florid)
}

/// The stretches of a voice: what is written as it is, blank bars with the rhythm they usually have.
fn spans(score: &Score, voice: VoiceId) -> Vec<Span> {
    let events = &score.lines[voice].events;
    let is_blank = |event: &Event| event.sound == Sound::Blank;
    let runs = events.chunk_by(|a, b| is_blank(a) && is_blank(b));
    let spans = runs.flat_map(|run| match run {
        [first, .., last] => rhythm::usual(&score.setting, voice, first.onset, last.end()),
        [event] if is_blank(event) => {
            rhythm::usual(&score.setting, voice, event.onset, event.end())
        }
        [event] => vec![written(event)],
        [] => Vec::new(),
    });
    spans.collect()
}

fn written(event: &Event) -> Span {
    let (onset, duration) = (event.onset, event.duration);
    let stuff = match event.sound {
        Sound::Note(pitch) => Stuff::Written(Stroke::Strikes(Heard { pitch, onset, duration })),
        Sound::Rest => Stuff::Written(Stroke::Rests),
        Sound::Hole => Stuff::Hole,
        Sound::Blank => Stuff::Unknown,
    };
    Span { onset, end: event.end(), stuff }
}
