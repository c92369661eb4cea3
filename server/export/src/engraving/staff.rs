//! A staff: where notes and accidentals of a key stand on it, seen from its clef. Zero is the top line,
//! four the lowest. Knows no lengths of notes.

use bicinium_theory::{Accidental, Key, Letter, Pitch};

use super::display::{Group, Ink, Kind, Shape, text_width};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::symbol;
use crate::clef::Clef;

/// The height of a staff.
pub(super) const HEIGHT: f64 = 4.0;
/// The lines of a staff.
const LINES: [f64; 5] = [0.0, 1.0, 2.0, 3.0, 4.0];
/// Sharps and flats in the order of keys.
const SHARPS: [Letter; 7] =
    [Letter::F, Letter::C, Letter::G, Letter::D, Letter::A, Letter::E, Letter::B];

/// How high a pitch stands: half spaces above the lowest line.
pub(super) fn place(clef: Clef, pitch: Pitch) -> i16 {
    2 * (i16::from(clef.line) - 1) + pitch.step() - clef.reference()
}

/// The height of a place, from the top line down.
pub(super) fn height_of(place: i16) -> f64 {
    HEIGHT - f64::from(place) / 2.0
}

/// The five lines.
pub(super) fn lines(left: f64, right: f64) -> Group {
    let half = symbol::STAFF_LINE / 2.0;
    LINES.into_iter().fold(Group::new(Kind::Staff), |group, y| {
        group.with(Shape::Bar(Rect::new(left, y - half, right, y + half)), Ink::Grey)
    })
}

/// The heights of the ledger lines that a note at a place needs.
pub(super) fn ledgers(place: i16) -> impl Iterator<Item = f64> {
    let above = (10..=place).step_by(2);
    let below = (place..=-2).rev().filter(|line| line % 2 == 0);
    above.chain(below).map(height_of)
}

/// The clef with its left edge at an x.
pub(super) fn clef(clef: Clef, x: f64) -> Group {
    let sign = match clef.sign {
        Letter::G => symbol::G_CLEF,
        Letter::F => symbol::F_CLEF,
        _ => symbol::C_CLEF,
    };
    let y = HEIGHT - f64::from(clef.line - 1);
    Group::new(Kind::Clef).with(Shape::sign(sign, Point::new(x, y)), Ink::Black)
}

/// The signature of a key with its left edge at an x.
pub(super) fn key(clef: Clef, key: Key, x: f64) -> Group {
    let mut group = Group::new(Kind::Key);
    let mut x = x;
    for (letter, accidental) in signature(key) {
        let sign = symbol::accidental(accidental);
        let lowest = lowest_place(clef, accidental.value() > 0);
        let y = height_of(place_in_window(clef, letter, lowest));
        group = group.with(Shape::sign(sign, Point::new(x, y)), Ink::Black);
        x += text_width(Font::Music, HEIGHT, sign.encode_utf8(&mut [0; 4])) + 0.08;
    }
    group
}

/// The letters that a key alters, in the order in which they are written.
fn signature(key: Key) -> Vec<(Letter, Accidental)> {
    let own = |letter: Letter| key.scale().into_iter().find(|note| note.letter == letter);
    let altered = |letter: Letter| {
        let accidental = own(letter)?.accidental;
        (accidental.value() != 0).then_some((letter, accidental))
    };
    let sharps = SHARPS.into_iter().filter_map(altered);
    if key.signature() < 0 {
        SHARPS.into_iter().rev().filter_map(altered).collect()
    } else {
        sharps.collect()
    }
}

/// The lowest place that an accidental of a key may have; the seven from there are those in use with
/// the clef (common practice).
fn lowest_place(clef: Clef, is_sharp: bool) -> i16 {
    match (clef.sign, clef.line, is_sharp) {
        (Letter::G, _, true) | (Letter::C, 1, true) => 3,
        (Letter::C, 2.., true) | (Letter::C, 2 | 4, false) => 2,
        (Letter::G, _, false) | (Letter::F, _, true) | (Letter::F, 3, false) => 1,
        (Letter::F, _, false) => -1,
        _ => 0,
    }
}

fn place_in_window(clef: Clef, letter: Letter, lowest: i16) -> i16 {
    let line = 2 * (i16::from(clef.line) - 1);
    let at_zero = line + letter.index() - clef.reference();
    lowest + (at_zero - lowest).rem_euclid(7)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::clef::Clefs;
    use bicinium_theory::{Mode, PitchClass, Register};

    fn places(register: Register, clefs: Clefs, tonic: Letter, mode: Mode, by: i8) -> Vec<f64> {
        let tonic = PitchClass::new(tonic, Accidental::new(by).expect("an accidental"));
        let key_of = Key::new(tonic, mode).expect("a key");
        let group = key(Clef::of(register, clefs), key_of, 0.0);
        let heights = group.shapes.iter().map(|inked| match &inked.shape {
            Shape::Signs { at, .. } => at.y,
            _ => f64::NAN,
        });
        heights.collect()
    }

    #[test]
    fn keys_stand_where_they_are_always_written() {
        use Register::{Bass, Soprano, Tenor};
        let sharps = |register| places(register, Clefs::Modern, Letter::C, Mode::Major, 1);
        let flats = |register| places(register, Clefs::Modern, Letter::C, Mode::Major, -1);
        // F5 C5 G5 D5 A4 E5 B4 in treble; the same a third lower in bass.
        assert_eq!(sharps(Soprano), [0.0, 1.5, -0.5, 1.0, 2.5, 0.5, 2.0]);
        assert_eq!(sharps(Bass), [1.0, 2.5, 0.5, 2.0, 3.5, 1.5, 3.0]);
        assert_eq!(flats(Soprano), [2.0, 0.5, 2.5, 1.0, 3.0, 1.5, 3.5]);
        assert_eq!(flats(Bass), [3.0, 1.5, 3.5, 2.0, 4.0, 2.5, 4.5]);
        // The tenor clef begins its sharps low.
        assert_eq!(sharps(Tenor), [3.0, 1.0, 2.5, 0.5, 2.0, 0.0, 1.5]);
    }

    #[test]
    fn middle_c_stands_on_the_line_of_its_clef() {
        let middle = Pitch::new(Letter::C, Accidental::NATURAL, 4).expect("C4");
        let line = |register, clefs| place(Clef::of(register, clefs), middle);
        assert_eq!(line(Register::Soprano, Clefs::Modern), -2);
        assert_eq!(line(Register::Soprano, Clefs::Vocal), 0);
        assert_eq!(line(Register::Mezzo, Clefs::Vocal), 2);
        assert_eq!(line(Register::Alto, Clefs::Modern), 4);
        assert_eq!(line(Register::Tenor, Clefs::Modern), 6);
        assert_eq!(line(Register::Baritone, Clefs::Vocal), 8);
        assert_eq!(line(Register::Bass, Clefs::Modern), 10);
    }
}
