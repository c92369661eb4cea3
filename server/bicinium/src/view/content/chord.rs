//! A harmony as it can be sounded under a bar. Knows no bar.

use bicinium_theory::{Key, Numeral};

/// The lowest note that a chord may have: C3, as a MIDI number.
const LOWEST: i16 = 48;

/// The MIDI numbers of a chord in close position, from what lies lowest up.
pub(super) fn close(numeral: Numeral, key: Key) -> Vec<i16> {
    let chord = numeral.chord(key);
    let mut members: Vec<_> = chord.members().collect();
    let bass = members.iter().position(|(member, _)| *member == numeral.inversion.lowest());
    members.rotate_left(bass.unwrap_or(0));
    let mut from = LOWEST;
    let sounding = members.into_iter().map(|(_, class)| {
        let midi = from + (class.semitone() - from).rem_euclid(12);
        from = midi + 1;
        midi
    });
    sounding.collect()
}

#[cfg(test)]
mod tests {
    use bicinium_theory::{Accidental, Letter, Mode, PitchClass};

    use super::{Key, close};

    #[test]
    fn a_chord_stands_on_what_its_figures_say() {
        let natural = |letter| PitchClass::new(letter, Accidental::NATURAL);
        let key = Key::new(natural(Letter::G), Mode::Major).unwrap();
        let chords =
            [("I", [55, 59, 62].as_slice()), ("IV6", &[52, 55, 60]), ("V6/5", &[54, 57, 60, 62])];
        for (numeral, midi) in chords {
            assert_eq!(close(numeral.parse().unwrap(), key), midi, "{numeral}");
        }
    }
}
