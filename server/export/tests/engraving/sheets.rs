//! The sheets that are engraved, and what all tests do with them.

use std::sync::Arc;

use bicinium_analysis::{Sheet, Snapshot};
use bicinium_export::engraving::display::Page;
use bicinium_export::engraving::{self, Clefs, Paper, Style};
use bicinium_export::{Extra, Piece};

/// Everything that can be shown beside the notes.
pub const ALL: [Extra; 3] = [Extra::Figures, Extra::Harmonies, Extra::Findings];

/// Everything that the engraving knows, in one sheet.
pub const MOTLEY: &str = "\
key Eb minor
meter 3/2
by \"A. Pupil\"

exercise \"Ties, holes <&> \u{1} blanks\"
  species 5
  mezzo    | Eb5 ? rest | - F#5 Gb5 | F5 - (E5 Ebb5) |        | Gb5 - (- F5) | Eb5 |
  baritone | Eb3 - -    | Bbb2 - -  |                | D3 - - | rest         | ?   |

exercise
  key F# minor
  meter 4/4
  soprano | (C#6 B5 A5 G#5) (F#5 - - E#5) F#5 (G#5 (A5 Bx5)) | A5 - - (G#5 F#5) | - Cx4 A3 (F#3 G3 E3 D3) | F#5 |
  bass    | F#2 | (E2 D2 C#2 B1) E4 D4 C4 | Fb3 F#3 Fbb3 Fx3 | F#2 |

exercise \"Nothing\"

exercise \"One voice, and beats that no note divides\"
  meter 5/8
  alto | A4 - - - B4 | C5 D5 E5 F5 - | (C4 (D4 (E4 F4))) ? - (? ?) C3 |
";

/// A sheet, judged.
pub fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::default()).snapshot()
}

/// The exercises of a sheet.
pub fn pieces(sheet: &Snapshot) -> Vec<Piece<'_>> {
    let pieces = sheet.exercises().map(|(number, block, exercise)| Piece {
        number,
        exercise,
        findings: &block.judged.findings,
    });
    pieces.collect()
}

/// The pages of a sheet with everything shown.
pub fn engraved(text: &str, paper: Paper, clefs: Clefs) -> Vec<Page> {
    let sheet = judged(text);
    engraving::pages(
        &pieces(&sheet),
        &Style { paper, extras: ALL.to_vec(), clefs, ..Style::default() },
    )
}

/// All sheets that there are, with their names.
pub fn all() -> Vec<(String, String)> {
    let kept = bicinium_tests::sheets::all().into_iter().map(|sheet| (sheet.place, sheet.text));
    kept.chain([("motley".to_owned(), MOTLEY.to_owned())]).collect()
}
