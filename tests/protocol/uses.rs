//! Sheets that take cantus definitions from other sheets: open ones as they are on screen, others
//! as they are on disk.

use std::path::Path;

use bicinium_tests::{Client, Delivery, Editor, Encoding, capabilities};
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

/// An editor that has the folder open.
fn editor(folder: &Folder, delivery: Delivery) -> Editor {
    editor_with(Some(folder.disk.path()), &json!({}), delivery)
}

fn editor_with(root: Option<&Path>, settings: &Value, delivery: Delivery) -> Editor {
    let root = root.map(|path| format!("file://{}", path.display()));
    let mut client = Client::start();
    client.request(
        "initialize",
        &json!({"processId": null, "rootUri": root, "initializationOptions": settings,
                "capabilities": capabilities(Encoding::Utf8, delivery)}),
    );
    client.notify("initialized", &json!({}));
    Editor::over(client, Encoding::Utf8)
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
    let mut editor = editor(&folder, Delivery::Pull);
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
    let mut editor = editor(&folder, Delivery::Pull);
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
    let mut editor = editor(&folder, Delivery::Pull);
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
    let mut editor = editor(&folder, Delivery::Pull);
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
    let mut editor = editor(&folder, Delivery::Push);
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
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
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
        ("/dev/stdin", "it is a link that leads nowhere"),
        #[cfg(unix)]
        ("/dev/zero", "it is not a file"),
    ] {
        let settings = json!({"mayUse": ["/dev", "/proc"]});
        let mut editor = editor_with(Some(folder.disk.path()), &settings, Delivery::Pull);
        editor.open(&folder.exercise, &format!("use \"{path}\"\n"));
        let found = editor.pull(&folder.exercise, None)["items"].take();
        let message = found[0]["message"].as_str().expect("something is found");
        assert!(message.contains(reason), "{path}: {message}");
        editor.end();
    }
}

/// What is told about the `use` lines of a sheet.
fn about_uses(editor: &mut Editor, uri: &str) -> Vec<String> {
    let found = editor.pull(uri, None)["items"].take();
    let found = found.as_array().expect("diagnostics are a list");
    let told = found.iter().filter(|it| it["code"].as_str().is_some_and(|it| it.contains("use")));
    told.filter_map(|it| Some(it["message"].as_str()?.to_owned())).collect()
}

#[test]
fn what_lies_outside_the_folders_that_are_open_is_used_only_if_it_is_allowed() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    let written = folder.disk.path().join("written");
    let given = folder.disk.path().join("given");
    for (root, settings, is_used) in [
        (Some(written.as_path()), json!({}), false),
        (None, json!({}), false),
        (Some(folder.disk.path()), json!({}), true),
        (Some(written.as_path()), json!({"mayUse": [given]}), true),
    ] {
        let mut editor = editor_with(root, &settings, Delivery::Pull);
        editor.open(&folder.exercise, EXERCISE);
        let told = about_uses(&mut editor, &folder.exercise);
        assert_eq!(told.is_empty(), is_used, "{root:?} {settings} {told:?}");
        assert!(told.iter().all(|it| it.contains("it lies outside the workspace")), "{told:?}");
        editor.end();
    }
}

#[test]
fn folders_that_are_opened_and_allowed_later_count_at_once() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    let written = folder.disk.path().join("written");
    let mut editor = editor_with(Some(&written), &json!({}), Delivery::Pull);
    editor.open(&folder.exercise, EXERCISE);
    assert_eq!(about_uses(&mut editor, &folder.exercise).len(), 1);
    let given = folder.disk.path().join("given");
    let entry = json!({"uri": format!("file://{}", given.display()), "name": "given"});
    let change =
        |added: Value, removed: Value| json!({"event": {"added": added, "removed": removed}});
    let event = change(json!([entry]), json!([]));
    editor.client.notify("workspace/didChangeWorkspaceFolders", &event);
    assert_eq!(about_uses(&mut editor, &folder.exercise), [""; 0]);
    let event = change(json!([]), json!([entry]));
    editor.client.notify("workspace/didChangeWorkspaceFolders", &event);
    assert_eq!(about_uses(&mut editor, &folder.exercise).len(), 1);
    let settings = json!({"settings": {"bicinium": {"mayUse": [given]}}});
    editor.client.notify("workspace/didChangeConfiguration", &settings);
    assert_eq!(about_uses(&mut editor, &folder.exercise), [""; 0]);
    editor.end();
}

#[test]
fn a_name_that_is_defined_outside_leads_nowhere() {
    let folder = Folder::new();
    folder.save_songs(&definition("quay-song"));
    for (root, is_found) in
        [(folder.disk.path().join("written"), false), (folder.disk.path().into(), true)]
    {
        let mut editor = editor_with(Some(&root), &json!({}), Delivery::Pull);
        editor.open(&folder.exercise, EXERCISE);
        let place = json!({"line": 2, "character": "  soprano cantus quay".len()});
        let params = json!({"textDocument": {"uri": folder.exercise}, "position": place});
        let defined = editor.client.request("textDocument/definition", &params);
        assert_eq!(!defined.is_null(), is_found, "{defined}");
        editor.end();
    }
}

#[test]
fn sheets_that_go_in_a_circle_are_told_so_as_long_as_they_do() {
    let folder = Folder::new();
    let back = "use \"../written/exercise.bicinium\"\n";
    let mut editor = editor(&folder, Delivery::Pull);
    editor.open(&folder.songs, &format!("{back}{}", definition("quay-song")));
    editor.open(&folder.exercise, EXERCISE);
    let told = about_uses(&mut editor, &folder.exercise);
    assert!(told.len() == 1 && told[0].contains("songs.bicinium uses this sheet"), "{told:?}");
    assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
    let told = about_uses(&mut editor, &folder.songs);
    assert!(told.len() == 1 && told[0].contains("exercise.bicinium uses this sheet"), "{told:?}");
    editor.edit(&folder.songs, &(0..back.len()), "");
    assert_eq!(about_uses(&mut editor, &folder.exercise), [""; 0]);
    editor.end();
}

#[cfg(unix)]
mod links {
    use std::os::unix::fs::symlink;

    use super::*;

    fn link(folder: &Folder, to: &Path) {
        let path = folder.disk.path().join("given/songs.bicinium");
        symlink(to, path).expect("a link can be made");
    }

    #[test]
    fn a_link_is_followed_before_it_is_said_where_it_leads() {
        let outside = tempfile::tempdir().expect("a folder can be made");
        let secret = outside.path().join("secret.bicinium");
        std::fs::write(&secret, definition("quay-song")).expect("a sheet can be saved");
        for (to, reason) in [
            (secret.as_path(), "it lies outside the workspace"),
            (&outside.path().join("nothing.bicinium"), "it is a link that leads nowhere"),
            (Path::new("songs.bicinium"), "it is a link that cannot be followed to its end"),
            (Path::new("/dev/zero"), "it lies outside the workspace"),
        ] {
            let folder = Folder::new();
            link(&folder, to);
            let mut editor = editor(&folder, Delivery::Pull);
            editor.open(&folder.exercise, EXERCISE);
            let told = about_uses(&mut editor, &folder.exercise);
            assert!(told.len() == 1 && told[0].contains(reason), "{to:?}: {told:?}");
            editor.end();
        }
    }

    #[test]
    fn a_change_behind_a_link_reaches_those_who_use_the_link() {
        let folder = Folder::new();
        let real = folder.disk.path().join("real.bicinium");
        std::fs::write(&real, definition("quay-song")).expect("a sheet can be saved");
        link(&folder, &real);
        let mut editor = editor(&folder, Delivery::Pull);
        editor.open(&folder.exercise, EXERCISE);
        assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
        let uri = format!("file://{}", real.display());
        editor.open(&uri, &definition("other-song"));
        assert!(!is_known(&editor.pull(&folder.exercise, None)["items"]));
        editor.close(&uri);
        assert!(is_known(&editor.pull(&folder.exercise, None)["items"]));
        std::fs::write(&real, definition("other-song")).expect("a sheet can be saved");
        let changed = json!({"changes": [{"uri": uri, "type": 2}]});
        editor.client.notify("workspace/didChangeWatchedFiles", &changed);
        assert!(!is_known(&editor.pull(&folder.exercise, None)["items"]));
        editor.end();
    }
}
