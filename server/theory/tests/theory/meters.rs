//! Meters, beats and weights.

use bicinium_theory::{Duration, Meter, MeterError, Weight};
use proptest::prelude::*;

use crate::read;

/// The weights of the moving notes of a bar, in order: D, S or w.
fn weights(meter: &str, unit: Duration) -> String {
    let meter: Meter = read(meter);
    let places = (0..).map(|nth| unit * nth).take_while(|at| *at < meter.bar_length());
    let letter = |at| match meter.weight(at, unit) {
        Weight::Downbeat => 'D',
        Weight::Strong => 'S',
        Weight::Weak => 'w',
    };
    places.map(letter).collect()
}

#[test]
fn weights_depend_on_what_moves() {
    let cases = [
        ("2/2", Duration::HALF, "Dw"),
        ("2/2", Duration::QUARTER, "DwSw"),
        ("2/2", Duration::EIGHTH, "DwwwSwww"),
        ("4/4", Duration::HALF, "Dw"),
        ("4/4", Duration::QUARTER, "DwSw"),
        ("4/2", Duration::HALF, "DwSw"),
        ("3/2", Duration::HALF, "Dww"),
        ("3/2", Duration::QUARTER, "Dwwwww"),
        ("3/4", Duration::QUARTER, "Dww"),
        ("6/4", Duration::QUARTER, "DwwSww"),
        ("6/4", Duration::QUARTER * 3, "Dw"),
        ("1/1", Duration::QUARTER, "DwSw"),
    ];
    for (meter, unit, expected) in cases {
        assert_eq!(weights(meter, unit), expected, "{meter} in {unit}");
    }
}

#[test]
fn beats_are_counted_from_one() {
    let cut: Meter = read("2/2");
    assert_eq!(cut.beat(Duration::ZERO), (1, Duration::ZERO));
    assert_eq!(cut.beat(Duration::QUARTER), (1, Duration::QUARTER));
    assert_eq!(cut.beat(Duration::HALF + Duration::EIGHTH), (2, Duration::EIGHTH));
    assert_eq!(read::<Meter>("4/4").beat(Duration::HALF), (3, Duration::ZERO));
}

#[test]
fn triple_time_is_told_by_the_beats() {
    for (meter, is_triple) in [
        ("3/2", true),
        ("3/4", true),
        ("9/8", true),
        ("2/2", false),
        ("6/4", false),
        ("4/4", false),
    ] {
        assert_eq!(read::<Meter>(meter).is_triple(), is_triple, "{meter}");
    }
}

/// The main beats, counted in moving notes of a value from 0.
fn main_beats(meter: &str, unit: Duration) -> Vec<u32> {
    read::<Meter>(meter).main_beats().map(|beat| beat.ticks() / unit.ticks()).collect()
}

#[test]
fn a_bar_has_its_main_beats_on_its_halves_or_its_thirds() {
    let cases: [(&str, Duration, &[u32]); 12] = [
        ("2/2", Duration::QUARTER, &[0, 2]),
        ("4/4", Duration::QUARTER, &[0, 2]),
        ("4/2", Duration::HALF, &[0, 2]),
        ("1/1", Duration::QUARTER, &[0, 2]),
        ("3/2", Duration::HALF, &[0, 1, 2]),
        ("3/4", Duration::QUARTER, &[0, 1, 2]),
        ("6/4", Duration::QUARTER, &[0, 3]),
        ("12/8", Duration::EIGHTH, &[0, 6]),
        ("9/4", Duration::QUARTER, &[0, 3, 6]),
        ("9/8", Duration::EIGHTH, &[0, 3, 6]),
        ("5/4", Duration::QUARTER, &[0]),
        ("7/8", Duration::EIGHTH, &[0]),
    ];
    for (meter, unit, expected) in cases {
        assert_eq!(main_beats(meter, unit), expected, "{meter}");
    }
}

#[test]
fn half_a_bar_is_a_smaller_bar() {
    for (meter, half) in [
        ("4/4", Some("2/4")),
        ("2/2", Some("1/2")),
        ("6/4", Some("3/4")),
        ("12/8", Some("6/8")),
        ("1/1", Some("1/2")),
        ("1/16", None),
        ("3/2", None),
        ("5/4", None),
        ("9/8", None),
    ] {
        assert_eq!(read::<Meter>(meter).half(), half.map(read::<Meter>), "{meter}");
    }
}

#[test]
fn what_is_wrong_with_a_meter_is_told_apart() {
    let cases = [
        ("", MeterError::Form),
        ("4", MeterError::Form),
        ("4/", MeterError::Form),
        ("4/4/4", MeterError::Form),
        ("+4/4", MeterError::Form),
        ("04/4", MeterError::Form),
        ("0/4", MeterError::Beats),
        ("13/4", MeterError::Beats),
        ("999/4", MeterError::Beats),
        ("4/3", MeterError::Unit),
        ("4/0", MeterError::Unit),
        ("4/1024", MeterError::Unit),
    ];
    for (text, error) in cases {
        assert_eq!(text.parse::<Meter>(), Err(error), "{text}");
    }
}

proptest! {
    #[test]
    fn meters_are_read_as_printed(beats: u8, unit: u8) {
        if let Some(meter) = Meter::new(beats, unit) {
            prop_assert_eq!(meter.to_string().parse(), Ok(meter));
            prop_assert_eq!(meter.bar_length() * unit.into(), Duration::WHOLE * beats.into());
        }
    }

    #[test]
    fn reading_meters_never_fails_badly(text in "[0-9/]{0,6}") {
        if let Ok(meter) = text.parse::<Meter>() {
            prop_assert_eq!(meter.to_string(), text);
        }
    }

    #[test]
    fn every_bar_has_one_downbeat(beats in 1_u8..=12, power in 0_u32..=4, at: u32, unit: u32) {
        let meter = Meter::new(beats, 1 << power).expect("a meter");
        let weight = meter.weight(Duration::from_ticks(at), Duration::from_ticks(unit));
        let begins_a_bar = at % meter.bar_length().ticks() == 0;
        prop_assert_eq!(weight == Weight::Downbeat, begins_a_bar);
    }

    #[test]
    fn main_beats_are_equally_far_apart(beats in 1_u8..=12, power in 0_u32..=4) {
        let meter = Meter::new(beats, 1 << power).expect("a meter");
        let places: Vec<_> = meter.main_beats().chain([meter.bar_length()]).collect();
        prop_assert_eq!(places[0], Duration::ZERO);
        prop_assert!(places.windows(2).all(|pair| pair[1] - pair[0] == places[1]));
        let half = meter.half().map(|half| half.bar_length() * 2);
        prop_assert!(half.is_none_or(|whole| whole == meter.bar_length()));
    }

    #[test]
    fn beat_and_rest_lead_back(beats in 1_u8..=12, power in 0_u32..=4, at in 0_u32..5000) {
        let meter = Meter::new(beats, 1 << power).expect("a meter");
        let (beat, rest) = meter.beat(Duration::from_ticks(at));
        let length = Duration::WHOLE.divide(1 << power).expect("a beat");
        prop_assert_eq!((length * (beat - 1) + rest).ticks(), at);
        prop_assert!(rest < length);
    }
}
