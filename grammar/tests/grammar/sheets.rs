//! Texts to test with: a sheet as it is written, and generators of good and broken ones.

use std::ops::Range;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};

/// A sheet with every construct of the notation, none of it wrong.
pub(crate) const SHEET: &str = "\
// Harbour School, sheet 2
use \"songs/quay.bicinium\"
rulebook tonal
meter 2/2
by \"A pupil\"

cantus quay-song
  key G major
  line | G4 | C5 | B4 | A4 |
  line | D5 | C5 | A4 | G4 |

exercise \"No. 3: second species, below\"
  key G major
  species 2

  soprano cantus quay-song | G4      | C5    | B4    | A4
  harmony                  | I       | IV    | ?     |
  bass    counter          | rest G3 | A3 E3 | G3 ?  | // still open

  soprano | D5 | C5 | A4 (G4 F♯4) | G4 |
  harmony | | vi | viio6 - | I |
  bass | | E3 ? | - F##3 | G3 |

  allow weak-beat-fifths at 3.2 to 4 because \"the lower note only passes\"
";

/// A sheet that is broken in many places.
pub(crate) const BROKEN: &str = "\
soprano | C4 |
metre 4 / 4
cantus \"two words\"
  line | c4 | H4 (D4 | E4) | () |
excercise
exercise “Curly”
  key h moll
  sopran cantus | C4, | Bb | r – | C44 |
  | D4 |
  bass counter C3 | J4 D4E4
  harmny | V65 | rest |
  allow at 3
  allow rule at 0 because so
  ? what
";

const FRAGMENTS: &[&str] = &[
    " ",
    " ",
    " ",
    "  ",
    "\t",
    "\n",
    "\n",
    "\n  ",
    "\r\n",
    "\r",
    "\u{a0}",
    "\u{2028}",
    "\u{feff}",
    "|",
    "|",
    " | ",
    "(",
    ")",
    "-",
    "?",
    "\"",
    "/",
    "//",
    "// note",
    "°",
    "♯",
    "♭",
    "𝄪",
    "𝄫",
    "♮",
    "C4",
    "Bb",
    "Bb3",
    "F#3",
    "Fx5",
    "G##2",
    "c4",
    "H4",
    "C10",
    "D-1",
    "E4,",
    "rest",
    "Rest",
    "r",
    "V6/5",
    "viio6",
    "IV",
    "V65",
    "bII",
    "2/2",
    "3.2",
    "3",
    "0",
    "99999999999",
    "\"text\"",
    "“x”",
    "use",
    "rulebook",
    "meter",
    "key",
    "species",
    "by",
    "cantus",
    "exercise",
    "Exercise",
    "line",
    "soprano",
    "mezzo",
    "alto",
    "tenor",
    "baritone",
    "bass",
    "harmony",
    "allow",
    "at",
    "to",
    "because",
    "counter",
    "major",
    "Dorian",
    "sopran",
    "tonal",
    "quay-song",
    "é",
    "\0",
    "日本",
    "\nexercise",
    "\ncantus x",
    "\n  soprano | ",
    "\n  bass counter | ",
    "\n  harmony | ",
    "\n  line | ",
    " | C4 D4 | ",
    " | (E4 F4) - | ",
];

/// Any text at all: characters, broken bytes, pieces of sheets, and sheets with something changed.
pub(crate) fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        1 => any::<String>(),
        1 => vec(any::<u8>(), 0..200).prop_map(|bytes| String::from_utf8_lossy(&bytes).into_owned()),
        4 => soup(),
        4 => changed_sheet(),
    ]
}

/// One replacement in a text whose length is not yet known.
#[derive(Clone, Debug)]
pub(crate) struct Change {
    start: Index,
    length: usize,
    /// What is put in.
    pub(crate) insert: String,
}

impl Change {
    /// The bytes of `text` that are replaced; they may cut through a character.
    pub(crate) fn range(&self, text: &str) -> Range<usize> {
        let start = self.start.index(text.len() + 1);
        start..(start + self.length).min(text.len())
    }
}

/// A replacement as a writer makes it: mostly small.
pub(crate) fn change() -> impl Strategy<Value = Change> {
    let length = prop_oneof![3 => Just(0), 3 => 1..4_usize, 1 => 4..300_usize];
    let insert = prop_oneof![
        1 => Just(String::new()),
        3 => select(FRAGMENTS).prop_map(str::to_owned),
        1 => soup(),
    ];
    (any::<Index>(), length, insert).prop_map(|(start, length, insert)| Change {
        start,
        length,
        insert,
    })
}

fn soup() -> impl Strategy<Value = String> {
    vec(select(FRAGMENTS), 0..60).prop_map(|fragments| fragments.concat())
}

fn changed_sheet() -> impl Strategy<Value = String> {
    (select(&[SHEET, BROKEN][..]), vec(change(), 0..4)).prop_map(|(sheet, changes)| {
        changes.iter().fold(sheet.to_owned(), |text, change| replaced(&text, change))
    })
}

fn replaced(text: &str, change: &Change) -> String {
    let Range { start, end } = change.range(text);
    let mut bytes = text.as_bytes().to_vec();
    bytes.splice(start..end, change.insert.bytes());
    String::from_utf8_lossy(&bytes).into_owned()
}
