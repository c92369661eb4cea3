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
    /// Notes of any lengths that florid counterpoint has; the last is held over this barline to the end
    /// of the stretch, if there is one.
    Florid(Option<Duration>),
    /// What is not written and has no usual rhythm.
    Unknown,
}

/// A stretch of a voice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Span {
    pub(crate) onset: Duration,
    pub(crate) end: Duration,
    pub(crate) stuff: Stuff,
    /// How long its note may last instead, over the barline into blank bars behind it.
    pub(crate) held: Vec<Duration>,
}

/// What a voice may do at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// Only this.
    Fixed(Stroke),
    /// Begin this note, or hold it for one of these lengths.
    Lasting(Heard, Vec<Duration>),
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
                Span { stuff: if is_left { Stuff::Unknown } else { span.stuff }, ..span.clone() }
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
            Span { stuff, ..span.clone() }
        };
        let spans = Pair::from_fn(|voice| self.spans[voice].iter().map(cut).collect());
        Self { spans, setting: self.setting.clone() }
    }

    /// Everything that is open, in order of time, the upper voice first.
    pub(crate) fn open(&self) -> Vec<(VoiceId, &Span)> {
        let mut open: Vec<_> = VoiceId::BOTH
            .into_iter()
            .flat_map(|voice| self.spans[voice].iter().map(move |span| (voice, span)))
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
                Part::Lasting(..) | Part::FreeOrRest(_) => None,
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
        let is_held = line.sounding().is_some_and(|note| note.end() > now);
        match span.stuff {
            Stuff::Unknown => Part::Fixed(Stroke::Unknown),
            Stuff::Written(Stroke::Strikes(note)) if span.onset == now && !span.held.is_empty() => {
                Part::Lasting(note, span.held.clone())
            }
            Stuff::Written(stroke) if span.onset == now => Part::Fixed(stroke),
            Stuff::Written(Stroke::Rests) => Part::Fixed(Stroke::Rests),
            Stuff::Hole if span.onset == now && !is_held => Part::Free(span.lengths()),
            Stuff::Written(_) | Stuff::Hole => Part::Fixed(Stroke::Holds),
            Stuff::Florid(_) if is_held => Part::Fixed(Stroke::Holds),
            Stuff::Florid(held) => self.florid(now, span, held, line),
        }
    }

    fn florid(
        &self,
        now: Duration,
        span: &Span,
        held: Option<Duration>,
        line: &LineMemory,
    ) -> Part {
        let rest = rhythm::florid_rest(&self.setting).unwrap_or_default();
        if now > Duration::ZERO && now < rest && line.last().is_none() {
            return Part::Fixed(Stroke::Rests);
        }
        let lengths = match held {
            None => rhythm::florid_lengths(&self.setting, now, span.end),
            Some(barline) => rhythm::florid_lengths_into(&self.setting, now, barline..span.end),
        };
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
            (Stuff::Florid(_), Some(note)) => Some(note.end()),
            (Stuff::Florid(_), None) => rhythm::florid_rest(&self.setting).filter(|end| *end > now),
            _ => Some(span.end),
        }
    }

    fn span_at(&self, voice: VoiceId, now: Duration) -> Option<&Span> {
        let spans = &self.spans[voice];
        let after = spans.partition_point(|span| span.onset <= now);
        spans[..after].last().filter(|span| now < span.end)
    }
}

impl Span {
    /// A stretch whose note ends with it.
    pub(crate) fn new(onset: Duration, end: Duration, stuff: Stuff) -> Self {
        Self { onset, end, stuff, held: Vec::new() }
    }

    /// How long its note may last.
    fn lengths(&self) -> Vec<Duration> {
        [self.end - self.onset].into_iter().chain(self.held.iter().copied()).collect()
    }
}

/// Whether a stretch is to be filled.
fn is_open(span: &Span) -> bool {
    matches!(span.stuff, Stuff::Hole | Stuff::Florid(_))
}

/// The stretches of a voice: what is written as it is, blank bars with the rhythm they usually have. The
/// note before blank bars may be held into them; what is held after them lengthens their last note.
fn spans(score: &Score, voice: VoiceId) -> Vec<Span> {
    let is_one = |a: &Event, b: &Event| {
        a.sound == Sound::Blank && matches!(b.sound, Sound::Blank | Sound::Held)
    };
    let mut spans: Vec<Span> = Vec::new();
    for run in score.lines[voice].events.chunk_by(is_one) {
        let is_blank = |event: &&Event| event.sound == Sound::Blank;
        let (Some(first), Some(last)) = (run.first(), run.iter().rfind(is_blank)) else {
            spans.extend(run.iter().map(written));
            continue;
        };
        let (onset, end) = (first.onset, last.end());
        if let Some(before) = spans.last_mut().filter(|span| !matches!(span.stuff, Stuff::Unknown))
        {
            let longer = rhythm::held_into(&score.setting, voice, before.onset, onset..end);
            before.held = longer;
        }
        let until = run.last().map(Event::end).filter(|until| *until > end);
        spans.extend(rhythm::usual(&score.setting, voice, onset..end, until));
    }
    spans
}

fn written(event: &Event) -> Span {
    let (onset, duration) = (event.onset, event.duration);
    let stuff = match event.sound {
        Sound::Note(pitch) => Stuff::Written(Stroke::Strikes(Heard { pitch, onset, duration })),
        Sound::Rest => Stuff::Written(Stroke::Rests),
        Sound::Hole => Stuff::Hole,
        Sound::Held | Sound::Blank => Stuff::Unknown,
    };
    Span::new(onset, event.end(), stuff)
}
