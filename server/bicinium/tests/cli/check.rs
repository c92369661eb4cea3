//! What is marked, and how the command ends.

use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;

use crate::run::{CLEAN, Folder, LICENCE, OCTAVES, flat};

#[test]
fn a_clean_sheet_ends_with_0() {
    let ran = Folder::with("a.bicinium", CLEAN).run(&["check", "a.bicinium"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_eq!(ran.out, "1 sheet with 1 exercise: nothing to mend.\n");
}

#[test]
fn a_fault_ends_with_1() {
    let ran = Folder::with("a.bicinium", OCTAVES).run(&["check", "a.bicinium"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("fault: consecutive-perfects\n"), "{}", ran.out);
    assert!(ran.out.ends_with(": 1 fault and 1 unfinished exercise.\n"), "{}", ran.out);
}

#[test]
fn notation_that_cannot_be_read_ends_with_1() {
    let sheet = CLEAN.replace("C5", "c5");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("1 problem with the notation"), "{}", ran.out);
}

#[test]
fn what_is_unfinished_is_not_wrong() {
    let sheet = CLEAN.replace("E3 C3", "");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("1 unfinished exercise"), "{}", ran.out);
}

#[test]
fn what_a_licence_accepts_is_shown_and_not_counted() {
    let sheet = format!("{OCTAVES}{LICENCE}");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("accepted fault: consecutive-perfects\n"), "{}", ran.out);
    assert!(ran.out.contains("Accepted because the school does."), "{}", ran.out);
    assert!(ran.out.ends_with("; accepted: 1.\n"), "{}", ran.out);
}

#[test]
fn a_licence_for_nothing_is_found() {
    let ran = Folder::with("a.bicinium", format!("{CLEAN}{LICENCE}")).run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("unused-licence"), "{}", ran.out);
}

#[test]
fn standard_input_is_a_dash() {
    let ran = Folder::new().run_on(&["check", "-"], OCTAVES);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("  -:6:28, exercise 1, bar 3"), "{}", ran.out);
    assert_eq!(Folder::new().run_on(&["check", "-"], CLEAN).code, 0);
    let ran = Folder::new().run_on(&["check", "-"], b"\xff\xfe");
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("not plain text"), "{}", ran.err);
}

#[test]
fn folders_are_searched_for_sheets() {
    let folder = Folder::with("b/deep/er.bicinium", OCTAVES);
    folder.save("b/a.bicinium", OCTAVES);
    folder.save("b/notes.txt", OCTAVES);
    folder.save("b/.hidden.bicinium", OCTAVES);
    folder.save("b/left/out.bicinium", OCTAVES);
    folder.save("b/.gitignore", "left/\n");
    folder.save("c.bicinium", OCTAVES);
    let all = ["b/a.bicinium", "b/deep/er.bicinium", "c.bicinium"];
    assert_eq!(paths(&folder.run(&["check", "--format", "json"]).out), all);
    assert_eq!(paths(&folder.run(&["check", "--format", "json", "b"]).out), all[..2]);
    let named = ["check", "--format", "json", "b/notes.txt", "b/a.bicinium", "b"];
    assert_eq!(
        paths(&folder.run(&named).out),
        ["b/notes.txt", "b/a.bicinium", "b/deep/er.bicinium"]
    );
}

/// The paths of the sheets with faults, in order.
fn paths(json: &str) -> Vec<String> {
    let all: Vec<serde_json::Value> = serde_json::from_str(json).unwrap();
    let mut paths: Vec<_> = all.iter().map(|it| it["path"].as_str().unwrap().to_owned()).collect();
    paths.dedup();
    paths
}

#[test]
fn a_folder_without_sheets_is_no_mistake_but_is_told() {
    let ran = Folder::new().run(&["check"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "No sheets were found.\n"));
}

#[test]
fn what_cannot_be_read_does_not_lose_the_others() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    folder.save("b.bicinium", b"\xff\xfe");
    let ran = folder.run(&["check", "missing.bicinium", "b.bicinium", "a.bicinium"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("consecutive-perfects"), "{}", ran.out);
    let told = "bicinium: missing.bicinium cannot be read: there is no such file.\n\
                bicinium: b.bicinium cannot be read: it is not plain text; open it in an \
                editor and save it as UTF-8.\n";
    assert_eq!(ran.err, told);
}

#[test]
fn milder_findings_can_be_left_out() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let ran = folder.run(&["check", "--level", "fault"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("consecutive-perfects"));
    assert!(!ran.out.contains("Still to be written"), "{}", ran.out);
    assert!(flat(&ran.out).ends_with(" Not shown: 1 milder finding."), "{}", ran.out);
    let ran = folder.run(&["check", "--level", "notation"]);
    assert_eq!(ran.code, 1, "a fault is a fault, shown or not");
    assert!(flat(&ran.out).ends_with(" Not shown: 2 milder findings."), "{}", ran.out);
}

#[test]
fn a_reader_that_has_seen_enough_ends_it_quietly() {
    let folder = Folder::with("a.bicinium", OCTAVES.repeat(2000));
    let mut command = folder.command(&["check"]);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut first = String::new();
    BufReader::with_capacity(64, child.stdout.take().unwrap()).read_line(&mut first).unwrap();
    let mut err = String::new();
    child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    assert!(child.wait().unwrap().success());
    assert_eq!((first.is_empty(), err.as_str()), (false, ""));
}
