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
    fn beat_and_rest_lead_back(beats in 1_u8..=12, power in 0_u32..=4, at in 0_u32..5000) {
        let meter = Meter::new(beats, 1 << power).expect("a meter");
        let (beat, rest) = meter.beat(Duration::from_ticks(at));
        let length = Duration::WHOLE.divide(1 << power).expect("a beat");
        prop_assert_eq!((length * (beat - 1) + rest).ticks(), at);
        prop_assert!(rest < length);
    }
}
