//! The exports of every sheet that there is, read by programs of another make: valid by the schema of
//! the W3C, the same notes at the same instants, engraved without a complaint.

#![allow(clippy::unwrap_used)]

use std::fmt::Write;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

use bicinium_analysis::Sheet;
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_export::{Extra, midi, musicxml};
use bicinium_tests::{sheets, tool};

const ALL: [Extra; 3] = [Extra::Figures, Extra::Harmonies, Extra::Findings];

/// The notes of a score: voice, onset, length, pitch, MIDI number.
fn table(score: &Score) -> String {
    let mut table = String::new();
    for (number, voice) in VoiceId::BOTH.into_iter().enumerate() {
        for event in &score.lines[voice].events {
            let Some(pitch) = event.pitch() else { continue };
            let (onset, length) = (event.onset.ticks(), event.duration.ticks());
            writeln!(table, "{number}\t{onset}\t{length}\t{pitch}\t{}", pitch.midi()).unwrap();
        }
    }
    table
}

/// Writes every exercise of a sheet into a folder, and counts them.
fn export(text: &str, name: &str, folder: &Path) -> usize {
    let sheet = Sheet::new(text, Arc::default()).snapshot();
    for (number, block, exercise) in sheet.exercises() {
        let path = |end: &str| folder.join(format!("{name}-{number:03}.{end}"));
        let mut score = Vec::new();
        musicxml::write(exercise, &block.judged.findings, &ALL, &mut score).unwrap();
        std::fs::write(path("musicxml"), score).unwrap();
        std::fs::write(path("mid"), midi::file(exercise, 60).unwrap()).unwrap();
        std::fs::write(path("tsv"), table(&exercise.score)).unwrap();
    }
    sheet.exercises().count()
}

const ASKING: &str = "import mido, music21, musicxml, partitura, verovio, xmlschema; print('yes')";

const BARE: &str = "\
key Eb minor
meter 3/2

exercise \"Ties <&> \u{1} signs\"
  by \"A. Nonymous\"
  mezzo   | Eb5 ? rest | - F#5 Gb5 | F5 - (E5 Ebb5) |        |
  baritone| Eb3 - -    | Bbb2 - -  |                | D3 - - |

exercise
";

#[test]
fn other_programs_read_the_same_notes() {
    let asking = ["-c", ASKING];
    let python = tool::that_says("python3", &asking, |said| said.trim() == "yes");
    let Some(python) = tool::or_skip(python, "python3 with music21, partitura, verovio and others")
    else {
        return;
    };
    let folder = tempfile::tempdir().unwrap();
    let bare = export(BARE, "bare", folder.path());
    assert_eq!(bare, 2);
    let kept = sheets::all().into_iter().enumerate();
    let count: usize = kept
        .map(|(number, sheet)| {
            let stem = Path::new(&sheet.place).file_stem().unwrap().to_string_lossy().into_owned();
            export(&sheet.text, &format!("{number:03}-{stem}"), folder.path())
        })
        .sum();
    assert!(count > 400, "only {count} exercises");
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/foreign.py");
    let output = Command::new(python).arg(script).arg(folder.path()).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    assert_eq!(said.trim(), format!("{} exercises read", bare + count));
}
