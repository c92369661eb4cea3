//! One note as it sounds: a few partials of a soft timbre that swell, fade a little and come to rest
//! within the note. Knows no pitches, only frequencies.

use std::f64::consts::{PI, TAU};

use super::RATE;
use super::mix::Mix;

/// How strong each partial is beside the others, from the fundamental up; together they are 1.
const PARTIALS: [f64; 6] = [0.52, 0.22, 0.13, 0.07, 0.04, 0.02];
/// No partial is higher than this, in hertz.
const HIGHEST: f64 = 18_000.0;
/// How long a tone swells, in samples, and how long it takes to come to rest.
const SWELL: f64 = 0.03 * RATE as f64;
const REST: f64 = 0.08 * RATE as f64;
/// After so many seconds a tone has faded to a third of its strength.
const FADE: f64 = 6.0;
/// A tone of this frequency is as strong as asked for, in hertz; others are so much stronger the lower they
/// are that they seem equally loud, within bounds.
const PLAIN: f64 = 262.0;
const LIFT: f64 = 0.4;
const BOUNDS: (f64, f64) = (0.55, 1.4);
/// How long it takes to slide from one frequency to another, in samples.
const SLIDE: f64 = 0.05 * RATE as f64;

/// A note as it sounds.
#[derive(Clone, Debug)]
pub(super) struct Tone {
    start: usize,
    length: usize,
    /// The frequencies in hertz, each with the sample from which on it is meant.
    hertz: Vec<(usize, f64)>,
}

impl Tone {
    /// A tone of one frequency.
    pub(super) fn steady(start: usize, length: usize, hertz: f64) -> Self {
        Self { start, length, hertz: vec![(start, hertz)] }
    }

    /// The same with another frequency from a sample on.
    pub(super) fn slide(&mut self, from: usize, hertz: f64) {
        self.hertz.push((from, hertz));
    }

    /// Adds it to the mix.
    pub(super) fn add(&self, gain: f64, mix: &mut Mix) {
        if gain <= 0.0 {
            return;
        }
        let gain = gain * self.strength();
        let mut phase = 0.0;
        let samples = mix.stretch(self.start, self.length);
        for (index, sample) in samples.iter_mut().enumerate() {
            let hertz = self.hertz_at(self.start + index);
            *sample += narrow(gain * self.envelope(index) * timbre(phase, hertz));
            phase = (phase + hertz / f64::from(RATE)).fract();
        }
    }

    /// How much stronger it is for its height; ears are dull for what is low.
    fn strength(&self) -> f64 {
        let hertz = self.hertz.first().map_or(PLAIN, |first| first.1);
        (PLAIN / hertz).powf(LIFT).clamp(BOUNDS.0, BOUNDS.1)
    }

    /// The frequency at a sample, on its way from one to the next where it changes.
    fn hertz_at(&self, sample: usize) -> f64 {
        let begun = self.hertz.partition_point(|(from, _)| *from <= sample).max(1);
        let (from, to) = self.hertz[begun - 1];
        let Some((_, before)) = begun.checked_sub(2).map(|index| self.hertz[index]) else {
            return to;
        };
        before + (to - before) * (wide(sample - from) / SLIDE).min(1.0)
    }

    /// How strong it is after so many samples.
    fn envelope(&self, index: usize) -> f64 {
        let (gone, left) = (wide(index), wide(self.length - index));
        let edge = wide(self.length) / 3.0;
        let swell = rise(gone / SWELL.min(edge));
        let rest = rise(left / REST.min(edge));
        swell * rest * (-gone / (FADE * f64::from(RATE))).exp()
    }
}

/// The sum of the partials at a phase of the fundamental, counted in turns.
fn timbre(phase: f64, hertz: f64) -> f64 {
    let partials = (1_u32..).zip(PARTIALS).map(|(number, strength)| (f64::from(number), strength));
    let heard = partials.take_while(|(number, _)| number * hertz < HIGHEST);
    heard.map(|(number, strength)| strength * (TAU * number * phase).sin()).sum()
}

/// From 0 to 1 without a corner at either end.
fn rise(part: f64) -> f64 {
    (1.0 - (PI * part.clamp(0.0, 1.0)).cos()) / 2.0
}

#[expect(clippy::cast_precision_loss, reason = "a performance has far fewer samples")]
fn wide(samples: usize) -> f64 {
    samples as f64
}

#[expect(clippy::cast_possible_truncation, reason = "a sample needs no more")]
fn narrow(sample: f64) -> f32 {
    sample as f32
}
