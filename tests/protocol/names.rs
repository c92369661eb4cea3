//! Names across sheets, open and not: where a cantus is defined, who follows it, how it gets another name.

use std::collections::BTreeMap;
use std::path::PathBuf;

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

const SONGS: &str = "cantus quay-song\n  line | C4 | D4 |\n\ncantus mill-song\n  line | G4 |\n";
const MONDAY: &str = "use \"songs.bicinium\"\nexercise \"first\"\n  soprano cantus quay-song | C5 |\n\
                      exercise\n  bass cantus quay-song | C3 |\n";
const TUESDAY: &str = "use \"songs.bicinium\"\nexercise\n  alto cantus quay-song | C4 |\n";
/// Follows a cantus of the same name that is its own.
const OTHER: &str = "cantus quay-song\n  line | E4 |\nexercise\n  alto cantus quay-song | E4 |\n";

/// Hovers over a word of Monday's sheet.
fn hover(school: &mut School, word: &str) -> String {
    let params = school.about(word);
    let said = school.editor.client.request("textDocument/hover", &params);
    said["contents"]["value"].as_str().unwrap_or_default().to_owned()
}

#[test]
fn a_cantus_tells_its_key_its_length_and_where_it_comes_from() {
    let mut school = School::new();
    let said = hover(&mut school, "quay-song");
    for fact in ["quay-song", "C major", "2 bars", "C4 D4", "defined in songs.bicinium"] {
        assert!(said.contains(fact), "{fact}: {said}");
    }
    let length = MONDAY.len();
    let more = "exercise\n  alto cantus fux-dorian | D4 |\n";
    school.editor.edit(&school.monday.clone(), &(length..length), more);
    let said = hover(&mut school, "fux-dorian");
    for fact in ["D dorian", "11 bars", "Gradus ad Parnassum, Vienna 1725"] {
        assert!(said.contains(fact), "{fact}: {said}");
    }
    let own = "cantus fux-dorian\n  key E phrygian\n  line | E4 |\n";
    let length = length + more.len();
    school.editor.edit(&school.monday.clone(), &(length..length), own);
    let said = hover(&mut school, "fux-dorian");
    assert!(said.contains("E phrygian") && said.contains("defined in this sheet"), "{said}");
    school.editor.end();
}

#[test]
fn the_paths_of_other_sheets_are_completed_within_the_workspace() {
    let mut school = School::new();
    let inside = school.folder.path().join("given");
    std::fs::create_dir(&inside).expect("a folder can be made");
    std::fs::write(inside.join("dances.bicinium"), "").expect("a sheet can be saved");
    std::fs::write(inside.join("notes.txt"), "").expect("a file can be saved");
    for (path, offered) in [
        ("", vec!["given/", "other.bicinium", "songs.bicinium", "tuesday.bicinium"]),
        ("given/", vec!["dances.bicinium", "../"]),
        ("given/../", vec!["given/", "other.bicinium", "songs.bicinium", "tuesday.bicinium"]),
        ("../", vec![]),
        ("/", vec![]),
    ] {
        let uri = school.monday.clone();
        let line = format!("use \"{path}");
        school.editor.edit(&uri, &(0..0), &format!("{line}\"\n"));
        let mut params = about(&uri);
        params["position"] = json!({"line": 0, "character": line.len()});
        params["context"] = json!({"triggerKind": 2, "triggerCharacter": "\""});
        let found = school.editor.client.request("textDocument/completion", &params);
        let items = found["items"].as_array().cloned().unwrap_or_default();
        let labels: Vec<_> = items.iter().filter_map(|it| it["label"].as_str()).collect();
        assert_eq!(labels, offered, "{path}");
        school.editor.edit(&uri, &(0..line.len() + 2), "");
    }
    school.editor.end();
}

/// A school with four sheets, one of them open.
struct School {
    editor: Editor,
    folder: tempfile::TempDir,
    monday: String,
}

impl School {
    fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let sheets = [("songs", SONGS), ("monday", MONDAY), ("tuesday", TUESDAY), ("other", OTHER)];
        for (name, text) in sheets {
            let path = folder.path().join(format!("{name}.bicinium"));
            std::fs::write(path, text).expect("a sheet can be saved");
        }
        let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
        capabilities["textDocument"]["rename"] = json!({"prepareSupport": true});
        let root = format!("file://{}", folder.path().display());
        let folders = json!([{"uri": root, "name": "school"}]);
        let mut client = Client::start();
        let params = json!({"capabilities": capabilities, "workspaceFolders": folders});
        client.request("initialize", &params);
        client.notify("initialized", &json!({}));
        let mut editor = Editor::over(client, Encoding::Utf8);
        let monday = format!("{root}/monday.bicinium");
        editor.open(&monday, MONDAY);
        School { editor, folder, monday }
    }

    fn about(&self, word: &str) -> Value {
        let screen = self.editor.screen(&self.monday);
        let mut params = about(&self.monday);
        params["position"] = screen.position(screen.text.find(word).expect("it is there"));
        params
    }

    fn path(&self, uri: &str) -> (String, PathBuf) {
        let path = PathBuf::from(uri.strip_prefix("file://").expect("a file"));
        let name = path.strip_prefix(self.folder.path()).expect("in the school");
        (name.display().to_string(), path.clone())
    }

    /// Where locations lie, as sheets and lines.
    fn places(&self, locations: &Value) -> Vec<(String, u64)> {
        let all = locations.as_array().expect("locations are a list").iter();
        let place = |it: &Value| {
            let uri = it["uri"].as_str().expect("an address");
            (self.path(uri).0, it["range"]["start"]["line"].as_u64().expect("a line"))
        };
        let mut places: Vec<_> = all.map(place).collect();
        places.sort();
        places
    }
}

fn at(sheet: &str, line: u64) -> (String, u64) {
    (format!("{sheet}.bicinium"), line)
}

#[test]
fn a_name_leads_to_its_definition_in_another_sheet() {
    let mut school = School::new();
    let params = school.about("quay-song");
    let found = school.editor.client.request("textDocument/definition", &params);
    assert_eq!(school.places(&found), [at("songs", 0)]);
    school.editor.end();
}

#[test]
fn whoever_follows_the_same_cantus_is_found_and_nobody_else() {
    let mut school = School::new();
    for with_definition in [false, true] {
        let mut params = school.about("quay-song");
        params["context"] = json!({"includeDeclaration": with_definition});
        let found = school.editor.client.request("textDocument/references", &params);
        let mut expected = vec![at("monday", 2), at("monday", 4), at("tuesday", 2)];
        if with_definition {
            expected.insert(2, at("songs", 0));
        }
        assert_eq!(school.places(&found), expected);
    }
    school.editor.end();
}

#[test]
fn a_cantus_gets_another_name_in_all_sheets_that_share_it() {
    let mut school = School::new();
    let mut params = school.about("quay-song");
    let prepared = school.editor.client.request("textDocument/prepareRename", &params);
    assert_eq!(prepared["placeholder"], "quay-song");
    params["newName"] = "bridge-song".into();
    let edit = school.editor.client.request("textDocument/rename", &params);
    let changes = edit["changes"].as_object().expect("changes by sheet");
    let mut texts = BTreeMap::new();
    for (uri, edits) in changes {
        let (name, path) = school.path(uri);
        let text = std::fs::read_to_string(path).expect("the sheet is there");
        let mut screen = bicinium_tests::ScreenText::new(&text, Encoding::Utf8);
        screen.apply(edits);
        texts.insert(name, screen.text);
    }
    let renamed = |text: &str| text.replace("quay-song", "bridge-song");
    let expected = [("monday", MONDAY), ("songs", SONGS), ("tuesday", TUESDAY)];
    let expected: Vec<_> =
        expected.map(|(name, text)| (format!("{name}.bicinium"), renamed(text))).into();
    assert_eq!(texts.into_iter().collect::<Vec<_>>(), expected);
    school.editor.end();
}

#[test]
fn a_name_that_is_taken_or_none_is_refused_in_words() {
    let mut school = School::new();
    for (new, reason) in [
        ("mill-song", "There is a cantus named mill-song already"),
        ("fux-dorian", "is the name of a cantus that comes with bicinium"),
        ("two words", "cannot be the name of a cantus"),
        ("", "cannot be the name of a cantus"),
        ("a|b", "cannot be the name of a cantus"),
        ("x//y", "cannot be the name of a cantus"),
    ] {
        let mut params = school.about("quay-song");
        params["newName"] = new.into();
        let question = school.editor.client.ask("textDocument/rename", &params);
        let answer = school.editor.client.answer(question);
        let said = answer["error"]["message"].as_str().unwrap_or_default();
        assert!(said.contains(reason), "{new}: {answer}");
    }
    school.editor.end();
}

#[test]
fn a_cantus_that_comes_with_the_program_keeps_its_name() {
    let mut school = School::new();
    let sheet = "exercise\n  soprano cantus fux-dorian | D5 |\n  bass cantus nowhere | D3 |\n";
    let everything = 0..MONDAY.len();
    school.editor.edit(&school.monday, &everything, sheet);
    for (name, reason) in [
        ("fux-dorian", "fux-dorian comes with bicinium (J. J. Fux, Gradus ad Parnassum"),
        ("nowhere", "No cantus named nowhere is defined"),
    ] {
        let mut params = school.about(name);
        params["newName"] = "bridge-song".into();
        for method in ["textDocument/prepareRename", "textDocument/rename"] {
            let question = school.editor.client.ask(method, &params);
            let answer = school.editor.client.answer(question);
            let said = answer["error"]["message"].as_str().unwrap_or_default();
            assert!(said.starts_with(reason), "{method}: {answer}");
        }
        let found = school.editor.client.request("textDocument/definition", &params);
        assert_eq!(found, Value::Null, "{name} is written in no sheet");
    }
    school.editor.end();
}

#[test]
fn a_title_is_renamed_where_it_stands() {
    let mut school = School::new();
    let mut params = school.about("first");
    params["newName"] = "No. 1".into();
    let edit = school.editor.client.request("textDocument/rename", &params);
    let mut screen = school.editor.screen(&school.monday).clone();
    screen.apply(&edit["changes"][&school.monday]);
    assert_eq!(screen.text, MONDAY.replace("\"first\"", "\"No. 1\""));
    params["newName"] = "\"".into();
    let question = school.editor.client.ask("textDocument/rename", &params);
    assert!(school.editor.client.answer(question)["error"].is_object());
    school.editor.end();
}

#[test]
fn what_is_no_name_cannot_be_renamed() {
    let mut school = School::new();
    let params = school.about("soprano");
    for method in ["prepareRename", "definition"] {
        let method = format!("textDocument/{method}");
        assert_eq!(school.editor.client.request(&method, &params), Value::Null, "{method}");
    }
    school.editor.end();
}
