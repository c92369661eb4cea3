//! Sheets in version control: what changed since a revision, and between two versions.

use std::process::Command;

use crate::run::{CLEAN, Folder, LICENCE, OCTAVES, Ran, flat};

const SONGS: &str = "cantus pilot-song\n  line | E4 | F4 | E4 |\n";
const USES: &str = "\
use \"songs.bicinium\"
rulebook quay
exercise
  soprano cantus pilot-song | E4 | F4 | E4 |
  tenor counter | | | |
";

fn git(folder: &Folder, arguments: &[&str]) -> String {
    let output = Command::new("git")
        .current_dir(folder.path(""))
        .args(["-c", "user.name=Nobody", "-c", "user.email=nobody@example.org"])
        .args(arguments)
        .output()
        .unwrap();
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// A repository in which everything is committed.
fn repository() -> Folder {
    let folder = Folder::with("set/old one.bicinium", OCTAVES);
    folder.save("set/uses.bicinium", USES);
    folder.save("set/songs.bicinium", SONGS);
    folder.save("quay.rulebook.toml", "extends = \"tonal\"\n");
    git(&folder, &["init", "--quiet"]);
    git(&folder, &["add", "."]);
    git(&folder, &["commit", "--quiet", "--message", "all"]);
    folder
}

fn since(folder: &Folder, revision: &str) -> Ran {
    folder.run(&["check", "--changed-since", revision])
}

#[test]
fn what_has_not_changed_is_not_judged() {
    let folder = repository();
    let ran = since(&folder, "HEAD");
    assert_eq!((ran.code, ran.out.as_str()), (0, "No sheets have changed.\n"));
    folder.save("set/clean.bicinium", CLEAN);
    let ran = since(&folder, "HEAD");
    assert!(ran.out.contains("1 sheet with 1 exercise"), "{}", ran.out);
    folder.save("set/old one.bicinium", format!("// again\n{OCTAVES}"));
    let ran = since(&folder, "HEAD");
    assert!(ran.code == 1 && ran.out.contains("2 sheets with 2 exercises"), "{}", ran.out);
}

#[test]
fn what_uses_something_that_changed_is_judged() {
    let folder = repository();
    folder.save("set/songs.bicinium", SONGS.replace("F4", "G4"));
    let ran = since(&folder, "HEAD");
    assert!(ran.out.contains("cantus-altered"), "{}", ran.out);
    assert!(!ran.out.contains("old one"), "{}", ran.out);
    git(&folder, &["checkout", "--quiet", "."]);
    folder.save("quay.rulebook.toml", "extends = \"modal\"\n");
    let ran = since(&folder, "HEAD");
    assert!(ran.out.contains("1 sheet with 1 exercise"), "{}", ran.out);
}

#[test]
fn before_the_first_commit_everything_has_changed() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    git(&folder, &["init", "--quiet"]);
    let ran = since(&folder, "HEAD");
    assert!(ran.code == 1 && ran.out.contains("1 sheet with 1 exercise"), "{}{}", ran.out, ran.err);
    git(&folder, &["add", "."]);
    assert_eq!(since(&folder, "HEAD").out, ran.out);
    assert_eq!(since(&folder, "HEAD~1").code, 2);
}

#[test]
fn what_git_cannot_tell_is_told() {
    let ran = since(&repository(), "no-such-thing");
    assert_eq!(
        (ran.code, ran.err.as_str()),
        (2, "bicinium: git knows no revision no-such-thing.\n")
    );
    let ran = since(&repository(), "--output=x");
    assert_eq!(ran.code, 2);
    let ran = since(&Folder::with("a.bicinium", CLEAN), "HEAD");
    assert!(ran.err.contains("no git repository"), "{}", ran.err);
}

#[test]
fn a_version_is_compared_in_words() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let mended = OCTAVES.replace("E3 | F3", "C4 | D4").replace("C major", "F major");
    folder.save("b.bicinium", mended);
    let ran = folder.run(&["compare", "a.bicinium", "b.bicinium"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let told = flat(&ran.out);
    for said in [
        "a.bicinium and b.bicinium",
        "Exercise 1",
        "The key C major became F major.",
        "bar 2: E3 became C4 in the lower voice",
        "bar 3: F3 became D4 in the lower voice; gone: consecutive perfects",
    ] {
        assert!(told.contains(said), "{said}\n{}", ran.out);
    }
    let back = folder.run(&["compare", "b.bicinium", "a.bicinium"]);
    let said = "bar 3: D4 became F3 in the lower voice; new fault: consecutive perfects. Octaves";
    assert!(flat(&back.out).contains(said), "{}", back.out);
}

#[test]
fn layout_and_comments_are_no_change() {
    let folder = Folder::with("a.bicinium", CLEAN);
    folder.save("b.bicinium", format!("// mine\n{}", CLEAN.replace("  ", " ")));
    let ran = folder.run(&["compare", "a.bicinium", "b.bicinium"]);
    let same = "a.bicinium and b.bicinium: the music and what is found in it are the same.\n";
    assert_eq!((ran.code, ran.out.as_str()), (0, same));
}

#[test]
fn bars_rhythms_licences_and_whole_exercises_are_told() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let other = OCTAVES.replace("| E3 | F3 |", "| D3 E3 | |").replace("C4 | |", "C4 | | C3 |");
    folder.save("b.bicinium", format!("{other}{LICENCE}\nexercise \"more\"\n  bass | C3 |\n"));
    let told = flat(&folder.run(&["compare", "a.bicinium", "b.bicinium"]).out);
    for said in [
        "bar 2: E3 became D3 E3 in the lower voice",
        "bar 3: F3 became a blank bar in the lower voice",
        "bar 6: added in the lower voice: C3",
        "Exercise 2, \"more\" The exercise is new.",
    ] {
        assert!(told.contains(said), "{said}\n{told}");
    }
    let back = flat(&folder.run(&["compare", "b.bicinium", "a.bicinium"]).out);
    assert!(back.contains("Exercise 2, \"more\" The exercise was taken out."), "{back}");
    folder.save("c.bicinium", format!("{OCTAVES}{LICENCE}"));
    let told = flat(&folder.run(&["compare", "a.bicinium", "c.bicinium"]).out);
    assert!(told.contains("newly accepted: consecutive perfects"), "{told}");
}

#[test]
fn what_changed_in_all_exercises_is_told_once() {
    let two = |by: &str, key: &str| {
        let exercise = OCTAVES.replace("key C major\n\n", "");
        format!("by \"{by}\"\nkey C major\n\n{exercise}\n{exercise}  key {key}\n")
    };
    let folder = Folder::with("a.bicinium", two("Ina Quill", "C major"));
    folder.save("b.bicinium", two("Pia Reef", "F major"));
    let told = flat(&folder.run(&["compare", "a.bicinium", "b.bicinium"]).out);
    let line = "The name of the writer \"Ina Quill\" became \"Pia Reef\".";
    assert!(told.contains(&format!("All exercises {line}")), "{told}");
    assert_eq!(told.matches(line).count(), 1, "{told}");
    assert!(told.contains("Exercise 2 The key C major became F major."), "{told}");
}

#[test]
fn every_sentence_ends_before_the_next_begins() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let worse = OCTAVES.replace("E3 | F3 | C4", "E3 | F#3 | C5");
    folder.save("b.bicinium", worse);
    let told = flat(&folder.run(&["compare", "a.bicinium", "b.bicinium"]).out);
    assert!(told.contains(". New fault: "), "{told}");
    assert!(!told.contains(".;") && !told.contains("; new fault: foreign note. New"), "{told}");
}

#[test]
fn git_tells_differences_in_words() {
    let folder = repository();
    folder.save(".gitattributes", "*.bicinium diff=music\n");
    folder.save("set/old one.bicinium", OCTAVES.replace("E3 | F3", "C4 | D4"));
    let driver = format!(
        "diff.music.command=f() {{ '{}' compare \"$2\" \"$5\" --name \"$1\"; }}; f",
        env!("CARGO_BIN_EXE_bicinium")
    );
    let told = git(&folder, &["-c", &driver, "diff", "--ext-diff"]);
    assert!(told.starts_with("set/old one.bicinium\n"), "{told}");
    assert!(flat(&told).contains("bar 2: E3 became C4 in the lower voice"), "{told}");
    let tool = format!(
        "difftool.music.cmd='{}' compare \"$LOCAL\" \"$REMOTE\" --name \"$MERGED\"",
        env!("CARGO_BIN_EXE_bicinium")
    );
    let told = git(&folder, &["-c", &tool, "difftool", "--no-prompt", "--tool=music"]);
    assert!(flat(&told).contains("gone: consecutive perfects"), "{told}");
}

#[cfg(unix)]
#[test]
fn a_version_by_itself_is_told_in_words_wherever_it_lies() {
    let folder = repository();
    folder.save("set/more.bicinium", format!("{SONGS}{USES}{LICENCE}"));
    let told = folder.run(&["compare", "set/more.bicinium"]);
    assert_eq!((told.code, told.err.as_str()), (0, ""));
    for said in
        ["Cantus pilot-song\n  bar 1: E4\n", "Bar 2\n", "upper: F4, whole note", "Licence: allow "]
    {
        assert!(told.out.contains(said), "{said}\n{}", told.out);
    }
    folder.save("elsewhere/copy.bicinium", format!("{SONGS}{USES}{LICENCE}"));
    assert_eq!(folder.run(&["compare", "elsewhere/copy.bicinium"]).out, told.out);
}

#[cfg(unix)]
#[test]
fn the_textconv_of_the_readme_shows_differences_bar_by_bar() {
    let folder = repository();
    folder.save(".gitattributes", "*.bicinium diff=music\n");
    let changed =
        OCTAVES.replace("E3 | F3", "C4 | D4").replace("  species", "  // mine\n  species");
    folder.save("set/old one.bicinium", changed);
    folder.save("set/songs.bicinium", format!("// only a comment\n{SONGS}"));
    let binary = std::path::Path::new(env!("CARGO_BIN_EXE_bicinium")).parent().unwrap();
    let path = format!("{}:{}", binary.display(), std::env::var("PATH").unwrap());
    let configured = Command::new("sh")
        .current_dir(folder.path(""))
        .args(["-c", &recipe("textconv")])
        .status()
        .unwrap();
    assert!(configured.success());
    let output = Command::new("git")
        .current_dir(folder.path(""))
        .env("PATH", &path)
        .args(["diff", "--no-color"])
        .output()
        .unwrap();
    let told = String::from_utf8(output.stdout).unwrap();
    for said in ["-  lower: E3, whole note\n", "+  lower: C4, whole note\n", " Bar 2\n"] {
        assert!(told.contains(said), "{said}\n{told}");
    }
    assert!(!told.contains("comment") && !told.contains("mine"), "{told}");
}

/// The shell in a recipe of the README, below a heading line.
fn recipe(named: &str) -> String {
    let readme = concat!(env!("CARGO_MANIFEST_DIR"), "/../../README.md");
    let readme = std::fs::read_to_string(readme).unwrap();
    let mut blocks = readme.split("```").filter(|block| block.starts_with("sh\n"));
    let block = blocks.find(|block| block.contains(named)).unwrap();
    block.strip_prefix("sh\n").unwrap().to_owned()
}

#[cfg(unix)]
#[test]
fn the_hook_of_the_readme_stops_a_commit_with_faults_until_they_are_mended() {
    use std::os::unix::fs::PermissionsExt;

    let folder = repository();
    let hook = folder.path(".git/hooks/pre-commit");
    std::fs::create_dir_all(hook.parent().unwrap()).unwrap();
    std::fs::write(&hook, recipe("#!/bin/sh")).unwrap();
    std::fs::set_permissions(&hook, std::fs::Permissions::from_mode(0o755)).unwrap();
    let binary = std::path::Path::new(env!("CARGO_BIN_EXE_bicinium")).parent().unwrap();
    let path = format!("{}:{}", binary.display(), std::env::var("PATH").unwrap());
    let commit = || {
        Command::new("git")
            .current_dir(folder.path(""))
            .env("PATH", &path)
            .args(["-c", "user.name=Nobody", "-c", "user.email=nobody@example.org"])
            .args(["commit", "--quiet", "--all", "--message", "new"])
            .output()
            .unwrap()
    };
    folder.save("set/old one.bicinium", format!("// again\n{OCTAVES}"));
    let stopped = commit();
    let told = String::from_utf8_lossy(&[stopped.stdout, stopped.stderr].concat()).into_owned();
    assert!(!stopped.status.success() && told.contains("consecutive-perfects"), "{told}");
    folder.save("set/old one.bicinium", OCTAVES.replace("E3 | F3", "C4 | D4"));
    assert!(commit().status.success());
}

#[cfg(unix)]
#[test]
fn the_job_of_the_readme_ends_with_1_and_leaves_a_report() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let binary = std::path::Path::new(env!("CARGO_BIN_EXE_bicinium")).parent().unwrap();
    let path = format!("{}:{}", binary.display(), std::env::var("PATH").unwrap());
    let ran = Command::new("sh")
        .current_dir(folder.path(""))
        .env("PATH", path)
        .args(["-c", &recipe("bicinium.sarif")])
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(1), "{}", String::from_utf8_lossy(&ran.stderr));
    let report: serde_json::Value = serde_json::from_str(&folder.text("bicinium.sarif")).unwrap();
    let results = report["runs"][0]["results"].as_array().unwrap();
    assert!(results.iter().any(|it| it["ruleId"] == "consecutive-perfects"), "{report:#}");
}
