//! The motion of two voices.

use bicinium_theory::{Interval, Motion, Pitch};
use proptest::prelude::*;

use crate::read;
use crate::strategies::pitch;

fn motion(upper: [&str; 2], lower: [&str; 2]) -> &'static str {
    let voice = |[first, second]: [&str; 2]| (read(first), read(second));
    Motion::between(voice(upper), voice(lower)).name()
}

#[test]
fn the_five_kinds_of_motion() {
    assert_eq!(motion(["E4", "F4"], ["C4", "B3"]), "contrary");
    assert_eq!(motion(["E4", "F4"], ["C4", "C4"]), "oblique");
    assert_eq!(motion(["E4", "G4"], ["C4", "D4"]), "similar");
    assert_eq!(motion(["E4", "F4"], ["C4", "D4"]), "parallel");
    assert_eq!(motion(["E4", "E4"], ["C4", "C4"]), "static");
}

#[test]
fn parallel_goes_by_the_number_not_the_quality() {
    assert_eq!(motion(["B4", "C5"], ["E4", "F4"]), "parallel");
    assert_eq!(motion(["B4", "C5"], ["F4", "G4"]), "parallel", "diminished fifth to fifth");
    assert_eq!(motion(["F4", "F#4"], ["D4", "D#4"]), "parallel", "chromatic semitones");
}

#[test]
fn a_change_of_name_alone_is_motion() {
    assert_eq!(motion(["C#5", "Db5"], ["E4", "E4"]), "oblique");
}

fn turned((first, second): (Pitch, Pitch)) -> (Pitch, Pitch) {
    (second, first)
}

proptest! {
    #[test]
    fn motion_is_the_same_backwards_and_upside_down(
        upper in (pitch(), pitch()),
        lower in (pitch(), pitch()),
    ) {
        let motion = Motion::between(upper, lower);
        prop_assert_eq!(Motion::between(turned(upper), turned(lower)), motion);
        prop_assert_eq!(Motion::between(lower, upper), motion);
    }

    #[test]
    fn parallel_motion_keeps_the_number(upper in (pitch(), pitch()), lower in (pitch(), pitch())) {
        if Motion::between(upper, lower) == Motion::Parallel {
            let first = Interval::between(lower.0, upper.0);
            let second = Interval::between(lower.1, upper.1);
            prop_assert_eq!(first.steps(), second.steps());
        }
    }

    #[test]
    fn a_voice_that_stays_makes_it_oblique_or_static(
        held in pitch(),
        moving in (pitch(), pitch()),
    ) {
        let expected = if moving.0 == moving.1 { Motion::Static } else { Motion::Oblique };
        prop_assert_eq!(Motion::between(moving, (held, held)), expected);
    }
}
