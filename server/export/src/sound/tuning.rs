//! How high every note of a voice sounds. In just intonation the lower voice keeps equal temperament,
//! and the upper one is pure above what sounds below; a note that is held while the lower voice moves
//! to another consonance slides to it. Common practice of choirs; the ratios are those of five-limit
//! just intonation. Knows nothing of timbre.

use bicinium_analysis::score::{Event, Line, Score, VoiceId};
use bicinium_theory::{Duration, Interval, Pitch};

use super::clock::Clock;
use super::tone::Tone;
use super::{Performance, Tuning};

/// The ratio of every interval within an octave, by its diatonic steps and semitones.
const PURE: [(i16, i16, f64, f64); 14] = [
    (0, 0, 1.0, 1.0),
    (1, 1, 16.0, 15.0),
    (1, 2, 9.0, 8.0),
    (2, 3, 6.0, 5.0),
    (2, 4, 5.0, 4.0),
    (3, 5, 4.0, 3.0),
    (3, 6, 45.0, 32.0),
    (4, 6, 64.0, 45.0),
    (4, 7, 3.0, 2.0),
    (5, 8, 8.0, 5.0),
    (5, 9, 5.0, 3.0),
    (6, 10, 9.0, 5.0),
    (6, 11, 15.0, 8.0),
    (7, 12, 2.0, 1.0),
];

/// The notes of a voice as they sound.
pub(super) fn tones(
    score: &Score,
    voice: VoiceId,
    performance: &Performance,
    clock: &Clock,
) -> Vec<Tone> {
    let a4 = performance.a4_hz;
    let lower = &score.lines.lower;
    let is_pure = performance.tuning == Tuning::Just && voice == VoiceId::Upper;
    let tone = |event: &Event| {
        let pitch = event.pitch()?;
        let over = |below: Option<Pitch>| match below.filter(|_| is_pure) {
            Some(below) => pure(below, pitch, a4),
            None => pitch.frequency(a4),
        };
        let (start, end) = (clock.at(event.onset), clock.at(event.end()));
        let first = over(below(lower, event.onset));
        let mut tone = Tone::steady(start, end - start, first);
        let struck = struck(lower, event.onset, event.end()).filter(|_| is_pure);
        for (onset, below) in struck.filter(|known| is_consonance(known.1, pitch)) {
            tone.slide(clock.at(onset), over(Some(below)));
        }
        Some(tone)
    };
    score.lines[voice].events.iter().filter_map(tone).collect()
}

/// What sounds in a line at an instant.
fn below(line: &Line, instant: Duration) -> Option<Pitch> {
    line.sounding_at(instant).and_then(Event::pitch)
}

/// The notes that begin in a line after one instant and before another.
fn struck(
    line: &Line,
    after: Duration,
    before: Duration,
) -> impl Iterator<Item = (Duration, Pitch)> {
    let first = line.events.partition_point(|event| event.onset <= after);
    let later = line.events[first..].iter().take_while(move |event| event.onset < before);
    later.filter_map(|event| Some((event.onset, event.pitch()?)))
}

fn is_consonance(below: Pitch, pitch: Pitch) -> bool {
    Interval::between(below, pitch).is_consonant()
}

/// The frequency of a pitch, pure over or under another that has its place in equal temperament; its
/// own place where the interval has no ratio.
fn pure(below: Pitch, pitch: Pitch, a4: f64) -> f64 {
    let interval = Interval::between(below, pitch);
    let distance = interval.abs();
    let (octaves, steps) = (distance.steps().div_euclid(7), distance.steps().rem_euclid(7));
    let semitones = distance.semitones() - 12 * octaves;
    let known = PURE.iter().find(|(own, wide, ..)| (*own, *wide) == (steps, semitones));
    let Some((_, _, over, under)) = known else { return pitch.frequency(a4) };
    let ratio = over / under * f64::from(octaves).exp2();
    let is_above = interval.steps() >= 0;
    below.frequency(a4) * if is_above { ratio } else { ratio.recip() }
}
