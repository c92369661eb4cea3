//! What is heard, measured: how long it is, which frequencies sound, where it is silent, and that
//! nothing clicks. Frequencies come from a Fourier transform of a general-purpose library.

#![allow(clippy::unwrap_used, clippy::cast_precision_loss)]

use std::io::Cursor;
use std::sync::Arc;

use bicinium_analysis::Sheet;
use bicinium_analysis::score::Pair;
use bicinium_export::sound::{self, Loudness, Opening, Performance, RATE, Refusal, Tuning};
use rustfft::FftPlanner;
use rustfft::num_complex::Complex;

const SECOND: usize = RATE as usize;

/// Each half note lasts a second at the plain tempo, each bar two.
fn play(rows: &str, performance: Performance) -> Vec<f64> {
    try_to_play(&format!("key C major\nmeter 2/2\nexercise\n{rows}"), performance).unwrap()
}

fn try_to_play(text: &str, performance: Performance) -> Result<Vec<f64>, Refusal> {
    let snapshot = Sheet::new(text, Arc::default()).snapshot();
    let exercise = snapshot.exercises().next().unwrap().2;
    let bytes = sound::wav(exercise, &performance)?;
    let mut reader = hound::WavReader::new(Cursor::new(bytes)).unwrap();
    let spec = reader.spec();
    assert_eq!((spec.channels, spec.sample_rate, spec.bits_per_sample), (1, RATE, 16));
    Ok(reader.samples::<i16>().map(|sample| f64::from(sample.unwrap()) / 32_768.0).collect())
}

fn alone(voice: &str) -> Pair<Loudness> {
    let of = |own: &str| if own == voice { Loudness::Full } else { Loudness::Silent };
    Pair { upper: of("upper"), lower: of("lower") }
}

/// The strongest frequency in hertz: the peak of the spectrum, between its lines by a parabola through the
/// logarithms.
fn frequency(samples: &[f64]) -> f64 {
    let length = samples.len();
    let window = |index: usize| {
        let turn = std::f64::consts::TAU * index as f64 / length as f64;
        (1.0 - turn.cos()) / 2.0
    };
    let windowed = samples.iter().enumerate().map(|(index, it)| Complex::from(it * window(index)));
    // Zeros behind the samples make the lines of the spectrum narrower.
    let mut buffer: Vec<_> = windowed.collect();
    buffer.resize(length.next_power_of_two() * 4, Complex::default());
    FftPlanner::new().plan_fft_forward(buffer.len()).process(&mut buffer);
    let power: Vec<_> = buffer[..buffer.len() / 2].iter().map(|it| it.norm().ln()).collect();
    let peak = (1..power.len() - 1).max_by(|a, b| power[*a].total_cmp(&power[*b])).unwrap();
    let (left, top, right) = (power[peak - 1], power[peak], power[peak + 1]);
    let offset = (left - right) / (2.0 * (left - 2.0 * top + right));
    (peak as f64 + offset) * f64::from(RATE) / buffer.len() as f64
}

fn cents(heard: f64, meant: f64) -> f64 {
    1200.0 * (heard / meant).log2()
}

#[track_caller]
fn assert_near(heard: f64, meant: f64) {
    assert!(cents(heard, meant).abs() < 1.0, "{heard} Hz is not {meant} Hz");
}

/// The loudest sample.
fn peak(samples: &[f64]) -> f64 {
    samples.iter().fold(0.0, |peak, sample| sample.abs().max(peak))
}

#[test]
fn it_is_exactly_as_long_as_its_bars() {
    let rows = "  soprano | C5 | D5 E5 | C5 |\n  bass | C3 | B2 C3 | C3 |\n";
    let with = |tempo, opening| play(rows, Performance { tempo, opening, ..Performance::PLAIN });
    assert_eq!(with(60, Opening::AtOnce).len(), 6 * SECOND);
    assert_eq!(with(60, Opening::CountIn).len(), 8 * SECOND);
    // Six beats at 77 a minute are 206,181.8… samples.
    assert_eq!(with(77, Opening::AtOnce).len(), 206_182);
    let text = "meter 3/4\nexercise\n  alto | C4 | C4 |\n  bass | C3 | C3 |\n";
    assert_eq!(try_to_play(text, Performance::PLAIN).unwrap().len(), 6 * SECOND);
}

#[test]
fn equal_temperament_has_the_frequencies_of_the_standard() {
    // By 440 · 2^((n − 69) / 12), rounded to thousandths of a hertz.
    let notes =
        [("A4", 440.0), ("C4", 261.626), ("E2", 82.407), ("F#5", 739.989), ("Bb3", 233.082)];
    for (note, meant) in notes {
        let rows = format!("  soprano | {note} |\n  bass | {note} |\n");
        for voice in ["upper", "lower"] {
            let loudness = alone(voice);
            let samples = play(&rows, Performance { loudness, ..Performance::PLAIN });
            assert_near(frequency(&samples), meant);
            let low = Performance { loudness, a4_hz: 415.0, ..Performance::PLAIN };
            assert_near(frequency(&play(&rows, low)), meant * 415.0 / 440.0);
        }
    }
}

#[test]
fn just_intervals_are_pure_above_the_lower_voice() {
    let ratios = [
        ("G4", 3.0 / 2.0),
        ("E4", 5.0 / 4.0),
        ("Eb4", 6.0 / 5.0),
        ("A4", 5.0 / 3.0),
        ("Ab4", 8.0 / 5.0),
        ("F4", 4.0 / 3.0),
        ("C5", 2.0),
        ("E5", 5.0 / 2.0),
        ("G5", 3.0),
        ("C4", 1.0),
        ("A3", 5.0 / 6.0),
    ];
    for (note, ratio) in ratios {
        let rows = format!("  soprano | {note} |\n  bass | C4 |\n");
        let of = |voice| {
            let loudness = alone(voice);
            let just = Performance { tuning: Tuning::Just, loudness, ..Performance::PLAIN };
            frequency(&play(&rows, just))
        };
        assert_near(of("lower"), 261.626);
        assert_near(of("upper"), 261.626 * ratio);
    }
}

#[test]
fn a_note_that_is_held_slides_to_the_next_consonance_only() {
    let rows = "  soprano | E4 | - |\n  bass | C4 A3 | D4 G3 |\n";
    let loudness = alone("upper");
    let samples = play(rows, Performance { tuning: Tuning::Just, loudness, ..Performance::PLAIN });
    let heard = |second: usize| {
        let start = second * SECOND + SECOND / 8;
        frequency(&samples[start..start + SECOND * 3 / 4])
    };
    let over = |below: f64, ratio: f64| below * ratio;
    let (c4, a3, g3) = (261.626, 220.0, 195.998);
    assert_near(heard(0), over(c4, 5.0 / 4.0));
    assert_near(heard(1), over(a3, 3.0 / 2.0));
    // A second is no consonance: the note stays where it was.
    assert_near(heard(2), over(a3, 3.0 / 2.0));
    assert_near(heard(3), over(g3, 5.0 / 3.0));
}

#[test]
fn nothing_clips_and_nothing_clicks() {
    let rows = "  soprano | C6 (D6 E6) | rest G5 | - C6 | ? C5 | C6 |\n  \
                bass | C3 B2 | C3 - | - C2 | rest C3 | C3 |\n";
    for tuning in [Tuning::Equal, Tuning::Just] {
        let opening = Opening::CountIn;
        let samples = play(rows, Performance { tuning, opening, tempo: 90, ..Performance::PLAIN });
        assert!(peak(&samples) < 0.95, "{}", peak(&samples));
        // No partial that sounds moves faster between two samples: 2π · f · strength ÷ rate, summed
        // over both voices at their highest, is below 0.2.
        let steepest = samples.windows(2).map(|two| (two[1] - two[0]).abs()).fold(0.0, f64::max);
        assert!(steepest < 0.2, "{steepest}");
        assert!(samples[0].abs() < 0.001 && samples.last().unwrap().abs() < 0.001);
    }
    // Where a low note is struck again the step is as small as anywhere.
    let samples = play("  soprano | |\n  bass | C3 C3 |\n", Performance::PLAIN);
    let steepest = samples.windows(2).map(|two| (two[1] - two[0]).abs()).fold(0.0, f64::max);
    assert!(steepest < 0.03, "{steepest}");
}

#[test]
fn rests_holes_and_blank_bars_are_silent() {
    let rows = "  soprano | C5 rest | ? C5 |  | C5 |\n  bass | |\n";
    let samples = play(rows, Performance::PLAIN);
    let loudest = |second: usize| peak(&samples[second * SECOND..(second + 1) * SECOND]);
    let sounds: Vec<_> = (0..8).map(|second| loudest(second) > 0.1).collect();
    assert_eq!(sounds, [true, false, false, true, false, false, true, true]);
    for second in [1, 2, 4, 5] {
        assert!(loudest(second) == 0.0, "{second}");
    }
}

#[test]
fn a_soft_voice_is_softer() {
    let rows = "  soprano | C5 |\n  bass | |\n";
    let loudness = |upper| Pair { upper, lower: Loudness::Full };
    let of =
        |upper| peak(&play(rows, Performance { loudness: loudness(upper), ..Performance::PLAIN }));
    let (full, soft) = (of(Loudness::Full), of(Loudness::Soft));
    assert!((0.15..0.35).contains(&(soft / full)), "{soft} {full}");
    assert!(of(Loudness::Silent) == 0.0);
}

/// How loud it seems, in decibels: its spectrum weighed by curve A of IEC 61672-1:2013, annex E.
fn loudness(samples: &[f64]) -> f64 {
    let mut buffer: Vec<_> = samples.iter().copied().map(Complex::from).collect();
    FftPlanner::new().plan_fft_forward(buffer.len()).process(&mut buffer);
    let line = f64::from(RATE) / buffer.len() as f64;
    let weighed = buffer[..buffer.len() / 2].iter().enumerate().map(|(index, it)| {
        let square = (index as f64 * line).powi(2);
        let poles = (square + 107.7_f64.powi(2)) * (square + 737.9_f64.powi(2));
        let curve = 12_194.0_f64.powi(2) * square.powi(2)
            / ((square + 20.6_f64.powi(2)) * poles.sqrt() * (square + 12_194.0_f64.powi(2)));
        it.norm_sqr() * curve.powi(2)
    });
    10.0 * weighed.sum::<f64>().log10()
}

#[test]
fn a_low_voice_seems_as_loud_as_a_high_one() {
    let rows = "  soprano | C5 | A4 |\n  bass | C3 | F2 |\n";
    let of = |voice| {
        let loudness = alone(voice);
        play(rows, Performance { loudness, ..Performance::PLAIN })
    };
    let (upper, lower) = (loudness(&of("upper")), loudness(&of("lower")));
    assert!((upper - lower).abs() < 7.0, "{upper} dB and {lower} dB");
}

#[test]
fn what_nobody_would_listen_to_is_refused() {
    let bars = " C4 |".repeat(700);
    let text = format!("meter 4/4\nexercise\n  soprano |{bars}\n  bass |{bars}\n");
    // 700 bars of four beats at 10 a minute are 280 minutes.
    let slow = Performance { tempo: 10, ..Performance::PLAIN };
    assert_eq!(try_to_play(&text, slow), Err(Refusal::TooLong(280 * 60)));
}
