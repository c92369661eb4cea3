//! The whole workspace: every sheet in the folders of the client is marked, open or not, and told only
//! where something has changed.

use std::path::Path;

use bicinium_tests::{Client, Delivery, Editor, Encoding, capabilities};
use serde_json::{Value, json};

const SLIP: &str = "exercise\n  soprano | c5 |\n  tenor | C4 |\n";
const BORROWER: &str = "use \"songs.bicinium\"\nexercise\n  soprano cantus quay-song | G4 |\n";

struct Folder(tempfile::TempDir);

impl Folder {
    fn new(sheets: &[(&str, &str)]) -> Self {
        let folder = Folder(tempfile::tempdir().expect("a folder can be made"));
        for (name, text) in sheets {
            folder.save(name, text);
        }
        folder
    }

    fn save(&self, name: &str, text: &str) {
        let path = self.0.path().join(name);
        let parent = path.parent().expect("it lies in the folder");
        std::fs::create_dir_all(parent).expect("a folder can be made");
        std::fs::write(path, text).expect("a sheet can be saved");
    }

    fn uri(&self, name: &str) -> String {
        address(&self.0.path().join(name))
    }
}

fn address(path: &Path) -> String {
    format!("file://{}", path.display())
}

fn start(folders: &[&Folder], delivery: Delivery) -> Editor {
    let folders = folders.iter().map(|it| json!({"uri": address(it.0.path()), "name": "sheets"}));
    let mut client = Client::start();
    let offer = client.request(
        "initialize",
        &json!({"processId": null, "rootUri": null, "workspaceFolders": folders.collect::<Vec<_>>(),
                "capabilities": capabilities(Encoding::Utf8, delivery)}),
    );
    let offered = &offer["capabilities"]["diagnosticProvider"]["workspaceDiagnostics"];
    assert_eq!(offered.as_bool(), (delivery == Delivery::Pull).then_some(true));
    assert_eq!(offer["capabilities"]["workspace"]["workspaceFolders"]["supported"], true);
    client.notify("initialized", &json!({}));
    Editor::over(client, Encoding::Utf8)
}

fn look(editor: &mut Editor, previous: &[Value]) -> Vec<Value> {
    let params = json!({"previousResultIds": previous});
    let mut report = editor.client.request("workspace/diagnostic", &params);
    serde_json::from_value(report["items"].take()).expect("items are a list")
}

fn of<'r>(reports: &'r [Value], uri: &str) -> &'r Value {
    let mut found = reports.iter().filter(|it| it["uri"] == uri);
    let report = found.next().unwrap_or_else(|| panic!("{uri} is not in {reports:?}"));
    assert!(found.next().is_none(), "{uri} comes twice");
    report
}

fn ids(reports: &[Value]) -> Vec<Value> {
    let known = reports.iter().filter(|it| it["resultId"].is_string());
    known.map(|it| json!({"uri": it["uri"], "value": it["resultId"]})).collect()
}

fn codes(report: &Value) -> Vec<&str> {
    let items = report["items"].as_array().expect("a full report");
    items.iter().filter_map(|it| it["code"].as_str()).collect()
}

#[test]
fn sheets_that_are_not_open_are_marked_too() {
    let folder = Folder::new(&[("a.bicinium", SLIP), ("deep/b.bicinium", "// nothing\n")]);
    folder.save("notes.txt", SLIP);
    let mut editor = start(&[&folder], Delivery::Pull);
    let reports = look(&mut editor, &[]);
    assert_eq!(reports.len(), 2, "{reports:?}");
    let slip = of(&reports, &folder.uri("a.bicinium"));
    assert!(codes(slip).contains(&"letter-case") && slip["version"].is_null(), "{slip}");
    assert_eq!(codes(of(&reports, &folder.uri("deep/b.bicinium"))), Vec::<&str>::new());
    editor.end();
}

#[test]
fn what_is_unchanged_is_told_in_short() {
    let folder = Folder::new(&[("a.bicinium", SLIP), ("b.bicinium", SLIP)]);
    let mut editor = start(&[&folder], Delivery::Pull);
    let first = look(&mut editor, &[]);
    let again = look(&mut editor, &ids(&first));
    assert!(again.iter().all(|it| it["kind"] == "unchanged"), "{again:?}");
    folder.save("a.bicinium", &SLIP.replace("c5", "C5"));
    let third = look(&mut editor, &ids(&first));
    assert!(!codes(of(&third, &folder.uri("a.bicinium"))).contains(&"letter-case"));
    assert_eq!(of(&third, &folder.uri("b.bicinium"))["kind"], "unchanged");
    std::fs::remove_file(folder.0.path().join("b.bicinium")).expect("it is there");
    let fourth = look(&mut editor, &ids(&first));
    assert_eq!(of(&fourth, &folder.uri("b.bicinium"))["items"], json!([]));
    editor.end();
}

#[test]
fn an_open_sheet_counts_as_it_is_on_screen_and_comes_once() {
    let folder = Folder::new(&[("a.bicinium", SLIP)]);
    let mut editor = start(&[&folder], Delivery::Pull);
    let uri = folder.uri("a.bicinium");
    editor.open(&uri, &SLIP.replace("c5", "C5"));
    let reports = look(&mut editor, &[]);
    let report = of(&reports, &uri);
    assert_eq!(report["version"], 1);
    assert!(!codes(report).contains(&"letter-case"));
    let pulled = editor.pull(&uri, report["resultId"].as_str());
    assert_eq!(pulled["kind"], "unchanged");
    editor.end();
}

#[test]
fn a_sheet_that_uses_another_is_marked_anew_with_it() {
    let song = |name: &str| format!("cantus {name}\n  key G major\n  line | G4 |\n");
    let folder = Folder::new(&[("a.bicinium", BORROWER), ("songs.bicinium", &song("quay-song"))]);
    let mut editor = start(&[&folder], Delivery::Pull);
    let first = look(&mut editor, &[]);
    let is_unknown = |reports: &[Value]| {
        codes(of(reports, &folder.uri("a.bicinium"))).contains(&"cantus-unknown")
    };
    assert!(!is_unknown(&first));
    folder.save("songs.bicinium", &song("other-song"));
    assert!(is_unknown(&look(&mut editor, &ids(&first))));
    editor.end();
}

#[test]
fn folders_come_and_go() {
    let (one, two) = (Folder::new(&[("a.bicinium", SLIP)]), Folder::new(&[("b.bicinium", SLIP)]));
    let mut editor = start(&[&one], Delivery::Pull);
    let first = look(&mut editor, &[]);
    assert_eq!(first.len(), 1);
    let entry = |it: &Folder| json!({"uri": address(it.0.path()), "name": "sheets"});
    let event = json!({"event": {"added": [entry(&two)], "removed": [entry(&one)]}});
    editor.client.notify("workspace/didChangeWorkspaceFolders", &event);
    let second = look(&mut editor, &ids(&first));
    assert!(codes(of(&second, &two.uri("b.bicinium"))).contains(&"letter-case"));
    assert_eq!(of(&second, &one.uri("a.bicinium"))["items"], json!([]));
    editor.end();
}

#[test]
fn how_far_it_has_come_is_told_to_whoever_wants_to_know() {
    let folder = Folder::new(&[]);
    (0..20).for_each(|number| folder.save(&format!("{number}.bicinium"), SLIP));
    let mut editor = start(&[&folder], Delivery::Pull);
    let params = json!({"previousResultIds": [], "workDoneToken": "look"});
    let report = editor.client.request("workspace/diagnostic", &params);
    assert_eq!(report["items"].as_array().map(Vec::len), Some(20));
    let mut kinds = Vec::new();
    while kinds.last().is_none_or(|last| last != "end") {
        let told = editor.client.notification("$/progress");
        assert_eq!(told["token"], "look");
        kinds.push(told["value"]["kind"].as_str().expect("a kind").to_owned());
    }
    assert_eq!(kinds, ["begin", "report", "report", "end"]);
    editor.end();
}

#[test]
fn whoever_is_pushed_to_cannot_ask() {
    let folder = Folder::new(&[("a.bicinium", SLIP)]);
    let mut editor = start(&[&folder], Delivery::Push);
    let refused = editor.client.refusal("workspace/diagnostic", &json!({"previousResultIds": []}));
    assert_eq!(refused, -32601);
    editor.end();
}
