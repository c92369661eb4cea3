//! Each refactoring on a sheet, with the whole result.

use bicinium::features::refactorings::Subject;

use super::bench::{applied, at, judged, standing};

/// Does at the mark `$` what has this title, and compares the text.
fn check(marked: &str, subject: Subject, title: &str, expected: &str) {
    let offset = marked.find('$').unwrap();
    let text = marked.replacen('$', "", 1);
    let found = at(&text, offset);
    let titles: Vec<_> = found.iter().map(|it| it.title.clone()).collect();
    let meant = found.iter().find(|it| it.title == title);
    let meant = meant.unwrap_or_else(|| panic!("{title} is not among {titles:#?}"));
    assert_eq!(meant.subject, subject);
    assert_eq!(applied(&text, &meant.edits), expected);
}

fn titles(marked: &str, subject: Subject) -> Vec<String> {
    let offset = marked.find('$').unwrap();
    let found = at(&marked.replacen('$', "", 1), offset);
    found.into_iter().filter(|it| it.subject == subject).map(|it| it.title).collect()
}

#[test]
fn an_exercise_goes_to_another_key() {
    check(
        "// Quay School
exer$cise \"No. 1\" // by hand
  key C major
  species 1
  soprano cantus  | C5 | D5 | C5 | // the song
  harmony         | I  | V6 | I  |
  tenor   counter | C4 | B3 | C4 |
",
        Subject::Transposition,
        "Transpose to G major, a fourth down",
        "// Quay School
exercise \"No. 1\" // by hand
  key G major
  species 1
  soprano cantus  | G4 | A4 | G4 | // the song
  harmony         | I  | V6 | I  |
  tenor   counter | G3 | F#3 | G3 |
",
    );
}

#[test]
fn a_key_that_was_taken_from_the_sheet_is_said() {
    check(
        "key C major\r
exercise // mine\r
  soprano$ | C5 (D5 - E5 C5) | C5 |\r
  tenor    | C4              | ?  |\r
",
        Subject::Transposition,
        "Transpose to D major, a step up",
        "key C major\r
exercise // mine\r
  key D major\r
  soprano | D5 (E5 - F#5 D5) | D5 |\r
  tenor    | D4              | ?  |\r
",
    );
}

#[test]
fn a_cantus_goes_to_another_key_or_octave() {
    let sheet = "cantus$ quay-song // old\n  key D dorian\n  line | D4 | F4 | E4 | D4 |\n";
    check(
        sheet,
        Subject::Transposition,
        "Transpose to A dorian, a fourth down",
        "cantus quay-song // old\n  key A dorian\n  line | A3 | C4 | B3 | A3 |\n",
    );
    check(
        sheet,
        Subject::Transposition,
        "Transpose an octave down",
        "cantus quay-song // old\n  key D dorian\n  line | D3 | F3 | E3 | D3 |\n",
    );
}

#[test]
fn what_cannot_be_sung_there_is_not_offered() {
    let sheet = "exercise$\n  soprano | C5 | G5 | C5 |\n  bass | C4 | ? | C4 |\n";
    let titles = titles(sheet, Subject::Transposition);
    assert!(!titles.contains(&"Transpose an octave up".to_owned()), "{titles:?}");
    let broken = "exercise$\n  soprano | C5 | c5 | C5 |\n  tenor | C4 | ? | C4 |\n";
    assert_eq!(self::titles(broken, Subject::Transposition), Vec::<String>::new());
}

#[test]
fn the_voices_are_exchanged() {
    check(
        "exercise
  sop$rano cantus  | E5 | D5 | C5 | // given
  tenor   counter | C4 | G4 (F4 E4) | - |
",
        Subject::Exchange,
        "Exchange the voices at two octaves: the fifth in bar 2 becomes a fourth",
        "exercise
  soprano counter  | C5 | G5 (F5 E5) | - | // given
  tenor   cantus | E4 | D4 | C4 |
",
    );
}

#[test]
fn the_harmonies_that_are_written_keep_the_voices_where_they_are() {
    let sheet = "exercise$\n  soprano | E5 |\n  harmony | I |\n  tenor | C4 |\n";
    assert_eq!(titles(sheet, Subject::Exchange), Vec::<String>::new());
}

const SONG: &str = "cantus quay-song\n  key G major\n  line | G4 | C5 | B4 | G4 |\n\n";

#[test]
fn a_cantus_that_is_only_named_is_written_in() {
    for (row, written) in [
        ("soprano$ cantus quay-song // x", "soprano cantus quay-song | G4 | C5 | B4 | G4 | // x"),
        ("soprano$ cantus quay-song | | | | |", "soprano cantus quay-song | G4 | C5 | B4 | G4 |"),
        ("soprano$ cantus quay-song | | F5 |", "soprano cantus quay-song | C5 | F5 | E5 | C5 |"),
        ("bass$ cantus quay-song | |", "bass cantus quay-song | G3 | C4 | B3 | G3 |"),
    ] {
        let sheet = |row: &str| format!("{SONG}exercise\n  key G major\n  {row}\n");
        let written = written.replace(" // x", "");
        let (title, comment) =
            ("Write in the cantus quay-song", if row.contains("//") { " // x" } else { "" });
        check(&sheet(row), Subject::Cantus, title, &sheet(&format!("{written}{comment}")));
    }
    let sheet = format!("{SONG}exercise$\n  soprano cantus quay-song | G4 | C5 | B4 | G4 |\n");
    assert_eq!(titles(&sheet, Subject::Cantus), Vec::<String>::new());
}

#[test]
fn the_next_system_has_the_same_rows() {
    check(
        "exercise$
  key C major
  soprano cantus  | C5 | D5 |
  harmony         | I  | V6 |
  tenor   counter | C4 | B3 | // so far

// to be gone on with
",
        Subject::System,
        "Lay out the next system, with 2 bars",
        "exercise
  key C major
  soprano cantus  | C5 | D5 |
  harmony         | I  | V6 |
  tenor   counter | C4 | B3 | // so far

  soprano | | |
  harmony | | |
  tenor   | | |

// to be gone on with
",
    );
}

#[test]
fn an_exercise_that_has_come_to_its_close_does_not_go_on() {
    let sheet = "exercise$\n  key G major\n  species 2\n  soprano cantus | G4 | A4 | B4 | A4 | G4 |\n  \
                 bass counter | rest G2 | F#2 D3 | G2 B2 | D3 F#3 | G3 |\n";
    let open = sheet.replace(" | G4 |\n", " | |\n").replace(" | G3 |\n", " | |\n");
    assert_eq!(titles(&open, Subject::System).len(), 1);
    assert_eq!(titles(sheet, Subject::System).len(), 0);
}

#[test]
fn the_next_system_goes_on_with_the_cantus() {
    check(
        &format!(
            "{SONG}exercise$\n  key G major\n  soprano cantus quay-song | G4 | C5 | B4 |\n  tenor | G3 | A3 | |\n"
        ),
        Subject::System,
        "Lay out the next system, with 1 bar",
        &format!(
            "{SONG}exercise\n  key G major\n  soprano cantus quay-song | G4 | C5 | B4 |\n  tenor | G3 | A3 | |\n\n  soprano | G4 |\n  tenor   | |\n"
        ),
    );
}

#[test]
fn a_note_gets_the_name_that_it_has_here() {
    check(
        "exercise\n  key D minor\n  species 1\n  soprano cantus | D5 | E5 | D5 |\n  tenor counter | D4 | Db4$ | D4 |\n",
        Subject::Spelling,
        "Write Db4 as C#4 in bar 2, the same key by its name here",
        "exercise\n  key D minor\n  species 1\n  soprano cantus | D5 | E5 | D5 |\n  tenor counter | D4 | C#4 | D4 |\n",
    );
    let right = "exercise\n  key D minor\n  soprano | D5 | E5 | D5 |\n  tenor | D4 | C#4$ | D4 |\n";
    assert_eq!(titles(right, Subject::Spelling), Vec::<String>::new());
}

#[test]
fn faults_become_licences() {
    let sheet = "exercise$\n  species 1\n  soprano cantus  | C5 | D5 | C5 |\n  tenor   counter | C4 | D4 | C4 |\n";
    let text = sheet.replace('$', "");
    let titles = titles(sheet, Subject::Licences);
    assert_eq!(titles.len(), 1, "{:?}", standing(&judged(&text)));
    let licences = "  allow consecutive-perfects at 2.1 because \"reason\"\n";
    let meant = at(&text, 0).into_iter().find(|it| it.subject == Subject::Licences).unwrap();
    let after = applied(&text, &meant.edits);
    assert!(after.starts_with(text.trim_end()) && after.contains(licences.trim()), "{after}");
}
