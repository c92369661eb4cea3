//! What is said where nothing can be marked, and what is never done unasked.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use crate::run::{Ran, class, run_in};

const SET: &str = "\
exercise
  key C major
  species 1
  soprano counter | | | | |
  tenor cantus | C4 | G3 | A3 | C4 |
";

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    save(folder.path(), "set.bicinium", SET);
    save(folder.path(), "in.bicinium", SET);
    folder
}

fn save(folder: &Path, name: &str, text: &str) {
    fs::write(folder.join(name), text).expect("a file");
}

fn mark(folder: &Path, options: &[&str]) -> Ran {
    let arguments = ["mark", "in.bicinium", "--against", "set.bicinium"];
    run_in(folder, &[&arguments[..], options].concat())
}

#[test]
fn every_slip_in_a_rubric_is_told_at_its_place() {
    let rubric = "\
title = \"\"
[level.fault]
off = 1
[levels.falt]
off = 1
[rules.consecutive-perfect]
off = 1
[rules.span]
of = 1
[as-set.cantus]
off = -1
[unfinished]
off = 0.125
[licences]
at-most = \"many\"
[bonus]
no-fault = 1
[bonus.contrary-moton]
points = 1
[exercise]
points = 5000
";
    let folder = folder();
    save(folder.path(), "r.toml", rubric);
    let ran = mark(folder.path(), &["--rubric", "r.toml"]);
    assert_eq!(ran.code, 2);
    let told = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "r.toml:1:9",
        "r.toml:2:2",
        "Perhaps `levels` is meant.",
        "r.toml:4:9",
        "Perhaps `fault` is meant.",
        "r.toml:6:8",
        "Perhaps `consecutive-perfects` is meant.",
        "r.toml:9:1",
        "Perhaps `off` is meant.",
        "r.toml:11:7",
        "r.toml:13:7",
        "r.toml:15:11",
        "r.toml:17:12",
        "r.toml:18:8",
        "Perhaps `contrary-motion` is meant.",
        "r.toml:21:10",
    ] {
        assert!(told.contains(said), "{said}\n{}", ran.out);
    }
    assert!(ran.err.contains("until this is mended"), "{}", ran.err);
}

#[test]
fn a_rubric_that_is_no_rubric_is_told() {
    let folder = folder();
    save(folder.path(), "r.toml", "[levels.fault\noff = 1\n");
    let ran = mark(folder.path(), &["--rubric", "r.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("A rubric has headings"), "{}", ran.out);
    let ran = mark(folder.path(), &["--rubric", "none.toml"]);
    assert_eq!(ran.err, "bicinium: The rubric none.toml cannot be read: there is no such file.\n");
}

#[test]
fn an_assignment_that_cannot_be_read_sets_nothing() {
    let folder = folder();
    save(folder.path(), "set.bicinium", &SET.replace("species 1", "species 6"));
    let ran = mark(folder.path(), &[]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("set.bicinium:3:11"), "{}", ran.out);
    save(folder.path(), "set.bicinium", "key C major\n");
    assert_eq!(mark(folder.path(), &[]).err, "bicinium: set.bicinium sets no exercise.\n");
    fs::remove_file(folder.path().join("set.bicinium")).expect("it was there");
    let ran = mark(folder.path(), &[]);
    assert!(ran.err.contains("set.bicinium cannot be read: there is no such file."), "{}", ran.err);
}

#[test]
fn rows_that_are_only_named_are_set_as_they_are_written_out() {
    let folder = folder();
    let set = "exercise\n  key D dorian\n  soprano counter\n  tenor cantus fux-dorian\n";
    save(folder.path(), "set.bicinium", set);
    let arguments = ["new", "--from", "set.bicinium", "--by", "Pia Reef", "-o", "pia.bicinium"];
    assert_eq!(run_in(folder.path(), &arguments).code, 0);
    let ran = run_in(folder.path(), &["mark", "pia.bicinium", "--against", "set.bicinium"]);
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("Pia Reef") && !ran.out.contains('*'), "{}", ran.out);
    save(folder.path(), "set.bicinium", &set.replace("D dorian", "H dorian"));
    let ran = run_in(folder.path(), &["mark", "pia.bicinium", "--against", "set.bicinium"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("set.bicinium:2:7"), "{}", ran.out);
}

#[cfg(unix)]
#[test]
fn what_cannot_be_read_costs_no_other_hand_in() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;

    let folder = folder();
    let hand_ins = folder.path().join("hand-ins");
    fs::create_dir_all(hand_ins.join("folder.bicinium")).expect("a folder");
    fs::write(hand_ins.join("a b.bicinium"), SET).expect("a file");
    fs::write(hand_ins.join(OsStr::from_bytes(b"n\xff.bicinium")), SET).expect("a file");
    fs::write(hand_ins.join("latin.bicinium"), b"// caf\xe9\n").expect("a file");
    symlink("nowhere.bicinium", hand_ins.join("dangling.bicinium")).expect("a link");
    symlink("../in.bicinium", hand_ins.join("linked.bicinium")).expect("a link");
    let huge = fs::File::create(hand_ins.join("huge.bicinium")).expect("a file");
    huge.set_len(1 << 30).expect("a long file");
    let ran = run_in(folder.path(), &["mark", "hand-ins", "--against", "set.bicinium"]);
    assert_eq!(ran.code, 2);
    for said in [
        "hand-ins/dangling.bicinium: it is a link that leads nowhere.\n",
        "hand-ins/huge.bicinium: it is too long; it may have 16384 kB.\n",
        "hand-ins/latin.bicinium: it is not plain text; open it in an editor and save it as UTF-8.\n",
    ] {
        assert!(ran.err.contains(said), "{said}\n{}", ran.err);
    }
    assert!(ran.out.ends_with("3 sheets marked and 3 could not be.\n"), "{}", ran.out);
}

#[test]
fn a_report_is_not_replaced_unasked() {
    let folder = folder();
    save(folder.path(), "marks.html", "mine");
    let ran = mark(folder.path(), &["--format", "html", "-o", "marks.html"]);
    assert_eq!(ran.code, 2);
    assert_eq!(fs::read_to_string(folder.path().join("marks.html")).expect("a file"), "mine");
    let ran = mark(folder.path(), &["--format", "html", "-o", "marks.html", "--force"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "marks.html written.\n"));
}

#[test]
fn the_assignment_itself_and_shared_sheets_are_no_hand_ins() {
    let folder = folder();
    save(folder.path(), "songs.bicinium", "cantus pier-song\n  line | C4 | D4 | C4 |\n");
    let ran = run_in(folder.path(), &["mark", ".", "--against", "set.bicinium"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let closing = "1 sheet marked and 1 sheet without an exercise passed over.";
    assert!(ran.out.contains(closing), "{}", ran.out);
    let ran = mark(folder.path(), &["songs.bicinium"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("songs.bicinium: there is no exercise in it."), "{}", ran.err);
}

#[test]
fn an_assignment_can_be_set_written_and_marked() {
    let folder = tempfile::tempdir().expect("a folder");
    let set = class().join("assignment.bicinium");
    let set = set.to_str().expect("a path in plain letters");
    let sheet = folder.path().join("mine.bicinium");
    let sheet = sheet.to_str().expect("a path in plain letters");
    let ran = run_in(folder.path(), &["new", "--from", set, "--by", "Pia Reef", "-o", sheet]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let ran = run_in(folder.path(), &["mark", sheet, "--against", set]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("Pia Reef"), "{}", ran.out);
    assert!(!ran.out.contains('*'), "a sheet that was just begun is as set:\n{}", ran.out);
}
