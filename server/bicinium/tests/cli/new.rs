//! Sheets that are begun: on a cantus, and from an assignment.

use crate::run::{Folder, flat, run};

const ASSIGNMENT: &str = "\
// Ropewalk School: read the cantus aloud first.
use \"songs.bicinium\"
rulebook \"house.rulebook.toml\"
deadline \"Friday\"

exercise \"above\"
  key G major
  species 1
  points 10
  soprano counter | | C5 |
  tenor cantus rope-song |

exercise \"below\"
  key G major
  alto cantus | G4 | A4 | G4 |
  bass counter
";

const SONGS: &str = "cantus rope-song\n  key G major\n  line | G3 | A3 | B3 | A3 | G3 |\n";

fn classroom() -> Folder {
    let folder = Folder::with("set/work.bicinium", ASSIGNMENT);
    folder.save("set/songs.bicinium", SONGS);
    folder.save("set/house.rulebook.toml", "extends = \"tonal\"\n");
    folder
}

#[test]
fn a_sheet_on_a_cantus_is_laid_out_and_only_unfinished() {
    let folder = Folder::new();
    for side in ["--above", "--below"] {
        let ran = folder.run(&["new", "--cantus", "fux-phrygian", "--species", "2", side]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        folder.save("a.bicinium", &ran.out);
        let checked = folder.run(&["check", "a.bicinium", "--format", "json"]);
        let found: serde_json::Value = serde_json::from_str(&checked.out).unwrap();
        let rules: Vec<_> = found.as_array().unwrap().iter().map(|it| &it["rule"]).collect();
        assert_eq!(rules, ["unfinished"], "{}", ran.out);
        assert_eq!(folder.run(&["format", "--check", "a.bicinium"]).code, 0);
        let rows: Vec<_> = ran.out.lines().filter(|line| line.contains('|')).collect();
        assert_eq!(rows[0].contains("counter"), side == "--above", "{}", ran.out);
        assert!(rows.iter().all(|row| row.matches('|').count() == 11), "{}", ran.out);
    }
}

#[test]
fn every_cantus_of_the_help_can_be_had() {
    let help = flat(&run(&["new", "--help"]).out);
    let words = help.split([' ', ',']);
    let names = words.filter(|word| word.starts_with("fux-") || word.starts_with("lehmann-"));
    let names: Vec<_> = names.collect();
    assert_eq!(names.len(), 10, "{help}");
    for name in names {
        assert_eq!(run(&["new", "--cantus", name]).code, 0, "{name}");
    }
}

#[test]
fn an_unknown_cantus_is_told_with_what_is_known() {
    let ran = run(&["new", "--cantus", "fux-dorien"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("Perhaps fux-dorian is meant. Known are fux-dorian, "), "{}", ran.err);
}

#[test]
fn an_assignment_becomes_a_sheet_under_a_name() {
    let folder = classroom();
    std::fs::create_dir(folder.path("in")).unwrap();
    let arguments = ["new", "--from", "set/work.bicinium", "--by", "Ina Quill", "-o"];
    let ran = folder.run(&[&arguments[..], &["in/ina.bicinium"]].concat());
    assert_eq!((ran.code, ran.out.as_str()), (0, "in/ina.bicinium written.\n"), "{}", ran.err);
    assert_eq!(
        folder.text("in/ina.bicinium"),
        "\
// Ropewalk School: read the cantus aloud first.
by \"Ina Quill\"
use \"../set/songs.bicinium\"
rulebook \"../set/house.rulebook.toml\"
deadline \"Friday\"

exercise \"above\"
  key G major
  species 1
  points 10
  soprano counter          |    | C5 |    |    |    |
  tenor   cantus rope-song | G3 | A3 | B3 | A3 | G3 |

exercise \"below\"
  key G major
  alto cantus  | G4 | A4 | G4 |
  bass counter |    |    |    |
"
    );
    assert_eq!(folder.run(&["check", "in"]).code, 0);
}

#[test]
fn every_system_of_an_assignment_gets_its_blank_bars() {
    let set = "\
exercise
  key G major
  soprano counter | | C5
  tenor cantus | G3 | A3 | B3 |
  harmony | I

  tenor | A3 | G3 | // on

  tenor | A3 | G3 |
  soprano | B4
";
    let folder = Folder::with("set.bicinium", set);
    assert_eq!(
        folder.run(&["new", "--from", "set.bicinium"]).out,
        "\
exercise
  key G major
  soprano counter |    | C5 |    |
  tenor   cantus  | G3 | A3 | B3 |
  harmony         | I  |

  soprano         |    |    |
  tenor           | A3 | G3 | // on

  tenor           | A3 | G3 |
  soprano         | B4 |    |
"
    );
    let below = "exercise\n  alto cantus | G4 | A4 |\n  bass counter\n\n  alto | B4 | G4 | // on\n";
    folder.save("below.bicinium", below);
    let ran = folder.run(&["new", "--from", "below.bicinium"]);
    let last = "  alto         | B4 | G4 | // on\n  bass         |    |    |\n";
    assert!(ran.out.ends_with(last), "{}", ran.out);
}

#[test]
fn a_name_is_replaced_and_can_break_nothing() {
    let folder = Folder::with("a.bicinium", "by \"nobody\"\n\nexercise\n  alto cantus | C4 |\n");
    let ran = folder.run(&["new", "--from", "a.bicinium", "--by", "Bo \"the\nBow\" Ash"]);
    assert!(ran.out.starts_with("by \"Bo 'the Bow' Ash\"\n\nexercise\n"), "{}", ran.out);
}

#[test]
fn a_sheet_that_is_there_is_not_replaced_unasked() {
    let folder = Folder::with("a.bicinium", "mine");
    let arguments = ["new", "--cantus", "lehmann-6", "-o", "a.bicinium"];
    let ran = folder.run(&arguments);
    assert_eq!((ran.code, folder.text("a.bicinium").as_str()), (2, "mine"));
    assert!(ran.err.contains("is there already"), "{}", ran.err);
    assert_eq!(folder.run(&[&arguments[..], &["--force"]].concat()).code, 0);
    assert!(folder.text("a.bicinium").contains("cantus lehmann-6"));
}

#[test]
fn an_assignment_that_sets_nothing_is_told() {
    let folder = Folder::with("a.bicinium", "key G major\n");
    let ran = folder.run(&["new", "--from", "a.bicinium"]);
    assert_eq!((ran.code, ran.err.as_str()), (2, "bicinium: a.bicinium sets no exercise.\n"));
    assert_eq!(folder.run(&["new"]).code, 2);
}
