//! When something sounds, in samples from the beginning of the file. Knows no pitches.

use bicinium_theory::{Duration, Meter};

use super::{Opening, Performance, RATE};

/// Seconds in a minute.
const MINUTE: u64 = 60;

/// Turns instants of the exercise into samples.
#[derive(Clone, Copy, Debug)]
pub(super) struct Clock {
    tempo: u64,
    /// Ticks of the score in a beat.
    beat: u64,
    /// Ticks before the first bar.
    before: u64,
}

impl Clock {
    pub(super) fn new(meter: Meter, performance: &Performance) -> Self {
        let beat = Duration::WHOLE.ticks() / u32::from(meter.unit.max(1));
        let before = match performance.opening {
            Opening::AtOnce => Duration::ZERO,
            Opening::CountIn => meter.bar_length(),
        };
        Self {
            tempo: performance.tempo.max(1).into(),
            beat: beat.max(1).into(),
            before: before.ticks().into(),
        }
    }

    /// The sample at an instant of the exercise, to the nearest.
    pub(super) fn at(&self, instant: Duration) -> usize {
        self.sample(self.before + u64::from(instant.ticks()))
    }

    /// The sample at an instant of the bar before the exercise.
    pub(super) fn in_count_in(&self, instant: Duration) -> usize {
        self.sample(instant.ticks().into())
    }

    fn sample(&self, ticks: u64) -> usize {
        let per_tick = self.beat * self.tempo;
        let samples = (ticks * MINUTE * u64::from(RATE) + per_tick / 2) / per_tick;
        usize::try_from(samples).unwrap_or(usize::MAX)
    }
}
