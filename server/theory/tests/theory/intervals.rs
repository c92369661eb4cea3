//! Intervals: names, kinds, inversion.

use bicinium_theory::{Direction, Interval, IntervalError, PerfectClass, Pitch};
use proptest::prelude::*;

use crate::read;
use crate::strategies::{interval, pitch};

fn between(from: &str, to: &str) -> Interval {
    Interval::between(read(from), read(to))
}

#[test]
fn intervals_are_named_in_words() {
    let cases = [
        ("C4", "E5", "major tenth"),
        ("G4", "C4", "perfect fifth"),
        ("F4", "Bx4", "triply augmented fourth"),
        ("F4", "B#4", "doubly augmented fourth"),
        ("C4", "C6", "perfect fifteenth"),
        ("C2", "E4", "major seventeenth"),
        ("C4", "C4", "perfect unison"),
        ("C4", "C5", "perfect octave"),
        ("C0", "A3", "major twenty-seventh"),
        ("C0", "D4", "major thirtieth"),
        ("F#4", "F4", "augmented unison"),
    ];
    for (from, to, words) in cases {
        assert_eq!(between(from, to).words(), words, "{from} {to}");
    }
}

#[test]
fn steps_and_leaps_are_told_apart() {
    assert!(between("E4", "F4").is_step() && between("F4", "Eb4").is_step());
    let augmented_second = between("F4", "G#4");
    assert!(!augmented_second.is_step() && !augmented_second.is_leap());
    assert!(between("F#4", "Ab4").is_leap(), "a diminished third");
    assert!(!between("C4", "C#4").is_leap() && !between("C4", "C4").is_step());
}

#[test]
fn the_chromatic_semitone_has_two_directions() {
    let (up, down) = (between("F4", "F#4"), between("F#4", "F4"));
    assert_eq!((up.direction(), down.direction()), (Direction::Up, Direction::Down));
    assert!(up.is_chromatic_semitone() && down.is_chromatic_semitone());
    assert!(!between("F4", "Gb4").is_chromatic_semitone());
    assert!(!up.is_unison() && between("F4", "F4").is_unison());
}

#[test]
fn the_fourth_is_a_dissonance() {
    assert!(between("C4", "F4").is_dissonant() && between("C4", "F5").is_dissonant());
    assert!(!between("C4", "F4").is_perfect());
    assert!(between("C4", "G5").is_perfect());
    assert!(between("E3", "C5").is_imperfect());
    assert!(between("B3", "F4").is_dissonant() && between("C4", "G#4").is_dissonant());
}

#[test]
fn perfect_consonances_fall_into_two_classes() {
    for name in ["P1", "P8", "P15", "P22"] {
        assert_eq!(read::<Interval>(name).perfect_class(), Some(PerfectClass::Octave), "{name}");
    }
    for name in ["P5", "P12", "P19"] {
        assert_eq!(read::<Interval>(name).perfect_class(), Some(PerfectClass::Fifth), "{name}");
    }
    for name in ["P4", "P11", "d5", "A8", "M3"] {
        assert_eq!(read::<Interval>(name).perfect_class(), None, "{name}");
    }
}

#[test]
fn tritones_are_the_simple_ones() {
    assert!(between("F4", "B4").is_tritone() && between("F4", "B3").is_tritone());
    assert!(!between("F4", "B5").is_tritone());
    assert!(!between("F4", "Bb4").is_tritone());
    assert!(!between("D4", "G#3").is_augmented() && between("D4", "G#4").is_augmented());
    assert!(between("D4", "G#3").is_diminished());
}

#[test]
fn inversions_fill_the_octave() {
    let cases = [
        ("P1", "P8"),
        ("m2", "M7"),
        ("M3", "m6"),
        ("P4", "P5"),
        ("A4", "d5"),
        ("M10", "m6"),
        ("P15", "P1"),
        ("A1", "d8"),
        ("A8", "d8"),
    ];
    for (name, inversion) in cases {
        assert_eq!(read::<Interval>(name).invert().to_string(), inversion, "{name}");
    }
}

#[test]
fn what_is_wrong_with_a_name_is_told_apart() {
    let cases = [
        ("", IntervalError::Quality),
        ("Q5", IntervalError::Quality),
        ("dA5", IntervalError::Quality),
        ("5", IntervalError::Quality),
        ("P", IntervalError::Number),
        ("M+3", IntervalError::Number),
        ("P0", IntervalError::Number),
        ("A01", IntervalError::Number),
        ("M71", IntervalError::Number),
        ("P3", IntervalError::Combination),
        ("m5", IntervalError::Combination),
        ("d1", IntervalError::Combination),
    ];
    for (text, error) in cases {
        assert_eq!(text.parse::<Interval>(), Err(error), "{text}");
    }
}

proptest! {
    #[test]
    fn names_lead_back_to_the_rising_interval(interval in interval()) {
        prop_assert_eq!(interval.to_string().parse(), Ok(interval.abs()));
    }

    #[test]
    fn an_interval_has_the_same_name_in_both_directions(one in pitch(), other in pitch()) {
        let (there, back) = (Interval::between(one, other), Interval::between(other, one));
        prop_assert_eq!(there.to_string(), back.to_string());
        prop_assert_eq!(there.words(), back.words());
        prop_assert_eq!(there.is_dissonant(), back.is_dissonant());
    }

    #[test]
    fn inverting_twice_changes_nothing_but_augmented_octaves(interval in interval()) {
        let simple = interval.simple();
        if !(simple.number() == 8 && simple.is_augmented()) {
            prop_assert_eq!(interval.invert().invert(), simple);
            prop_assert_eq!(interval.invert().number(), 9 - simple.number());
        }
    }

    #[test]
    fn bringing_within_an_octave_keeps_the_kind(interval in interval()) {
        let simple = interval.simple();
        prop_assert!(simple.number() <= 8);
        prop_assert_eq!(simple.quality(), interval.quality());
        prop_assert_eq!(simple.perfect_class(), interval.perfect_class());
        prop_assert_eq!(simple.simple(), simple);
        prop_assert_eq!(interval.is_compound(), simple != interval.abs());
    }

    #[test]
    fn an_octave_more_changes_no_consonance(low in pitch(), high in pitch()) {
        if let Some(higher) = high.class().at(high.octave() + 1).filter(|_| low < high) {
            let (near, far) = (Interval::between(low, high), Interval::between(low, higher));
            prop_assert_eq!(near.is_consonant(), far.is_consonant());
            prop_assert_eq!(near.is_perfect(), far.is_perfect());
        }
    }

    #[test]
    fn every_interval_whatever_is_named(steps: i16, semitones: i16) {
        let wild = Interval::new(steps, semitones);
        prop_assert!(!wild.words().is_empty() && !wild.to_string().is_empty());
        let _ = (wild.simple(), wild.invert(), wild.abs(), wild.is_tritone(), wild.is_step());
        prop_assert!(wild.is_consonant() != wild.is_dissonant());
    }

    #[test]
    fn reading_names_never_fails_badly(text in "[PMmdA]{0,300}[0-9]{0,6}") {
        if let Ok(interval) = text.parse::<Interval>() {
            prop_assert_eq!(interval.to_string(), text);
        }
    }

    #[test]
    fn direction_is_that_of_the_staff(from in pitch(), to in pitch()) {
        let expected = match from.step().cmp(&to.step()).then(from.midi().cmp(&to.midi())) {
            std::cmp::Ordering::Less => Direction::Up,
            std::cmp::Ordering::Equal => Direction::Level,
            std::cmp::Ordering::Greater => Direction::Down,
        };
        prop_assert_eq!(Interval::between(from, to).direction(), expected);
        prop_assert_eq!(expected == Direction::Level, Pitch::eq(&from, &to));
    }
}
