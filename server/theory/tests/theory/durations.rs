//! Durations and how they are shown.

use bicinium_theory::{Duration, NoteLength};
use proptest::prelude::*;

#[test]
fn lengths_are_named_by_the_notes_that_show_them() {
    let cases = [
        (1, 1, "whole note"),
        (2, 1, "breve"),
        (3, 1, "dotted breve"),
        (1, 2, "half note"),
        (3, 4, "dotted half note"),
        (5, 8, "half note tied to an eighth note"),
        (7, 8, "dotted half note tied to an eighth note"),
        (9, 8, "whole note tied to an eighth note"),
        (5, 4, "whole note tied to a quarter note"),
        (1, 64, "sixty-fourth note"),
        (3, 64, "dotted thirty-second note"),
        (21, 64, "21/64 of a whole note"),
        (8, 1, "8/1 of a whole note"),
    ];
    for (numerator, denominator, name) in cases {
        let length = Duration::from_fraction(numerator, denominator).expect("whole ticks");
        assert_eq!(length.to_string(), name);
    }
}

#[test]
fn triplets_and_nothing_cannot_be_shown() {
    assert_eq!(Duration::from_fraction(1, 3), None);
    assert_eq!(Duration::WHOLE.divide(3), None);
    assert_eq!(Duration::WHOLE.divide(0), None);
    assert_eq!(Duration::from_fraction(1, 0), None);
    assert_eq!(Duration::from_fraction(1, 128), None);
    assert!(!Duration::ZERO.is_showable());
}

#[test]
fn a_bar_of_three_halves_divides_into_three() {
    let bar = Duration::HALF * 3;
    assert_eq!(bar.divide(3), Some(Duration::HALF));
    assert_eq!(bar.divide(2).map(|half| half.to_string()), Some("dotted half note".into()));
}

#[test]
fn fractions_are_in_lowest_terms() {
    assert_eq!((Duration::QUARTER * 3).as_fraction(), (3, 4));
    assert_eq!((Duration::WHOLE * 3).as_fraction(), (3, 1));
    assert_eq!(Duration::ZERO.as_fraction(), (0, 1));
}

#[test]
fn arithmetic_stays_in_range() {
    let longest = Duration::from_ticks(u32::MAX);
    assert_eq!(longest + Duration::WHOLE, longest);
    assert_eq!(longest * 2, longest);
    assert_eq!(Duration::HALF - Duration::WHOLE, Duration::ZERO);
    let parts = [Duration::HALF, Duration::QUARTER, Duration::EIGHTH, Duration::EIGHTH];
    assert_eq!(parts.into_iter().sum::<Duration>(), Duration::WHOLE);
}

/// Lengths of one note with no dot or one, by their definition: a power of two from a sixty-fourth
/// to a breve, or half as much again in whole ticks.
fn is_one_note(ticks: u32) -> bool {
    let plain = |ticks: u32| ticks.is_power_of_two() && ticks <= 128;
    let dotted = |ticks: u32| ticks.is_multiple_of(3) && plain(ticks / 3 * 2);
    plain(ticks) || dotted(ticks)
}

proptest! {
    #[test]
    fn one_or_two_notes_show_exactly_what_they_can(ticks in 0_u32..600) {
        let one = is_one_note(ticks);
        let two = (1..ticks).any(|first| is_one_note(first) && is_one_note(ticks - first));
        let notes = Duration::from_ticks(ticks).notes();
        prop_assert_eq!(notes.is_some(), one || two);
        prop_assert_eq!(notes.is_some_and(|notes| notes.tied.is_none()), one);
    }

    #[test]
    fn the_notes_add_up(ticks in 0_u32..600) {
        if let Some(notes) = Duration::from_ticks(ticks).notes() {
            let tied = notes.tied.map_or(Duration::ZERO, NoteLength::duration);
            prop_assert_eq!((notes.first.duration() + tied).ticks(), ticks);
            prop_assert!(tied <= notes.first.duration());
        }
    }

    #[test]
    fn fractions_lead_back(ticks: u32) {
        let length = Duration::from_ticks(ticks);
        let (numerator, denominator) = length.as_fraction();
        prop_assert_eq!(Duration::from_fraction(numerator, denominator), Some(length));
    }

    #[test]
    fn equal_parts_add_up(ticks: u32, parts: u32) {
        let whole = Duration::from_ticks(ticks);
        match whole.divide(parts) {
            Some(part) => prop_assert_eq!(part * parts, whole),
            None => prop_assert!(ticks.checked_rem(parts) != Some(0)),
        }
    }
}
