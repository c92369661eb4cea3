//! Sheets that take cantus definitions from other sheets: open ones as they are on screen, others
//! as they are on disk.

use std::path::Path;

use bicinium_tests::{Delivery, Editor, Encoding, capabilities};
use serde_json::{Value, json};

const EXERCISE: &str = "\
use \"../given/songs.bicinium\"
exercise
  soprano cantus quay-song | G4 | A4 | G4 |
";

fn definition(name: &str) -> String {
    format!("cantus {name}\n  key G major\n  line | G4 | A4 | G4 |\n")
}

/// A folder with one for exercises and one for what is given, and the addresses of the sheets.
struct Folder {
    songs: String,
    exercise: String,
    disk: tempfile::TempDir,
}

impl Folder {
    fn new() -> Self {
        let disk = tempfile::tempdir().expect("a folder can be made");
        for folder in ["given", "written"] {
            std::fs::create_dir(disk.path().join(folder)).expect("a folder can be made");
        }
        let address = |path: &Path, sheet| format!("file://{}/{sheet}", path.display());
        Folder {
            songs: address(disk.path(), "given/songs.bicinium"),
            exercise: address(disk.path(), "written/exercise.bicinium"),
            disk,
        }
    }

    fn save_songs(&self, text: &str) {
        let path = self.disk.path().join("given/songs.bicinium");
        std::fs::write(path, text).expect("a sheet can be saved");
    }
}

fn editor(delivery: Delivery) -> Editor {
    Editor::start(Encoding::Utf8, delivery)
}

fn codes(found: &Value) -> Vec<&str> {
    let found = found.as_array().expect("diagnostics are a list");
    found.iter().filter_map(|it| it["code"].as_str()).collect()
}

fn is_known(found: &Value) -> bool {
    !codes(found).iter().any(|code| ["use", "cantus-unknown"].contains(code))
}

#[test]
fn a_sheet_that_is_not_there_is_reported_where_it_is_named() {
    let folder = Folder::new();
    let mut editor = editor(Delivery::Pull);
    editor.open(&folder.exercise, EXERCISE);
    let found = editor.pull(&folder.exercise, None)["items"].take();
    assert!(codes(&found).contains(&"use") && codes(&found).contains(&"cantus-unknown"), "{found}");
    assert_eq!(found[0]["range"]["start"], json!({"line": 0, "character": 4}));
    editor.end();
}

#[test]
fn a_sheet_on_disk_lends_its_definitions() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    let mut editor = editor(Delivery::Pull);
    editor.open(&folder.exercise, EXERCISE);
    let found = editor.pull(&folder.exercise, None)["items"].take();
    assert!(is_known(&found), "{found}");
    folder.save_songs(&definition("harbour-song"));
    let changed = json!({"changes": [{"uri": folder.songs, "type": 2}]});
    editor.client.notify("workspace/didChangeWatchedFiles", &changed);
    let found = editor.pull(&folder.exercise, None)["items"].take();
    assert!(codes(&found).contains(&"cantus-unknown"), "{found}");
    editor.end();
}

#[test]
fn an_open_sheet_lends_what_is_on_screen_until_it_is_closed() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    let mut editor = editor(Delivery::Pull);
    editor.open(&folder.songs, &definition("other-song"));
    editor.open(&folder.exercise, EXERCISE);
    assert!(!is_known(&editor.pull(&folder.exercise, None)["items"]));
    let name = "cantus ".len();
    editor.edit(&folder.songs, &(name..name + "other".len()), "quay");
    assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.edit(&folder.songs, &(name..name + "quay".len()), "pier");
    assert!(!is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.close(&folder.songs);
    assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.end();
}

#[test]
fn a_sheet_that_is_used_no_more_lends_nothing() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    let mut editor = editor(Delivery::Pull);
    editor.open(&folder.exercise, EXERCISE);
    assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.edit(&folder.exercise, &(0..0), "// ");
    assert!(!is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.edit(&folder.exercise, &(0..3), "");
    assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
    editor.end();
}

#[test]
fn news_from_a_used_sheet_are_pushed() {
    let folder = Folder::new();
    let mut editor = editor(Delivery::Push);
    editor.open(&folder.exercise, EXERCISE);
    assert!(!is_known(&editor.pushed(&folder.exercise)));
    editor.open(&folder.songs, &definition("quay-song"));
    assert!(is_known(&editor.next_push(&folder.exercise)["diagnostics"]));
    editor.pushed(&folder.songs);
    editor.end();
}

#[test]
fn an_editor_that_watches_files_is_asked_to_watch_sheets_and_rulebooks() {
    let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    capabilities["workspace"] = json!({"didChangeWatchedFiles": {"dynamicRegistration": true}});
    let mut editor = Editor::with(Encoding::Utf8, &capabilities);
    let asked = editor.client.wait_for(|message| message["method"] == "client/registerCapability");
    let registration = &asked["params"]["registrations"][0];
    assert_eq!(registration["method"], "workspace/didChangeWatchedFiles");
    let watchers = &registration["registerOptions"]["watchers"];
    let globs = watchers.as_array().expect("watchers are a list").iter();
    let globs: Vec<_> = globs.map(|watcher| &watcher["globPattern"]).collect();
    assert_eq!(globs, ["**/*.bicinium", "**/*.toml"]);
    editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null}));
    editor.end();
}

#[test]
fn a_sheet_without_a_folder_cannot_use_others() {
    let mut editor = editor(Delivery::Pull);
    editor.open("untitled:Untitled-1", EXERCISE);
    assert!(!is_known(&editor.pull("untitled:Untitled-1", None)["items"]));
    editor.end();
}

#[test]
fn what_is_no_sheet_of_a_sensible_size_is_not_read() {
    let folder = Folder::new();
    folder.save_songs("");
    let songs = folder.disk.path().join("given/songs.bicinium");
    let file = std::fs::File::options().write(true).open(songs).expect("the sheet is there");
    file.set_len(1 << 30).expect("a file can be long");
    for (path, reason) in [
        ("../given/songs.bicinium", "it is too long"),
        ("../given", "it is not a file"),
        #[cfg(unix)]
        ("/dev/stdin", "it is not a file"),
        #[cfg(unix)]
        ("/dev/zero", "it is not a file"),
    ] {
        let mut editor = editor(Delivery::Pull);
        editor.open(&folder.exercise, &format!("use \"{path}\"\n"));
        let found = editor.pull(&folder.exercise, None)["items"].take();
        let message = found[0]["message"].as_str().expect("something is found");
        assert!(message.contains(reason), "{path}: {message}");
        editor.end();
    }
}
