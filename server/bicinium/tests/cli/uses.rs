//! Sheets that take a cantus from others.

use crate::run::Folder;

const SONGS: &str = "\
cantus pilot-song
  key G major
  line | G4 | A4 | B4 | A4 | G4 |
";

fn exercise(path: &str, cantus: &str) -> String {
    format!(
        "use \"{path}\"\nkey G major\n\nexercise\n  species 1\n  \
         soprano cantus pilot-song | {cantus} |\n  bass counter | | | | | |\n"
    )
}

#[test]
fn a_cantus_of_another_sheet_is_known() {
    let folder = Folder::with("songs.bicinium", SONGS);
    folder.save("work/right.bicinium", exercise("../songs.bicinium", "G4 | A4 | B4 | A4 | G4"));
    folder.save("work/wrong.bicinium", exercise("../songs.bicinium", "G4 | A4 | C5 | A4 | G4"));
    assert_eq!(folder.run(&["check", "work/right.bicinium"]).code, 0);
    let ran = folder.run(&["check", "work/wrong.bicinium"]);
    assert!(ran.out.contains("fault: cantus-altered"), "{}", ran.out);
}

#[test]
fn paths_from_standard_input_begin_in_the_current_folder() {
    let folder = Folder::with("songs.bicinium", SONGS);
    let sheet = exercise("songs.bicinium", "G4 | A4 | C5 | A4 | G4");
    let ran = folder.run_on(&["check", "-"], sheet);
    assert!(ran.out.contains("cantus-altered"), "{}", ran.out);
}

#[test]
fn a_sheet_that_is_not_there_is_found() {
    let sheet = exercise("songs.bicinium", "G4 | A4 | B4 | A4 | G4");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("notation: use\n"), "{}", ran.out);
    assert!(ran.out.contains("there is no such file"), "{}", ran.out);
}

#[test]
fn sheets_may_use_each_other() {
    let folder = Folder::with("a.bicinium", format!("use \"b.bicinium\"\n{SONGS}"));
    folder.save("b.bicinium", format!("use \"a.bicinium\"\n{}", SONGS.replace("pilot", "quay")));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
}

#[test]
fn a_sheet_that_uses_itself_is_told() {
    let folder = Folder::with("a.bicinium", format!("use \"./a.bicinium\"\n{SONGS}"));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("it is this very sheet"), "{}", ran.out);
    assert!(!ran.out.contains("cantus-twice"), "{}", ran.out);
}
