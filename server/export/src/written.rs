//! A voice as it stands on paper: what sounds is cut at the barlines and into lengths that one note
//! can show. Knows nothing of any format.

use bicinium_analysis::score::{Event, Score, Sound, VoiceId};
use bicinium_theory::{Duration, NoteLength, NoteValue};

/// One note, rest or hole on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Sign {
    /// When it begins, from the start of the exercise.
    pub onset: Duration,
    /// How it is drawn.
    pub length: NoteLength,
    /// What is heard.
    pub sound: Sound,
    /// Whether it belongs to a note that has begun before, goes on after, or both.
    pub tie: Tie,
}

/// The ties of a sign.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tie {
    /// It holds a note that began before.
    pub stops: bool,
    /// It is held after.
    pub starts: bool,
}

impl Sign {
    /// When it ends.
    pub fn end(&self) -> Duration {
        self.onset + self.length.duration()
    }
}

/// The bars of a voice, as many as the exercise has; what the voice lacks at its end is blank.
pub(crate) fn bars(score: &Score, voice: VoiceId) -> Vec<Vec<Sign>> {
    let setting = &score.setting;
    let mut bars = vec![Vec::new(); usize::try_from(setting.bars).unwrap_or(0)];
    let line = &score.lines[voice];
    let end = line.end();
    let stretches = line.events.iter().map(|event: &Event| (event.onset, event.end(), event.sound));
    let lacking = (end < setting.length()).then_some((end, setting.length(), Sound::Blank));
    for (from, to, sound) in stretches.chain(lacking) {
        let mut at = from;
        while at < to {
            let bar = setting.bar_of(at);
            let until = to.min(setting.bar_start(bar + 1));
            let index = usize::try_from(bar).unwrap_or(usize::MAX);
            let Some(signs) = bars.get_mut(index) else { break };
            signs.extend(cut(at, until, sound).map(|sign| tied(sign, from, to)));
            at = until;
        }
    }
    bars
}

/// A bar of a length in which nothing is written.
pub(crate) fn blank_bar(length: Duration) -> Vec<Sign> {
    cut(Duration::ZERO, length, Sound::Blank).collect()
}

/// The signs that fill a stretch of one bar.
fn cut(from: Duration, to: Duration, sound: Sound) -> impl Iterator<Item = Sign> {
    let mut onset = from;
    std::iter::from_fn(move || {
        let length = longest(to - onset)?;
        let sign = Sign { onset, length, sound, tie: Tie::default() };
        onset = sign.end();
        Some(sign)
    })
}

/// The longest single note that fits, dotted only if that fills all.
fn longest(room: Duration) -> Option<NoteLength> {
    let fitting = |value: &NoteValue| value.duration() <= room;
    room.notes().map(|notes| notes.first).or_else(|| {
        let value = NoteValue::ALL.into_iter().find(fitting)?;
        Some(NoteLength { value, dots: 0 })
    })
}

/// The sign with the ties that make it part of the note from `from` to `to`.
fn tied(sign: Sign, from: Duration, to: Duration) -> Sign {
    match sign.sound {
        Sound::Note(_) => {
            Sign { tie: Tie { stops: sign.onset > from, starts: sign.end() < to }, ..sign }
        }
        _ => sign,
    }
}
