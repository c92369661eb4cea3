//! Arbitrary values for property tests, each over its whole range.

use bicinium_theory::{
    Accidental, Interval, Inversion, Key, Letter, Mode, Numeral, Pitch, PitchClass, TriadQuality,
};
use proptest::prelude::*;
use proptest::sample::select;

pub(crate) fn accidental() -> impl Strategy<Value = Accidental> {
    (-2_i8..=2).prop_filter_map("in range", Accidental::new)
}

pub(crate) fn pitch_class() -> impl Strategy<Value = PitchClass> {
    (select(&Letter::ALL[..]), accidental())
        .prop_map(|(letter, sign)| PitchClass::new(letter, sign))
}

pub(crate) fn pitch() -> impl Strategy<Value = Pitch> {
    (pitch_class(), 0_i8..=9).prop_filter_map("in range", |(class, octave)| class.at(octave))
}

/// Intervals as they occur between pitches.
pub(crate) fn interval() -> impl Strategy<Value = Interval> {
    (pitch(), pitch()).prop_map(|(from, to)| Interval::between(from, to))
}

pub(crate) fn key() -> impl Strategy<Value = Key> {
    let parts = (pitch_class(), select(&Mode::ALL[..]));
    parts.prop_filter_map("writable", |(tonic, mode)| Key::new(tonic, mode))
}

pub(crate) fn numeral() -> impl Strategy<Value = Numeral> {
    let quality = select(vec![
        TriadQuality::Major,
        TriadQuality::Minor,
        TriadQuality::Diminished,
        TriadQuality::Augmented,
    ]);
    let inversion =
        select(vec![Inversion::Root, Inversion::First, Inversion::Second, Inversion::Third]);
    (1_u8..=7, quality, any::<bool>(), inversion).prop_filter_map(
        "a degree",
        |(degree, quality, seventh, inversion)| {
            let triad = Numeral::triad(degree, quality)?;
            let chord = if seventh { triad.with_seventh() } else { triad };
            Some(chord.with_inversion(inversion))
        },
    )
}
