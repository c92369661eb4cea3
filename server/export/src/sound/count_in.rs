//! The bar of beats before the music: short soft ticks, the first of them higher. Knows no voices.

use bicinium_theory::{Duration, Meter};

use super::clock::Clock;
use super::mix::Mix;
use super::tone::Tone;

/// The longest a tick sounds, in samples: a twentieth of a second.
const TICK: usize = 2_205;
/// How loud it is.
const GAIN: f64 = 0.5;

/// Adds the ticks.
pub(super) fn add(meter: Meter, clock: &Clock, a4_hz: f64, mix: &mut Mix) {
    let beat = Duration::from_ticks(Duration::WHOLE.ticks() / u32::from(meter.unit.max(1)));
    for number in 0..u32::from(meter.beats) {
        let start = clock.in_count_in(beat * number);
        let room = clock.in_count_in(beat * (number + 1)) - start;
        let hertz = if number == 0 { a4_hz * 4.0 } else { a4_hz * 3.0 };
        Tone::steady(start, room.min(TICK), hertz).add(GAIN, mix);
    }
}
