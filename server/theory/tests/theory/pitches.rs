//! Pitches and note names: writing, reading, transposing, ordering.

use bicinium_theory::{Accidental, Interval, Letter, Pitch, PitchClass, PitchError};
use proptest::prelude::*;

use crate::read;
use crate::strategies::{interval, pitch, pitch_class};

#[test]
fn middle_c_and_its_namesakes_sound_alike() {
    for name in ["C4", "B#3", "Dbb4"] {
        assert_eq!(read::<Pitch>(name).midi(), 60, "{name}");
    }
    assert_eq!(read::<Pitch>("Cb4").midi(), 59);
}

#[test]
fn the_tuning_note_may_be_set() {
    let a4: Pitch = read("A4");
    assert!((a4.frequency(440.0) - 440.0).abs() < 1e-9);
    assert!((a4.frequency(415.0) - 415.0).abs() < 1e-9);
    assert!((read::<Pitch>("A3").frequency(440.0) - 220.0).abs() < 1e-9);
}

#[test]
fn every_way_of_writing_an_accidental_is_read() {
    let spellings = [
        ("F##3", "Fx3"),
        ("F𝄪3", "Fx3"),
        ("F♯♯3", "Fx3"),
        ("F♯3", "F#3"),
        ("F♮3", "F3"),
        ("B♭2", "Bb2"),
        ("B♭♭2", "Bbb2"),
        ("B𝄫2", "Bbb2"),
    ];
    for (written, printed) in spellings {
        assert_eq!(read::<Pitch>(written).to_string(), printed, "{written}");
    }
}

#[test]
fn what_is_wrong_with_a_pitch_is_told_apart() {
    let cases = [
        ("", PitchError::Letter),
        ("c4", PitchError::Letter),
        ("H4", PitchError::Letter),
        ("Bb", PitchError::MissingOctave),
        ("C", PitchError::MissingOctave),
        ("C#b4", PitchError::Accidental),
        ("C###4", PitchError::Accidental),
        ("Cb♭4", PitchError::Accidental),
        ("C10", PitchError::Octave),
        ("C-1", PitchError::Octave),
        ("C4,", PitchError::Octave),
        ("C ４", PitchError::Octave),
    ];
    for (text, error) in cases {
        assert_eq!(text.parse::<Pitch>(), Err(error), "{text}");
    }
    assert_eq!("F#3".parse::<PitchClass>(), Err(PitchError::AfterName));
}

#[test]
fn letters_go_round() {
    assert_eq!(Letter::from_index(7), Letter::C);
    assert_eq!(Letter::from_index(-1), Letter::B);
    assert_eq!(Letter::from_index(i16::MIN), Letter::from_index(i16::MIN + 7));
}

#[test]
fn nothing_is_written_beyond_double_accidentals_or_the_ten_octaves() {
    assert_eq!(Accidental::new(3), None);
    assert_eq!(read::<PitchClass>("C").at(10), None);
    assert_eq!(read::<PitchClass>("C").at(-1), None);
    assert_eq!(read::<Pitch>("B9").transpose(read("m2")), None);
    assert_eq!(read::<Pitch>("Bx4").transpose(read("M3")), None);
    assert_eq!(Pitch::from_step(70, Accidental::NATURAL), None);
    assert_eq!(Pitch::from_step(-1, Accidental::NATURAL), None);
}

#[test]
fn enharmonic_pitches_are_ordered_by_the_staff() {
    let mut pitches: Vec<Pitch> = ["D4", "Dbb4", "C4", "B#3", "Cb4"].map(read).into();
    pitches.sort();
    let names: Vec<String> = pitches.iter().map(ToString::to_string).collect();
    assert_eq!(names, ["Cb4", "B#3", "C4", "Dbb4", "D4"]);
}

proptest! {
    #[test]
    fn pitches_are_read_as_printed(pitch in pitch(), class in pitch_class()) {
        prop_assert_eq!(pitch.to_string().parse(), Ok(pitch));
        prop_assert_eq!(class.to_string().parse(), Ok(class));
        prop_assert_eq!(Pitch::from_step(pitch.step(), pitch.accidental()), Some(pitch));
    }

    #[test]
    fn reading_never_fails_badly(
        text in "\\PC*",
        noteish in "[A-Ha-h#bx♯♭♮𝄪𝄫]{0,4}[-0-9,]{0,2}",
    ) {
        for text in [text, noteish] {
            if let Ok(pitch) = text.parse::<Pitch>() {
                prop_assert_eq!(pitch.to_string().parse(), Ok(pitch));
            }
        }
    }

    #[test]
    fn transposing_goes_where_the_interval_leads(from in pitch(), to in pitch()) {
        let interval = Interval::between(from, to);
        prop_assert_eq!(from.transpose(interval), Some(to));
        prop_assert_eq!(from.class().transpose(interval), Some(to.class()));
    }

    #[test]
    fn transposing_there_and_back_comes_home(from in pitch(), interval in interval()) {
        if let Some(to) = from.transpose(interval) {
            let back = Interval::new(-interval.steps(), -interval.semitones());
            prop_assert_eq!(Interval::between(from, to), interval);
            prop_assert_eq!(to.transpose(back), Some(from));
        }
    }

    #[test]
    fn transposing_by_anything_is_safe(from in pitch(), steps: i16, semitones: i16) {
        let wild = Interval::new(steps, semitones);
        if let Some(to) = from.transpose(wild) {
            prop_assert_eq!(Interval::between(from, to), wild);
        }
        let _ = from.class().transpose(wild);
    }

    #[test]
    fn the_key_on_the_keyboard_is_that_of_every_octave(pitch in pitch()) {
        prop_assert_eq!(pitch.class().semitone(), pitch.midi().rem_euclid(12));
    }

    #[test]
    fn twelve_semitones_double_the_frequency(pitch in pitch(), a4 in 390.0..470.0_f64) {
        if let Some(higher) = pitch.class().at(pitch.octave() + 1) {
            let ratio = higher.frequency(a4) / pitch.frequency(a4);
            prop_assert!((ratio - 2.0).abs() < 1e-9);
        }
    }

    #[test]
    fn equal_in_order_means_equal(one in pitch(), other in pitch()) {
        prop_assert_eq!(one.cmp(&other).is_eq(), one == other);
        prop_assert_eq!(one < other, other > one);
    }
}
