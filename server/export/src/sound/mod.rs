//! An exercise as sound: a plain, soft tone of our own making, in equal temperament or with pure
//! intervals over the lower voice, as a WAV file. Knows nothing of how notes are written down.

mod clock;
mod count_in;
mod mix;
mod tone;
mod tuning;

use std::fmt;

use bicinium_analysis::score::{Pair, VoiceId};
use bicinium_analysis::sheet::Exercise;

use clock::Clock;
use mix::Mix;

/// Samples in a second.
pub const RATE: u32 = 44_100;
/// The longest performance, in seconds.
const LONGEST: u64 = 20 * 60;

/// How an exercise is performed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Performance {
    /// Beats of the meter in a minute, at least 1.
    pub tempo: u16,
    /// The frequency of A4 in hertz; 440 in ISO 16:1975.
    pub a4_hz: f64,
    /// How intervals are tuned.
    pub tuning: Tuning,
    /// How loud each voice is.
    pub loudness: Pair<Loudness>,
    /// Whether a bar of beats comes first.
    pub opening: Opening,
}

/// How intervals are tuned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tuning {
    /// Twelve equal semitones.
    Equal,
    /// The lower voice in equal temperament, the upper one pure above it.
    Just,
}

/// How loud a voice is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Loudness {
    /// As loud as a voice alone.
    Full,
    /// Soft, to sing against.
    Soft,
    /// Not heard.
    Silent,
}

/// What comes before the first bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opening {
    /// Nothing.
    AtOnce,
    /// A bar of beats.
    CountIn,
}

/// Why an exercise cannot be performed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// It would last so many seconds, longer than anybody listens.
    TooLong(u64),
    /// The file would be longer than a WAV file can be.
    Unwritable,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(seconds) => write!(
                f,
                "it would last {} minutes; {} is the most. A faster tempo would shorten it",
                seconds.div_ceil(60),
                LONGEST / 60,
            ),
            Self::Unwritable => f.write_str("it is longer than such a file can be"),
        }
    }
}

impl std::error::Error for Refusal {}

impl Performance {
    /// Both voices in equal temperament at 440 Hz, 60 beats a minute.
    pub const PLAIN: Self = Self {
        tempo: 60,
        a4_hz: 440.0,
        tuning: Tuning::Equal,
        loudness: Pair { upper: Loudness::Full, lower: Loudness::Full },
        opening: Opening::AtOnce,
    };
}

/// The bytes of a WAV file: one channel of 16-bit samples, exactly as long as the bars that are
/// played.
pub fn wav(exercise: &Exercise, performance: &Performance) -> Result<Vec<u8>, Refusal> {
    let score = &exercise.score;
    let clock = Clock::new(score.setting.meter, performance);
    let length = clock.at(score.setting.length());
    let seconds = u64::try_from(length).unwrap_or(u64::MAX).div_ceil(u64::from(RATE));
    if seconds > LONGEST {
        return Err(Refusal::TooLong(seconds));
    }
    let mut mix = Mix::of_length(length);
    if performance.opening == Opening::CountIn {
        count_in::add(score.setting.meter, &clock, performance.a4_hz, &mut mix);
    }
    for voice in VoiceId::BOTH {
        let gain = performance.loudness[voice].gain();
        for tone in tuning::tones(score, voice, performance, &clock) {
            tone.add(gain, &mut mix);
        }
    }
    mix.file().ok_or(Refusal::Unwritable)
}

impl Loudness {
    /// What the samples of a voice are multiplied with, so that two voices fit.
    fn gain(self) -> f64 {
        match self {
            Self::Full => 0.45,
            Self::Soft => 0.1,
            Self::Silent => 0.0,
        }
    }
}
