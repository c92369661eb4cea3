//! Keys, modes, scale degrees and registers.

use bicinium_theory::{Key, Mode, PitchClass, Register};
use proptest::prelude::*;

use crate::read;
use crate::strategies::{key, pitch_class};

fn key_of(tonic: &str, mode: &str) -> Key {
    Key::new(read(tonic), read(mode)).expect("the key can be written")
}

fn names(notes: &[PitchClass]) -> String {
    notes.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}

#[test]
fn scales_are_spelled_letter_by_letter() {
    let cases = [
        ("G", "major", "G A B C D E F#", 1),
        ("C", "minor", "C D Eb F G Ab Bb", -3),
        ("F", "ionian", "F G A Bb C D E", -1),
        ("D", "dorian", "D E F G A B C", 0),
        ("E", "phrygian", "E F G A B C D", 0),
        ("F", "lydian", "F G A B C D E", 0),
        ("D", "mixolydian", "D E F# G A B C", 1),
        ("A", "aeolian", "A B C D E F G", 0),
        ("D#", "minor", "D# E# F# G# A# B C#", 6),
        ("G#", "major", "G# A# B# C# D# E# Fx", 8),
    ];
    for (tonic, mode, scale, signature) in cases {
        let key = key_of(tonic, mode);
        assert_eq!(names(&key.scale()), scale, "{key}");
        assert_eq!(key.signature(), signature, "{key}");
    }
}

#[test]
fn leading_note_and_raised_sixth_are_raised_where_the_scale_has_them_low() {
    let cases = [
        ("A", "minor", "G#", "F#"),
        ("G", "minor", "F#", "E"),
        ("C", "major", "B", "A"),
        ("D", "dorian", "C#", "B"),
        ("E", "phrygian", "D#", "C#"),
        ("F", "lydian", "E", "D"),
        ("G", "mixolydian", "F#", "E"),
        ("G#", "minor", "Fx", "E#"),
    ];
    for (tonic, mode, leading, sixth) in cases {
        let key = key_of(tonic, mode);
        assert_eq!(names(&[key.leading_note(), key.raised_sixth()]), format!("{leading} {sixth}"));
    }
}

#[test]
fn degrees_are_numbered_and_named() {
    let cases = [
        ("C", "major", "F", "4", "subdominant"),
        ("C", "major", "B", "7", "leading note"),
        ("C", "major", "Bb", "b7", "subtonic"),
        ("A", "minor", "G#", "#7", "leading note"),
        ("A", "minor", "G", "7", "subtonic"),
        ("D", "minor", "Eb", "b2", "supertonic"),
        ("E", "phrygian", "F", "2", "supertonic"),
        ("G", "mixolydian", "F#", "#7", "leading note"),
        ("Ab", "major", "Dx", "###4", "subdominant"),
        ("C", "major", "Abb", "bb6", "submediant"),
    ];
    for (tonic, mode, note, shown, name) in cases {
        let degree = key_of(tonic, mode).degree(read(note));
        assert_eq!((degree.to_string().as_str(), degree.name()), (shown, name), "{note}");
    }
}

#[test]
fn a_key_that_cannot_be_written_is_none() {
    assert_eq!(Key::new(read("Fbb"), Mode::Major), None);
    assert_eq!(Key::new(read("Dx"), Mode::Dorian), None, "its leading note needs three sharps");
    assert!(Key::new(read("Fb"), Mode::Major).is_some());
}

#[test]
fn only_the_third_makes_a_mode_minor_like() {
    let minor_like = Mode::ALL.into_iter().filter(|mode| mode.is_minor_like());
    let names: Vec<&str> = minor_like.map(Mode::name).collect();
    assert_eq!(names, ["minor", "dorian", "phrygian", "aeolian"]);
}

#[test]
fn modes_and_registers_are_read_by_name_in_small_letters() {
    for mode in Mode::ALL {
        assert_eq!(mode.name().parse(), Ok(mode));
    }
    for register in Register::ALL {
        assert_eq!(register.name().parse(), Ok(register));
    }
    assert!("Major".parse::<Mode>().is_err() && "locrian".parse::<Mode>().is_err());
    assert!("Bass".parse::<Register>().is_err());
}

#[test]
fn messages_about_names_list_all_of_them() {
    let modes = "x".parse::<Mode>().expect_err("no mode").to_string();
    assert!(Mode::ALL.iter().all(|mode| modes.contains(mode.name())), "{modes}");
    let voices = "x".parse::<Register>().expect_err("no register").to_string();
    assert!(Register::ALL.iter().all(|voice| voices.contains(voice.name())), "{voices}");
}

proptest! {
    #[test]
    fn scale_notes_are_the_unaltered_degrees(key in key()) {
        for (number, note) in (1..).zip(key.scale()) {
            let degree = key.degree(note);
            prop_assert_eq!((degree.number, degree.alteration), (number, 0));
            prop_assert!(key.contains(note));
        }
    }

    #[test]
    fn a_note_belongs_to_the_key_when_unaltered(key in key(), note in pitch_class()) {
        prop_assert_eq!(key.contains(note), key.degree(note).alteration == 0);
    }

    #[test]
    fn the_signature_adds_up_the_accidentals(key in key()) {
        let sum: i8 = key.scale().iter().map(|note| note.accidental.value()).sum();
        prop_assert_eq!(key.signature(), sum);
    }

    #[test]
    fn the_leading_note_leads_by_a_diatonic_semitone(key in key()) {
        let leading = key.leading_note();
        prop_assert_eq!(leading.transpose(read("m2")), Some(key.tonic));
        prop_assert_eq!(key.degree(leading).name(), "leading note");
        prop_assert_eq!(key.tonic.transpose(read("M6")), Some(key.raised_sixth()));
    }

    #[test]
    fn a_key_prints_tonic_and_mode(key in key()) {
        let shown = key.to_string();
        let (tonic, mode) = shown.split_once(' ').expect("two words");
        prop_assert_eq!(Key::new(read(tonic), read(mode)), Some(key));
    }
}
