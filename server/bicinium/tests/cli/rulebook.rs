//! Marking by a rulebook that is named on the command line.

use crate::run::{Folder, OCTAVES};

/// A rulebook that differs in one rule.
const SCHOOL: &str = "\
name = \"harbour\"
title = \"Harbour School\"
extends = \"tonal\"

[rules.consecutive-perfects]
level = \"caution\"
";

fn code(folder: &Folder, rulebook: &str) -> i32 {
    folder.run(&["check", "--rulebook", rulebook, "a.bicinium"]).code
}

#[test]
fn it_holds_where_a_sheet_names_none() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    folder.save("school.toml", SCHOOL);
    assert_eq!(code(&folder, "tonal"), 1);
    assert_eq!(code(&folder, "school.toml"), 0);
}

#[test]
fn it_holds_also_where_a_sheet_names_another() {
    let folder = Folder::new();
    folder.save("school.toml", SCHOOL);
    for named in ["modal", "tonal", "harbour", "elsewhere"] {
        folder.save("a.bicinium", format!("rulebook {named}\n{OCTAVES}"));
        assert_eq!(code(&folder, "school.toml"), 0, "{named}");
        assert_eq!(code(&folder, "modal"), 1, "{named}");
    }
}

#[test]
fn one_that_is_not_there_is_told() {
    let ran = Folder::with("a.bicinium", OCTAVES).run(&["check", "--rulebook", "harbour"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("There is no rulebook harbour."), "{}", ran.err);
    assert!(ran.err.contains("modal and tonal"), "{}", ran.err);
}

#[test]
fn every_problem_of_one_is_told_once() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let wrong = SCHOOL.replace("caution", "grave") + "\n[rules.no-such-rule]\nlevel = \"off\"\n";
    folder.save("school.toml", wrong);
    for command in ["check", "rules"] {
        let ran = folder.run(&[command, "--rulebook", "school.toml"]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains("The rulebook school.toml cannot be used"), "{}", ran.err);
        for problem in ["rule `consecutive-perfects`", "rule `no-such-rule`"] {
            assert_eq!(ran.out.matches(problem).count(), 1, "{}", ran.out);
        }
        assert!(ran.out.contains("\n  school.toml:6:9\n"), "{}", ran.out);
        assert!(ran.out.contains("6 | level = \"grave\"\n    |         ^^^^^^^\n"), "{}", ran.out);
    }
}

#[test]
fn text_that_is_no_rulebook_is_told_with_its_place() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    folder.save("school.toml", SCHOOL.replace("level = ", "level "));
    let ran = folder.run(&["check", "--rulebook", "school.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("\n  school.toml:6:7\n"), "{}", ran.out);
}
