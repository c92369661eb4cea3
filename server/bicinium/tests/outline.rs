//! What a sheet is made of and what belongs together in it.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::folding::{FoldKind, folds};
use bicinium::features::links::{Target, links};
use bicinium::features::selection::around;
use bicinium::features::symbols::{Symbol, of_block};
use bicinium_analysis::{Sheet, Shelf, Snapshot};

const SHEET: &str = "\
use \"songs/quay.bicinium\"
rulebook harbour

// Two comments
// that belong together
cantus quay-song
  key G major
  line | G4 | A4 | G4 |

exercise \"below\"
  species 2
  soprano cantus quay-song | G4 | A4 |
  bass counter | G3 | (D3 E3) F#3 |

  soprano | G4 |
  bass | G3 |
  allow crossing at 2 because \"it sings\"

exercise
  bass | ? |
";

fn snapshot(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

/// Every symbol in one line, those that belong to another one indented.
fn outline(symbols: &[Symbol], indent: usize) -> Vec<String> {
    let line = |symbol: &Symbol| {
        assert!(symbol.range.contains_range(symbol.name_range), "{symbol:?}");
        let detail = symbol.detail.as_deref().unwrap_or("-");
        let own = format!("{:indent$}{} ({detail})", "", symbol.name);
        [vec![own], outline(&symbol.children, indent + 2)].concat()
    };
    symbols.iter().flat_map(line).collect()
}

#[test]
fn everything_that_has_a_name_is_there_in_its_place() {
    let snapshot = snapshot(SHEET);
    let blocks = snapshot.blocks().iter();
    let symbols: Vec<_> =
        blocks.flat_map(|block| of_block(&block.judged.tree, block.number)).collect();
    let expected = [
        "use (\"songs/quay.bicinium\")",
        "rulebook (harbour)",
        "quay-song (3 bars)",
        "  key (G major)",
        "below (species 2)",
        "  species (2)",
        "  soprano (cantus quay-song, bars 1 to 2)",
        "  bass (counter, bars 1 to 2)",
        "  soprano (bar 3)",
        "  bass (bar 3)",
        "  allow crossing (it sings)",
        "exercise 2 (-)",
        "  bass (bar 1)",
    ];
    assert_eq!(outline(&symbols, 0), expected);
}

#[test]
fn blocks_systems_and_comments_can_be_folded() {
    let snapshot = snapshot(SHEET);
    let of = |kind: FoldKind| {
        let blocks = snapshot.blocks().iter();
        let folds = blocks.flat_map(|it| folds(&it.judged).into_iter().map(move |fold| (it, fold)));
        let ends = folds.filter(|(_, fold)| fold.kind == kind).map(|(block, fold)| {
            let text = &SHEET[block.in_sheet(fold.range)];
            let last = text.lines().last().unwrap().trim().to_owned();
            (text.lines().next().unwrap().to_owned(), last)
        });
        ends.collect::<Vec<_>>()
    };
    let pair = |first: &str, last: &str| (first.to_owned(), last.to_owned());
    assert_eq!(of(FoldKind::Comment), [pair("// Two comments", "// that belong together")]);
    assert_eq!(
        of(FoldKind::Block),
        [
            pair("cantus quay-song", "line | G4 | A4 | G4 |"),
            pair("exercise \"below\"", "allow crossing at 2 because \"it sings\""),
            pair("exercise", "bass | ? |"),
        ]
    );
    assert_eq!(
        of(FoldKind::System),
        [
            pair("soprano cantus quay-song | G4 | A4 |", "bass counter | G3 | (D3 E3) F#3 |"),
            pair("soprano | G4 |", "bass | G3 |"),
        ]
    );
}

#[test]
fn a_note_lies_in_its_group_bar_row_system_exercise_and_sheet() {
    let found = around(&snapshot(SHEET), SHEET.find("E3").unwrap());
    let texts: Vec<_> = found.into_iter().map(|range| &SHEET[range]).collect();
    let row = "bass counter | G3 | (D3 E3) F#3 |";
    assert_eq!(texts[..4], ["E3", "(D3 E3)", "(D3 E3) F#3", row]);
    assert!(texts[4].starts_with("soprano cantus") && texts[4].ends_with(row));
    assert!(texts[5].starts_with("exercise \"below\"") && texts[5].ends_with("\"it sings\""));
    assert_eq!(texts[6], SHEET);
    assert_eq!(texts.len(), 7);
}

#[test]
fn every_place_of_any_text_lies_in_stretches_that_hold_each_other() {
    for text in [SHEET, "", "♯", "exercise\n  bass | (((C3 | \u{1D12A}\r\n\n// x"] {
        let snapshot = snapshot(text);
        for offset in 0..=text.len() + 3 {
            let found = around(&snapshot, offset);
            assert_eq!(found.last(), Some(&(0..text.len())));
            for pair in found.windows(2) {
                assert!(pair[1].start <= pair[0].start && pair[0].end <= pair[1].end);
                assert_ne!(pair[0], pair[1]);
            }
        }
    }
}

#[test]
fn what_is_named_leads_to_it() {
    let snapshot = snapshot(SHEET);
    let blocks = snapshot.blocks().iter();
    let found = blocks.flat_map(|it| links(&it.judged).into_iter().map(move |link| (it, link)));
    let found: Vec<_> =
        found.map(|(block, link)| (&SHEET[block.in_sheet(link.range)], link.target)).collect();
    let expected = [
        ("\"songs/quay.bicinium\"", Target::Sheet("songs/quay.bicinium".to_owned())),
        ("harbour", Target::Rulebook("harbour".to_owned())),
        ("crossing", Target::Rule("crossing".to_owned())),
    ];
    assert_eq!(found, expected);
}
