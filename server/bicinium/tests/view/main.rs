//! The page beside the editor, asked by hand: what it answers, to whom, and that it follows the file.

#![allow(clippy::unwrap_used)]

mod browser;
mod edited;
mod followed;
mod guest;
mod neovim;
mod served;
mod strangers;

use serde_json::Value;
use served::Served;

const SHEET: &str = "key G major\n\nexercise \"Quay\"\n  species 1\n  soprano cantus | G4 | A4 | G4 |\n  \
                     bass counter | G3 | F#3 | G3 |\n";

#[test]
fn the_page_and_its_files_are_there() {
    let served = Served::with(SHEET);
    for (path, kind) in [
        ("", "text/html"),
        ("style.css", "text/css"),
        ("main.js", "text/javascript"),
        ("score.js", "text/javascript"),
        ("lists.js", "text/javascript"),
        ("ghosts.js", "text/javascript"),
        ("listening.js", "text/javascript"),
        ("server.js", "text/javascript"),
        ("player.js", "text/javascript"),
        ("sound.js", "text/javascript"),
    ] {
        let answer = served.page.ask(path);
        assert_eq!(answer.status, 200, "{path}");
        assert!(answer.head.contains(&format!("content-type: {kind}")), "{}", answer.head);
        assert!(answer.head.contains("content-security-policy: default-src 'none'"));
        assert!(answer.head.contains("referrer-policy: no-referrer"));
    }
    assert_eq!(served.page.ask("../Cargo.toml").status, 404);
    assert_eq!(served.page.ask("%2e%2e/%2e%2e/etc/passwd").status, 404);
    assert_eq!(served.page.ask("/etc/passwd").status, 404);
}

#[test]
fn an_exercise_is_told_as_data() {
    let served = Served::with(SHEET);
    let sheet = served.page.data("sheet.json");
    assert_eq!(
        (&sheet["exercises"][0]["title"], &sheet["editor"]),
        (&"Quay".into(), &false.into())
    );
    let shown: Value = served.page.data("exercise.json?number=1&width=120&show=figures");
    let notes = shown["notes"].as_array().unwrap();
    assert_eq!(notes.len(), 6);
    let second = &notes[4];
    assert_eq!(
        (&second["voice"], &second["at"], &second["lasts"]),
        (&1.into(), &64.into(), &64.into())
    );
    assert_eq!(second["midi"], 54);
    assert_eq!(second["said"], "F#3, lower voice, bar 2");
    let svg = shown["svg"].as_str().unwrap();
    let wide: f64 =
        svg.split_once("width=\"").unwrap().1.split_once("mm").unwrap().0.parse().unwrap();
    assert!(wide > 60.0 && wide <= 120.0 && svg.contains("id=\"x1-lower-64\""), "{wide}");
    for wrong in ["number=2&width=120", "number=x&width=120", "number=1", "", "number=1&width=-3"] {
        assert_eq!(served.page.ask(&format!("exercise.json?{wrong}")).status, 404, "{wrong}");
    }
}

#[test]
fn a_sheet_that_is_not_there_is_told() {
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_bicinium"))
        .args(["view", "no-such.bicinium"])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, "bicinium: no-such.bicinium cannot be read: there is no such file.\n");
}
