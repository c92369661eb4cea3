//! Compares the crate with every row of the tables in `tests/oracles/theory`, which an independent
//! library wrote. Where the two define a thing differently on purpose, the difference is written
//! here, and told in the README beside the tables.

use std::str::FromStr;

use bicinium_theory::{
    Accidental, Chord, Interval, Key, Motion, Numeral, PerfectClass, Pitch, PitchClass,
    TriadQuality,
};

/// Checks every row of a table after its line of origin and its line of column names; `N` is the
/// number of columns.
fn each_row<const N: usize>(table: &str, at_least: usize, check: impl Fn([&str; N])) {
    let path = format!("{}/../../tests/oracles/theory/{table}.tsv", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).expect("the tables belong to the repository");
    let rows: Vec<&str> = text.lines().skip(2).collect();
    assert!(rows.len() >= at_least, "{table} has only {} rows", rows.len());
    for row in rows {
        let columns: Vec<&str> = row.split('\t').collect();
        check(columns.try_into().expect("as many columns as the table's heading names"));
    }
}

fn read<T: FromStr>(text: &str) -> T {
    text.parse().unwrap_or_else(|_| panic!("{text} can be read"))
}

fn key(tonic: &str, mode: &str) -> Key {
    Key::new(read(tonic), read(mode)).expect("the key can be written")
}

#[test]
fn pitches_have_the_same_number_place_and_frequency() {
    each_row("pitches", 350, |[name, midi, step, hertz]| {
        let pitch: Pitch = read(name);
        assert_eq!(pitch.to_string(), name);
        assert_eq!(pitch.midi(), read(midi), "{name}");
        assert_eq!(pitch.step(), read(step), "{name}");
        let expected: f64 = read(hertz);
        let error = (pitch.frequency(440.0) / expected - 1.0).abs();
        assert!(error < 1e-6, "{name}: {} against {expected}", pitch.frequency(440.0));
    });
}

#[test]
fn pitches_are_ordered_and_named_back() {
    each_row("pitches", 350, |[name, _, step, _]| {
        let pitch: Pitch = read(name);
        assert_eq!(Pitch::from_step(read(step), pitch.accidental()), Some(pitch));
        let plain = Pitch::from_step(read(step), Accidental::NATURAL).expect("a white key");
        assert_eq!(pitch.cmp(&plain), pitch.accidental().cmp(&Accidental::NATURAL), "{name}");
    });
}

#[test]
fn intervals_have_the_same_names() {
    each_row("intervals", 3800, |[from, to, name, simple, inversion, semitones]| {
        let interval = Interval::between(read(from), read(to));
        let shown = format!("{from} to {to}");
        assert_eq!(interval.semitones(), read(semitones), "{shown}");
        assert_eq!(interval.to_string(), upward(name), "{shown}");
        assert_eq!(interval.simple().to_string(), upward(simple), "{shown}");
        if !inverts_past_the_octave(name) {
            assert_eq!(interval.invert().to_string(), inversion, "{shown}");
        }
        assert_eq!(read::<Interval>(&upward(name)), interval.abs(), "{shown}");
    });
}

/// The oracle names a falling chromatic semitone a diminished unison. We name intervals as if they
/// rose, so that the same two notes have one name in either order, and there is no interval smaller
/// than a perfect unison.
fn upward(name: &str) -> String {
    match split_name(name) {
        (quality, "1") if quality.starts_with('d') => format!("{}1", quality.replace('d', "A")),
        _ => name.into(),
    }
}

/// Augmented octaves leave less than nothing to the octave: the oracle then finds a diminished
/// unison, we take the octave off first. The same goes for the unisons that it calls diminished.
fn inverts_past_the_octave(name: &str) -> bool {
    match split_name(name) {
        (quality, "8" | "15" | "22") => quality.starts_with('A'),
        (quality, "1") => quality.starts_with('d'),
        _ => false,
    }
}

/// The letters and the number of a short name.
fn split_name(name: &str) -> (&str, &str) {
    name.split_at(name.find(|c: char| c.is_ascii_digit()).expect("a number"))
}

#[test]
fn intervals_have_the_same_words() {
    each_row("interval_words", 160, |[name, words]| {
        if upward(name) != name {
            return;
        }
        let interval: Interval = read(name);
        let (quality, number) = words.split_once(' ').expect("quality and number");
        let quality = quality.to_lowercase().replace('-', " ");
        match number_in_words(number) {
            Some(number) => assert_eq!(interval.words(), format!("{quality} {number}")),
            None => assert!(interval.words().starts_with(&quality), "{name}"),
        }
    });
}

/// A multiple octave is named by its number like any other interval. From 23 on the oracle has
/// figures where we go on in words, and there is nothing to compare.
fn number_in_words(number: &str) -> Option<String> {
    match number {
        "Double-octave" => Some("fifteenth".into()),
        "Triple-octave" => Some("twenty-second".into()),
        _ if number.starts_with(|c: char| c.is_ascii_digit()) => None,
        word => Some(word.to_lowercase()),
    }
}

#[test]
fn consonance_follows_from_the_names() {
    each_row("intervals", 3800, |[from, to, _, simple, _, _]| {
        let interval = Interval::between(read(from), read(to));
        let perfect_class = match simple {
            "P1" | "P8" => Some(PerfectClass::Octave),
            "P5" => Some(PerfectClass::Fifth),
            _ => None,
        };
        assert_eq!(interval.perfect_class(), perfect_class, "{from} to {to}");
        let imperfect = matches!(simple, "m3" | "M3" | "m6" | "M6");
        assert_eq!(interval.is_imperfect(), imperfect, "{from} to {to}");
        assert_eq!(interval.is_dissonant(), !imperfect && perfect_class.is_none());
    });
}

#[test]
fn degrees_and_signatures_are_the_same() {
    each_row("degrees", 4700, |[tonic, mode, signature, note, number, alteration]| {
        let key = key(tonic, mode);
        let degree = key.degree(read(note));
        let found = (degree.number, degree.alteration);
        assert_eq!(found, (read(number), read(alteration)), "{note} in {key}");
        assert_eq!(key.contains(read(note)), alteration == "0", "{note} in {key}");
        assert_eq!(key.signature(), read(signature), "{key}");
    });
}

#[test]
fn numerals_stand_for_the_same_chords() {
    each_row("chords", 1700, |[home, written, notes]| {
        let (tonic, mode) = home.split_once(' ').expect("tonic and mode");
        let numeral: Numeral = read(written);
        if takes_the_raised_sixth(numeral, mode) {
            return;
        }
        let mut ours = from_the_lowest(numeral.chord(key(tonic, mode)), numeral);
        let mut theirs: Vec<PitchClass> = notes.split(' ').map(read).collect();
        if takes_a_foreign_seventh(numeral, mode) {
            let seventh = 3 - numeral.inversion as usize;
            ours.remove(seventh);
            theirs.remove(seventh);
        }
        assert_eq!(ours, theirs, "{written} in {home}");
    });
}

/// The oracle puts any small vi in minor on the raised sixth; for us only the diminished one stands
/// there.
fn takes_the_raised_sixth(numeral: Numeral, mode: &str) -> bool {
    (mode, numeral.degree, numeral.quality) == ("minor", 6, TriadQuality::Minor)
}

/// On chords that are foreign to the key the oracle borrows the seventh too, and a diminished triad
/// always gets a diminished seventh. Ours is the key's own: the figures add a note, they do not
/// alter it.
fn takes_a_foreign_seventh(numeral: Numeral, mode: &str) -> bool {
    numeral.seventh
        && matches!(
            (mode, numeral.degree, numeral.quality),
            ("major", 1 | 4, TriadQuality::Minor)
                | ("major", 7, TriadQuality::Diminished)
                | (_, 2, TriadQuality::Diminished)
        )
}

/// The notes of a chord in its inversion, upward from the lowest.
fn from_the_lowest(chord: Chord, numeral: Numeral) -> Vec<PitchClass> {
    let mut notes: Vec<PitchClass> = chord.members().map(|(_, note)| note).collect();
    let lowest = chord.pitch_class(numeral.inversion.lowest());
    let turn = notes.iter().position(|note| Some(*note) == lowest).expect("the lowest note");
    notes.rotate_left(turn);
    notes
}

#[test]
fn motions_are_of_the_same_kind() {
    each_row("motions", 4600, |[upper, upper_next, lower, lower_next, motion, ..]: [&str; 10]| {
        let upper = (read(upper), read(upper_next));
        let lower = (read(lower), read(lower_next));
        if [upper, lower].into_iter().any(is_enharmonic_move) {
            return;
        }
        let name = Motion::between(upper, lower).name();
        let expected = if motion == "no motion" { "static" } else { motion };
        assert_eq!(name, expected, "{upper:?} {lower:?}");
    });
}

/// Whether the staff and the ear disagree about the way a voice goes, as from C sharp to D flat or
/// from B sharp to C flat. The oracle follows neither alone; we follow the staff.
fn is_enharmonic_move((from, to): (Pitch, Pitch)) -> bool {
    let interval = Interval::between(from, to);
    interval.steps() != 0 && interval.steps().signum() != interval.semitones().signum()
}

/// What the oracle calls parallel perfects are two intervals of one perfect class between voices
/// that both move.
#[test]
fn parallel_perfects_keep_their_perfect_class() {
    each_row("motions", 4600, |row: [&str; 10]| {
        let [upper, upper_next, lower, lower_next, motion, fifth, octave, unison, ..] = row;
        let class = |upper, lower| Interval::between(read(lower), read(upper)).perfect_class();
        let first = class(upper, lower);
        let kept = first.filter(|_| first == class(upper_next, lower_next));
        let both_move = !matches!(motion, "oblique" | "no motion");
        let expected = kept.filter(|_| both_move);
        let found = match (fifth, octave, unison) {
            ("1", ..) => Some(PerfectClass::Fifth),
            (_, "1", _) | (.., "1") => Some(PerfectClass::Octave),
            _ => None,
        };
        assert_eq!(found, expected, "{row:?}");
    });
}
