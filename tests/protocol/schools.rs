//! Rulebooks of schools: found beside the sheets, watched on disk and on screen, and told where they
//! are wrong while the last good one stays in force.

use bicinium_tests::{Delivery, Editor, Encoding, capabilities};
use serde_json::{Value, json};

/// Octaves from the first bar to the second.
const OCTAVES: &str = "\
rulebook harbour
key C major
exercise
  soprano cantus | E4 | F4 | E4 | |
  tenor counter | E3 | F3 | C4 | |
";

const GOOD: &str = "extends = \"tonal\"\n[rules.consecutive-perfects]\nlevel = \"advice\"\n";
const BROKEN: &str = "extends = \"tonal\"\n[rules.consecutive-perfekts]\nlevel = \"advice\"\n";

const ERROR: i64 = 1;
const INFORMATION: i64 = 3;

struct Folder(tempfile::TempDir);

impl Folder {
    fn new() -> Self {
        Folder(tempfile::tempdir().expect("a folder can be made"))
    }

    fn uri(&self, name: &str) -> String {
        format!("file://{}/{name}", self.0.path().display())
    }

    fn save(&self, name: &str, text: &str) {
        let path = self.0.path().join(name);
        std::fs::create_dir_all(path.parent().expect("a file has a folder"))
            .and_then(|()| std::fs::write(path, text))
            .expect("a file can be saved");
    }

    /// Saves a file, and lets the editor tell that it has changed.
    fn change(&self, editor: &mut Editor, name: &str, text: &str) {
        self.save(name, text);
        let changed = json!({"changes": [{"uri": self.uri(name), "type": 2}]});
        editor.client.notify("workspace/didChangeWatchedFiles", &changed);
    }
}

fn editor(delivery: Delivery) -> Editor {
    Editor::start(Encoding::Utf8, delivery)
}

/// How grave the octaves are.
fn severity(found: &Value) -> i64 {
    let found = found.as_array().expect("diagnostics are a list");
    let octaves = found.iter().find(|it| it["code"] == "consecutive-perfects");
    octaves.expect("the octaves are found")["severity"].as_i64().expect("a number")
}

fn pulled(editor: &mut Editor, uri: &str) -> i64 {
    severity(&editor.pull(uri, None)["items"])
}

fn has(found: &Value, code: &str) -> bool {
    found.as_array().expect("diagnostics are a list").iter().any(|it| it["code"] == code)
}

#[test]
fn a_rulebook_is_found_from_the_sheet_upwards_and_kept_apart_from_others_of_its_name() {
    let folder = Folder::new();
    folder.save("harbour.rulebook.toml", GOOD);
    folder.save("other/harbour.rulebook.toml", &GOOD.replace("advice", "fault"));
    let (near, other) = (folder.uri("class/a.bicinium"), folder.uri("other/a.bicinium"));
    let mut editor = editor(Delivery::Pull);
    editor.open(&near, OCTAVES);
    editor.open(&other, OCTAVES);
    assert_eq!(pulled(&mut editor, &near), INFORMATION);
    assert_eq!(pulled(&mut editor, &other), ERROR);
    editor.end();
}

#[test]
fn a_rulebook_that_changes_on_disk_judges_its_sheets_again_and_no_other() {
    let folder = Folder::new();
    folder.save("quay.rulebook.toml", GOOD);
    folder.save("harbour.rulebook.toml", "extends = \"quay\"");
    let (sheet, other) = (folder.uri("a.bicinium"), folder.uri("b.bicinium"));
    let mut editor = editor(Delivery::Push);
    editor.open(&sheet, OCTAVES);
    assert_eq!(severity(&editor.pushed(&sheet)), INFORMATION);
    editor.open(&other, &OCTAVES.replace("harbour", "tonal"));
    assert_eq!(severity(&editor.pushed(&other)), ERROR);
    folder.change(&mut editor, "quay.rulebook.toml", &GOOD.replace("advice", "fault"));
    assert_eq!(severity(&editor.next_push(&sheet)["diagnostics"]), ERROR);
    // A comment changes nothing, so nothing comes of it; the editor fails if it does.
    folder.change(
        &mut editor,
        "quay.rulebook.toml",
        &GOOD.replace("\"advice\"", "\"fault\" # still"),
    );
    editor.end();
}

#[test]
fn a_rulebook_that_is_not_there_yet_holds_once_it_is() {
    let folder = Folder::new();
    let sheet = folder.uri("a.bicinium");
    let mut editor = editor(Delivery::Pull);
    editor.open(&sheet, OCTAVES);
    let found = editor.pull(&sheet, None)["items"].take();
    assert!(has(&found, "rulebook") && severity(&found) == ERROR, "{found}");
    folder.change(&mut editor, "harbour.rulebook.toml", GOOD);
    let found = editor.pull(&sheet, None)["items"].take();
    assert!(!has(&found, "rulebook") && severity(&found) == INFORMATION, "{found}");
    editor.end();
}

#[test]
fn a_broken_rulebook_is_told_in_its_file_and_the_last_good_one_stays_in_force() {
    for delivery in [Delivery::Push, Delivery::Pull] {
        let folder = Folder::new();
        folder.save("harbour.rulebook.toml", GOOD);
        let (sheet, rulebook) = (folder.uri("a.bicinium"), folder.uri("harbour.rulebook.toml"));
        let mut editor = editor(delivery);
        editor.open(&sheet, OCTAVES);
        let before = match delivery {
            Delivery::Push => editor.pushed(&sheet),
            Delivery::Pull => editor.pull(&sheet, None)["items"].take(),
        };
        assert_eq!(severity(&before), INFORMATION);
        folder.change(&mut editor, "harbour.rulebook.toml", BROKEN);
        let told = editor.next_push(&rulebook)["diagnostics"].take();
        assert_eq!(told[0]["code"], "rulebook");
        let range =
            json!({"start": {"line": 1, "character": 7}, "end": {"line": 1, "character": 27}});
        assert_eq!(told[0]["range"], range);
        if delivery == Delivery::Pull {
            assert_eq!(editor.pull(&sheet, None)["items"], before);
        }
        folder.change(&mut editor, "harbour.rulebook.toml", GOOD);
        assert_eq!(editor.next_push(&rulebook)["diagnostics"], json!([]));
        editor.end();
    }
}

#[test]
fn what_was_wrong_from_the_beginning_is_told_in_both_places() {
    let folder = Folder::new();
    folder.save("harbour.rulebook.toml", BROKEN);
    let (sheet, rulebook) = (folder.uri("a.bicinium"), folder.uri("harbour.rulebook.toml"));
    let mut editor = editor(Delivery::Push);
    editor.open(&sheet, OCTAVES);
    assert_eq!(editor.next_push(&rulebook)["diagnostics"].as_array().map(Vec::len), Some(1));
    let found = editor.pushed(&sheet);
    assert!(has(&found, "rulebook") && severity(&found) == ERROR, "{found}");
    editor.close(&sheet);
    assert_eq!(editor.next_push(&sheet)["diagnostics"], json!([]));
    assert_eq!(editor.next_push(&rulebook)["diagnostics"], json!([]));
    editor.end();
}

#[test]
fn a_rulebook_on_screen_holds_as_it_is_typed() {
    let folder = Folder::new();
    folder.save("harbour.rulebook.toml", GOOD);
    let (sheet, rulebook) = (folder.uri("a.bicinium"), folder.uri("harbour.rulebook.toml"));
    let mut editor = editor(Delivery::Pull);
    editor.open(&sheet, OCTAVES);
    editor.open(&rulebook, GOOD);
    assert_eq!(pulled(&mut editor, &sheet), INFORMATION);
    let level = GOOD.find("advice").expect("a level");
    editor.edit(&rulebook, &(level..level + "advice".len()), "fault");
    assert_eq!(pulled(&mut editor, &sheet), ERROR);
    editor.edit(&rulebook, &(level..level + "fault".len()), "grave");
    let told = editor.next_push(&rulebook)["diagnostics"].take();
    assert_eq!(told[0]["range"], editor.screen(&rulebook).range(&(level - 1..level + 6)));
    assert_eq!(pulled(&mut editor, &sheet), ERROR);
    editor.close(&rulebook);
    assert_eq!(editor.next_push(&rulebook)["diagnostics"], json!([]));
    assert_eq!(pulled(&mut editor, &sheet), INFORMATION);
    editor.end();
}

#[test]
fn an_open_rulebook_is_told_its_mistakes_without_any_sheet() {
    let folder = Folder::new();
    let rulebook = folder.uri("harbour.rulebook.toml");
    let mut editor = editor(Delivery::Push);
    editor.open(&rulebook, "extends = \"quay\"\n");
    assert!(has(&editor.next_push(&rulebook)["diagnostics"], "rulebook"));
    folder.change(&mut editor, "quay.rulebook.toml", GOOD);
    assert_eq!(editor.next_push(&rulebook)["diagnostics"], json!([]));
    // It is no sheet, and nothing else can be asked about it.
    let hover = editor.ask_hover(&rulebook, 0);
    assert_eq!(editor.client.answer(hover)["result"], Value::Null);
    let format = editor.ask_format(&rulebook);
    assert_eq!(editor.client.answer(format)["result"], Value::Null);
    editor.close(&rulebook);
    editor.end();
}

#[test]
fn a_rulebook_may_be_named_by_its_path_and_change_from_line_to_line() {
    let folder = Folder::new();
    // All of it is one checkout.
    folder.save(".git/HEAD", "");
    folder.save("rules/own.toml", GOOD);
    folder.save("work/a.bicinium", "");
    let sheet = folder.uri("work/a.bicinium");
    let mut editor = editor(Delivery::Pull);
    editor.open(&sheet, &OCTAVES.replace("harbour", "\"../rules/own.toml\""));
    assert_eq!(pulled(&mut editor, &sheet), INFORMATION);
    let name = "rulebook ".len();
    editor.edit(&sheet, &(name..name + "\"../rules/own.toml\"".len()), "tonal");
    assert_eq!(pulled(&mut editor, &sheet), ERROR);
    editor.end();
}

#[test]
fn whoever_asks_for_diagnostics_is_told_when_to_ask_again() {
    let folder = Folder::new();
    folder.save("harbour.rulebook.toml", GOOD);
    let sheet = folder.uri("a.bicinium");
    let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    capabilities["workspace"] = json!({"diagnostics": {"refreshSupport": true}});
    let mut editor = Editor::with(Encoding::Utf8, &capabilities);
    editor.open(&sheet, OCTAVES);
    assert_eq!(pulled(&mut editor, &sheet), INFORMATION);
    folder.change(&mut editor, "harbour.rulebook.toml", &GOOD.replace("advice", "fault"));
    let told =
        editor.client.wait_for(|message| message["method"] == "workspace/diagnostic/refresh");
    editor.client.send(&json!({"jsonrpc": "2.0", "id": told["id"], "result": null}));
    assert_eq!(pulled(&mut editor, &sheet), ERROR);
    // What changes nothing is not told; the editor fails if it is.
    folder.change(&mut editor, "other.rulebook.toml", GOOD);
    assert_eq!(pulled(&mut editor, &sheet), ERROR);
    editor.end();
}

#[test]
fn other_files_of_the_same_ending_are_left_in_peace() {
    let folder = Folder::new();
    let (settings, sheet) = (folder.uri("settings.toml"), folder.uri("a.bicinium"));
    let mut editor = editor(Delivery::Push);
    editor.open(&settings, "[package]\nname = \"own\"\n");
    editor.open(&sheet, "");
    editor.pushed(&sheet);
    editor.close(&settings);
    editor.end();
}

#[test]
fn a_sheet_without_a_folder_has_only_what_is_built_in() {
    let mut editor = editor(Delivery::Pull);
    editor.open("untitled:Untitled-1", OCTAVES);
    let found = editor.pull("untitled:Untitled-1", None)["items"].take();
    assert!(has(&found, "rulebook"), "{found}");
    editor.end();
}

#[test]
fn a_path_leads_no_farther_than_the_folders_that_are_open() {
    let (folder, elsewhere) = (Folder::new(), Folder::new());
    elsewhere.save("harbour.toml", GOOD);
    let path = elsewhere.0.path().join("harbour.toml").display().to_string();
    let sheet = folder.uri("a.bicinium");
    let mut editor = editor(Delivery::Pull);
    editor.open(&sheet, &OCTAVES.replace("harbour", &format!("\"{path}\"")));
    let found = editor.pull(&sheet, None)["items"].take();
    assert_eq!(severity(&found), ERROR);
    assert!(found.to_string().contains("it lies outside the workspace"), "{found}");
    let allowed = json!({"settings": {"bicinium": {"mayUse": [elsewhere.0.path()]}}});
    editor.client.notify("workspace/didChangeConfiguration", &allowed);
    assert_eq!(pulled(&mut editor, &sheet), INFORMATION);
    editor.end();
}
