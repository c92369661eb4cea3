//! Chords and Roman numerals.

use bicinium_theory::{
    Chord, Inversion, Key, Member, Numeral, NumeralError, Quality, TriadQuality,
};
use proptest::prelude::*;

use crate::read;
use crate::strategies::{key, numeral, pitch_class};

fn chord(numeral: &str, tonic: &str, mode: &str) -> Chord {
    let key = Key::new(read(tonic), read(mode)).expect("the key can be written");
    read::<Numeral>(numeral).chord(key)
}

fn notes(chord: Chord) -> String {
    chord.members().map(|(_, note)| note.to_string()).collect::<Vec<_>>().join(" ")
}

#[test]
fn numerals_follow_the_conventions_of_minor_and_the_modes() {
    let cases = [
        ("V", "A", "minor", "E G# B"),
        ("v", "A", "minor", "E G B"),
        ("VII", "A", "minor", "G B D"),
        ("vii°6", "A", "minor", "G# B D"),
        ("vii°7", "A", "minor", "G# B D F"),
        ("vii°7", "C", "major", "B D F A"),
        ("vi°6", "A", "minor", "F# A C"),
        ("III+6", "A", "minor", "C E G#"),
        ("V7", "A", "minor", "E G# B D"),
        ("ii7", "C", "major", "D F A C"),
        ("I7", "C", "major", "C E G B"),
        ("vii°6", "D", "dorian", "C# E G"),
        ("vii°6", "G", "mixolydian", "F# A C"),
        ("v°", "E", "phrygian", "B D F"),
        ("II", "F", "lydian", "G B D"),
        ("V7", "F", "lydian", "C E G Bb"),
    ];
    for (numeral, tonic, mode, expected) in cases {
        assert_eq!(notes(chord(numeral, tonic, mode)), expected, "{numeral} in {tonic} {mode}");
    }
}

#[test]
fn chords_are_named() {
    let cases = [
        ("ii6", "C", "major", "D minor"),
        ("vii°6", "G", "major", "F# diminished"),
        ("V7", "C", "major", "G dominant seventh"),
        ("IV7", "C", "major", "F major seventh"),
        ("vii°7", "C", "major", "B half-diminished seventh"),
        ("vii°7", "C", "minor", "B diminished seventh"),
        ("iv7", "C", "major", "F minor with major seventh"),
    ];
    for (numeral, tonic, mode, name) in cases {
        assert_eq!(chord(numeral, tonic, mode).to_string(), name, "{numeral}");
    }
}

#[test]
fn numerals_are_printed_in_the_usual_way() {
    let cases = [
        ("I", "I"),
        ("I5/3", "I"),
        ("V6/3", "V6"),
        ("viio6", "vii°6"),
        ("III+", "III+"),
        ("V6/5", "V6/5"),
        ("I6/4", "I6/4"),
        ("V4/2", "V4/2"),
    ];
    for (written, printed) in cases {
        assert_eq!(read::<Numeral>(written).to_string(), printed, "{written}");
    }
}

#[test]
fn what_is_wrong_with_a_numeral_is_told_apart() {
    let cases = [
        ("", NumeralError::Degree),
        ("VIII", NumeralError::Degree),
        ("iI", NumeralError::Degree),
        ("IIII", NumeralError::Degree),
        ("6", NumeralError::Degree),
        ("VII°", NumeralError::Quality),
        ("iii+", NumeralError::Quality),
        ("vii°°", NumeralError::Quality),
        ("V8", NumeralError::Figures),
        ("V6/", NumeralError::Figures),
        ("V 6", NumeralError::Figures),
    ];
    for (text, error) in cases {
        assert_eq!(text.parse::<Numeral>(), Err(error), "{text}");
    }
}

#[test]
fn a_triad_has_no_third_inversion() {
    let five: Numeral = read("V");
    assert_eq!(five.with_inversion(Inversion::Third), five);
    assert_eq!(five.with_seventh().with_inversion(Inversion::Third), read("V4/2"));
    assert_eq!(five.with_inversion(Inversion::First), read("V6"));
    assert_eq!(Numeral::triad(0, TriadQuality::Major), None);
    assert_eq!(Numeral::triad(8, TriadQuality::Major), None);
}

#[test]
fn members_go_by_spelling() {
    let dominant = chord("V7", "C", "major");
    assert_eq!(dominant.member(read("F")), Some(Member::Seventh));
    assert_eq!(dominant.member(read("E#")), None);
    assert_eq!(dominant.pitch_class(Member::Third), Some(read("B")));
    assert_eq!(chord("V", "C", "major").pitch_class(Member::Seventh), None);
}

proptest! {
    #[test]
    fn numerals_are_read_as_printed(numeral in numeral()) {
        prop_assert_eq!(numeral.to_string().parse(), Ok(numeral));
    }

    #[test]
    fn reading_numerals_never_fails_badly(text in "[IViv°o+0-9/]{0,8}") {
        if let Ok(numeral) = text.parse::<Numeral>() {
            prop_assert_eq!(numeral.to_string().parse(), Ok(numeral));
        }
    }

    #[test]
    fn the_chord_says_what_the_numeral_says(numeral in numeral(), key in key()) {
        let chord = numeral.chord(key);
        prop_assert_eq!(chord.quality, numeral.quality);
        prop_assert_eq!(chord.seventh.is_some(), numeral.seventh);
        prop_assert_eq!(key.degree(chord.root).number, numeral.degree);
        let sevenths = [Quality::Major, Quality::Minor, Quality::Diminished(1)];
        prop_assert!(chord.seventh.is_none_or(|seventh| sevenths.contains(&seventh)));
    }

    #[test]
    fn inversions_do_not_change_the_chord(numeral in numeral(), key in key()) {
        let root_position = numeral.with_inversion(Inversion::Root);
        prop_assert_eq!(root_position.chord(key), numeral.chord(key));
    }

    #[test]
    fn members_and_notes_belong_together(
        numeral in numeral(),
        key in key(),
        note in pitch_class(),
    ) {
        let chord = numeral.chord(key);
        for (member, class) in chord.members() {
            prop_assert_eq!(chord.member(class), Some(member));
        }
        if let Some(member) = chord.member(note) {
            prop_assert_eq!(chord.pitch_class(member), Some(note));
        }
    }
}
