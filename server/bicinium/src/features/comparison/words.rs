//! A version by itself in words, bar by bar, for programs that compare texts. Only what stands in the sheet
//! is told, so that it does not matter where the version lies. Must not know any file.

use bicinium_analysis::score::Licence;
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_export::listing::listing;
use bicinium_export::{Extra, Piece};

/// All exercises and all definitions of a sheet in words.
pub fn in_words(snapshot: &Snapshot) -> String {
    let defined = snapshot.blocks().iter().filter_map(definition);
    let exercises =
        snapshot.exercises().map(|(number, block, known)| exercise(number, block, known));
    defined.chain(exercises).collect::<Vec<_>>().join("\n")
}

fn definition(block: &Placed) -> Option<String> {
    let defined = block.judged.defined.as_ref()?;
    let bars = defined.notes.iter().zip(1..).map(|(note, bar)| format!("  bar {bar}: {note}\n"));
    Some(format!("Cantus {}\n{}", defined.name, bars.collect::<String>()))
}

fn exercise(number: usize, block: &Placed, exercise: &Exercise) -> String {
    let words = listing(&Piece { number, exercise, findings: &[] }, &[Extra::Figures]);
    let text = block.judged.tree.text();
    let licence = |licence: &Licence| {
        let range = usize::from(licence.range.start())..usize::from(licence.range.end());
        let written = text.get(range).unwrap_or_default();
        format!("\nLicence: {}\n", written.split_whitespace().collect::<Vec<_>>().join(" "))
    };
    words + &exercise.score.licences.iter().map(licence).collect::<String>()
}
