//! Rulebooks in files, named by the sheets around them.

use serde_json::Value;

use crate::run::{Folder, OCTAVES, flat};

/// A school in which octaves are a matter of taste.
const HARBOUR: &str = "extends = \"tonal\"\n[rules.consecutive-perfects]\nlevel = \"advice\"\n";

fn by(name: &str) -> String {
    format!("rulebook {name}\n{OCTAVES}")
}

fn folder(sheet: &str) -> Folder {
    Folder::with("class/weekly/a.bicinium", sheet)
}

fn code(folder: &Folder) -> i32 {
    folder.run(&["check"]).code
}

#[test]
fn a_rulebook_is_found_from_the_sheet_upwards() {
    for place in ["", "class/", "class/weekly/"] {
        let folder = folder(&by("harbour"));
        assert_eq!(code(&folder), 1, "{place}");
        folder.save(&format!("{place}harbour.rulebook.toml"), HARBOUR);
        let ran = folder.run(&["check"]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{place}{}", ran.out);
        assert!(ran.out.contains("advice: consecutive-perfects"), "{}", ran.out);
    }
    let folder = folder(&by("harbour"));
    folder.save("class/beside/harbour.rulebook.toml", HARBOUR);
    assert_eq!(code(&folder), 1);
}

#[test]
fn the_nearest_of_a_name_is_meant() {
    let folder = folder(&by("harbour"));
    folder.save("harbour.rulebook.toml", HARBOUR);
    folder.save("class/harbour.rulebook.toml", HARBOUR.replace("advice", "fault"));
    assert_eq!(code(&folder), 1);
    folder.save("class/weekly/harbour.rulebook.toml", HARBOUR);
    assert_eq!(code(&folder), 0);
    folder.save("other/b.bicinium", by("harbour"));
    assert_eq!(code(&folder), 0);
}

#[test]
fn one_exercise_may_name_another() {
    let (opening, exercise) = OCTAVES.split_once("exercise\n").unwrap();
    let own = format!("{opening}exercise\n  rulebook harbour\n{exercise}\nexercise\n{exercise}");
    let folder = folder(&own);
    folder.save("harbour.rulebook.toml", HARBOUR);
    let out = folder.run(&["check"]).out;
    assert_eq!(out.matches("advice: consecutive-perfects").count(), 1, "{out}");
    assert_eq!(out.matches("fault: consecutive-perfects").count(), 1, "{out}");
}

#[test]
fn a_rulebook_may_be_named_by_the_path_of_its_file() {
    let folder = folder(&by("\"../rules/our school.toml\""));
    assert_eq!(code(&folder), 1);
    folder.save("class/rules/our school.toml", HARBOUR);
    assert_eq!(code(&folder), 0);
}

#[test]
fn a_sheet_from_standard_input_lies_in_the_current_folder() {
    let folder = Folder::with("harbour.rulebook.toml", HARBOUR);
    assert_eq!(folder.run_on(&["check", "-"], by("harbour")).code, 0);
}

#[test]
fn a_rulebook_is_also_meant_by_its_name_on_the_command_line() {
    let folder = folder(OCTAVES);
    folder.save("harbour.rulebook.toml", HARBOUR);
    assert_eq!(folder.run(&["check", "--rulebook", "harbour"]).code, 0);
    assert_eq!(folder.run(&["check", "--rulebook", "harbour.rulebook.toml"]).code, 0);
    assert!(folder.run(&["rules", "--rulebook", "harbour"]).out.contains("harbour"));
}

#[test]
fn a_rulebook_that_is_not_there_is_told_where_it_is_named_and_the_default_holds() {
    let ran = folder(&by("harbour")).run(&["check"]);
    let out = flat(&ran.out);
    assert!(out.contains("notation: rulebook class/weekly/a.bicinium:1:10"), "{out}");
    assert!(out.contains("no file harbour.rulebook.toml in this folder or one above"), "{out}");
    assert!(out.contains("fault: consecutive-perfects"), "{out}");
}

#[test]
fn mistakes_are_told_in_the_rulebook_and_where_it_is_named() {
    let folder = folder(&by("harbour"));
    folder.save("class/weekly/b.bicinium", by("harbour"));
    folder.save("class/harbour.rulebook.toml", HARBOUR.replace("perfects", "perfekts"));
    let ran = folder.run(&["check"]);
    assert_eq!((ran.code, ran.err.as_str()), (1, ""));
    assert!(ran.out.starts_with("notation: rulebook\n  class/harbour.rulebook.toml:2:8\n"));
    assert_eq!(ran.out.matches("Perhaps `consecutive-perfects`").count(), 1, "{}", ran.out);
    assert_eq!(flat(&ran.out).matches("something is wrong in its file").count(), 2);
    assert_eq!(ran.out.matches("fault: consecutive-perfects").count(), 2, "{}", ran.out);
    assert!(flat(&ran.out).contains("1 problem in rulebooks"), "{}", ran.out);
}

#[test]
fn mistakes_of_a_base_are_told_in_its_own_file() {
    let folder = folder(&by("harbour"));
    folder.save("harbour.rulebook.toml", "extends = \"quay\"\n");
    folder.save("quay.rulebook.toml", "extends = \"harbour\"\n");
    let out = flat(&folder.run(&["check"]).out);
    assert!(out.contains("harbour extends quay and quay extends harbour"), "{out}");
    assert!(out.contains("quay extends harbour and harbour extends quay"), "{out}");
}

#[test]
fn a_file_cannot_take_the_place_of_what_is_built_in() {
    let folder = folder(&by("tonal"));
    folder.save("tonal.rulebook.toml", HARBOUR.replace("tonal", "modal"));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("tonal.rulebook.toml:1:1\n"), "{}", ran.out);
    assert!(ran.out.contains("fault: consecutive-perfects"), "{}", ran.out);
}

#[test]
fn other_programs_are_told_with_the_path_of_the_rulebook() {
    let folder = folder(&by("harbour"));
    folder.save("harbour.rulebook.toml", HARBOUR.replace("perfects", "perfekts"));
    for arguments in [&["--rulebook", "harbour"][..], &[]] {
        let run = |format| {
            let ran = folder.run(&[&["check", "--format", format], arguments].concat());
            assert_eq!(ran.code, if arguments.is_empty() { 1 } else { 2 });
            serde_json::from_str::<Value>(&ran.out).unwrap()
        };
        let found = &run("json")[0];
        assert_eq!(
            (&found["path"], &found["rule"]),
            (&"harbour.rulebook.toml".into(), &"rulebook".into())
        );
        assert_eq!(found["range"]["start"], serde_json::json!({"line": 1, "character": 7}));
        assert_eq!(found["exercise"], Value::Null);
        let result = &run("sarif")["runs"][0]["results"][0];
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(place["artifactLocation"]["uri"], "harbour.rulebook.toml");
        assert_eq!(
            (&place["region"]["startLine"], &place["region"]["startColumn"]),
            (&2.into(), &8.into())
        );
    }
}

#[test]
fn what_is_no_rulebook_of_a_sensible_size_is_not_read() {
    let folder = folder(&by("harbour"));
    folder.save("harbour.rulebook.toml", "# much\n".repeat(100_000));
    assert!(folder.run(&["check"]).out.contains("it is too long"));
    folder.save("harbour.rulebook.toml", b"\xff\xfe");
    assert!(folder.run(&["check"]).out.contains("it is not plain text"));
}

/// What is wrong in a file is shown with its text, so a sheet from elsewhere is not to have any file read.
#[test]
fn a_path_leads_no_farther_than_the_workspace_unless_that_is_allowed() {
    let elsewhere = Folder::with("keys.toml", "token = \"hush\"\n");
    let path = elsewhere.path("keys.toml").display().to_string();
    let folder = folder(&by(&format!("\"{path}\"")));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(
        flat(&ran.out).contains("keys.toml cannot be used: it lies outside the workspace"),
        "{}",
        ran.out
    );
    assert!(!ran.out.contains("hush") && !ran.out.contains("token"), "{}", ran.out);
    let allowed = elsewhere.path("").display().to_string();
    let ran = folder.run(&["check", "--may-use", &allowed]);
    assert!(ran.out.contains("token"), "{}", ran.out);
    elsewhere.save("keys.toml", HARBOUR);
    let ran = folder.run(&["check", "--may-use", &allowed]);
    assert!(ran.out.contains("advice: consecutive-perfects"), "{}", ran.out);
    // Whoever names it on the command line means it.
    let ran = folder.run(&["check", "--rulebook", &path]);
    assert!(ran.out.contains("advice: consecutive-perfects"), "{}", ran.out);
    // A rulebook of the workspace leads no farther either.
    folder.save("class/weekly/a.bicinium", by("harbour"));
    folder.save("harbour.rulebook.toml", format!("extends = \"{path}\"\n"));
    let ran = folder.run(&["check"]);
    assert!(flat(&ran.out).contains("keys.toml is not to be found"), "{}", ran.out);
}
