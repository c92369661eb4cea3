//! Two voices that go on as long as one likes: some bars again and again, in which the same is wrong each
//! time, or phrases in an order that never repeats itself, in which nothing is. It must not know how
//! they are written down.

/// How an exercise goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Flow {
    /// The same bars again and again.
    Rough,
    /// Phrases in an order in which no group of them comes twice in a row.
    Clean,
}

/// The notes of the upper and the lower voice, bar by bar.
type Phrase<const BARS: usize> = [[&'static str; BARS]; 2];

/// In themselves nothing is wrong with them, but where they begin again there is.
const BARS: Phrase<11> = [
    ["A4", "A4", "G4", "A4", "B4", "C5", "C5", "B4", "A4", "C#5", "D5"],
    ["D4", "F4", "E4", "D4", "G4", "F4", "A4", "G4", "F4", "E4", "D4"],
];

/// Any of them may follow any other.
const PHRASES: [Phrase<7>; 3] = [
    [["D5", "B4", "B4", "D5", "D5", "E5", "E5"], ["F4", "G4", "G4", "G4", "G4", "E4", "A4"]],
    [["D5", "C5", "C5", "B4", "C5", "E5", "D5"], ["F4", "A4", "A4", "D4", "A4", "E4", "B4"]],
    [["E5", "B4", "C5", "E5", "B4", "B4", "C5"], ["E4", "E4", "A4", "G4", "G4", "D4", "E4"]],
];

impl Flow {
    /// So many bars of the upper and the lower voice.
    pub(crate) fn voices(self, bars: usize) -> [Vec<&'static str>; 2] {
        [0, 1].map(|voice| match self {
            Self::Rough => BARS[voice].into_iter().cycle().take(bars).collect(),
            Self::Clean => order().flat_map(|phrase| PHRASES[phrase][voice]).take(bars).collect(),
        })
    }

    /// What it is called in the table.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Rough => "rough",
            Self::Clean => "clean",
        }
    }

    /// A note that breaks a rule wherever it stands in the upper voice.
    pub(crate) fn wrong(self) -> &'static str {
        match self {
            Self::Rough => "F4",
            Self::Clean => "C#5",
        }
    }
}

/// Numbers from 0 to 2 in which no group comes twice in a row: how many numbers between two with an even
/// count of ones, written in binary, have an odd one (after Thue; from memory).
fn order() -> impl Iterator<Item = usize> {
    let even = (0_usize..).filter(|number| number.count_ones() % 2 == 0);
    even.clone().zip(even.skip(1)).map(|(one, next)| next - one - 1)
}
