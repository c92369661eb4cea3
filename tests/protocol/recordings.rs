//! Sessions that are recorded and played again.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use bicinium_tests::{Client, Delivery, Editor, Encoding, bicinium, capabilities};
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const SHEET: &str = "file:///sheet.bicinium";

struct Place {
    _folder: tempfile::TempDir,
    file: PathBuf,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let file = folder.path().join("session.jsonl");
        Place { _folder: folder, file }
    }

    fn lines(&self) -> Vec<Value> {
        let text = std::fs::read_to_string(&self.file).expect("the recording is there");
        text.lines().map(|line| serde_json::from_str(line).expect("a line is an object")).collect()
    }

    fn replace(&self, old: &str, new: &str) {
        let text = std::fs::read_to_string(&self.file).expect("the recording is there");
        assert!(text.contains(old), "{old} is not in the recording");
        std::fs::write(&self.file, text.replacen(old, new, 1)).expect("it can be written");
    }
}

fn recorded(file: &Path, capabilities: &Value) -> Editor {
    let mut client = Client::start_with(&["--record".as_ref(), file.as_os_str()]);
    client.initialize(capabilities);
    Editor::over(client, Encoding::Utf16)
}

fn replay(file: &Path) -> Output {
    Command::new(bicinium()).arg("replay").arg(file).output().expect("the binary runs")
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn assert_same(file: &Path) {
    let output = replay(file);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    assert!(told(&output).contains("All answers are the same."), "{output:?}");
}

fn write_a_little(editor: &mut Editor) {
    editor.open(SHEET, BROKEN);
    let question = editor.ask_hover(SHEET, BROKEN.find("C5").expect("it is there"));
    editor.client.answer(question);
    let at = BROKEN.find("c3").expect("it is there");
    editor.edit(SHEET, &(at..at + 1), "C");
    let at = BROKEN.find("H4").expect("it is there");
    editor.edit(SHEET, &(at..at + 1), "B");
    let fixes = editor.actions(SHEET, &(0..BROKEN.len()), &json!({"diagnostics": []}));
    assert!(!fixes.is_empty());
}

#[test]
fn every_message_is_taken_down_with_its_time() {
    let place = Place::new();
    let mut editor = recorded(&place.file, &capabilities(Encoding::Utf16, Delivery::Pull));
    write_a_little(&mut editor);
    editor.end();
    let lines = place.lines();
    assert_eq!(lines[0]["bicinium_recording"], 1);
    let times: Vec<_> = lines[1..].iter().map(|line| line["ms"].as_u64().unwrap()).collect();
    assert!(times.is_sorted());
    let from = |sender| lines.iter().filter(move |line| line["from"] == sender);
    let methods: Vec<_> =
        from("client").map(|line| line["message"]["method"].as_str().unwrap()).collect();
    assert_eq!(
        methods,
        [
            "initialize",
            "initialized",
            "textDocument/didOpen",
            "textDocument/hover",
            "textDocument/didChange",
            "textDocument/didChange",
            "textDocument/codeAction",
            "shutdown",
            "exit"
        ]
    );
    assert_eq!(from("server").count(), 4);
}

#[test]
fn a_session_with_questions_is_the_same_again() {
    let place = Place::new();
    let mut editor = recorded(&place.file, &capabilities(Encoding::Utf16, Delivery::Pull));
    write_a_little(&mut editor);
    let report = editor.pull(SHEET, None);
    editor.pull(SHEET, report["resultId"].as_str());
    editor.end();
    assert_same(&place.file);
}

#[test]
fn a_session_in_which_the_server_speaks_unasked_is_the_same_again() {
    let place = Place::new();
    for version_support in [true, false] {
        let mut announced = capabilities(Encoding::Utf16, Delivery::Push);
        announced["textDocument"]["publishDiagnostics"]["versionSupport"] = version_support.into();
        announced["workspace"] = json!({"didChangeWatchedFiles": {"dynamicRegistration": true}});
        let file = place.file.with_extension(version_support.to_string());
        let mut editor = recorded(&file, &announced);
        let asked = editor.client.wait_for(|it| it["method"] == "client/registerCapability");
        editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null}));
        write_a_little(&mut editor);
        let mut shown = editor.next_push(SHEET);
        while shown["diagnostics"]
            .as_array()
            .unwrap()
            .iter()
            .any(|it| it["code"] == "unknown-letter")
        {
            shown = editor.next_push(SHEET);
        }
        editor.client.kill();
        assert_same(&file);
    }
}

#[test]
fn another_answer_is_told_with_its_place() {
    let place = Place::new();
    let mut editor = recorded(&place.file, &capabilities(Encoding::Utf16, Delivery::Pull));
    write_a_little(&mut editor);
    editor.end();
    place.replace("**C5, upper voice, bar 3**", "**C5, upper voice, bar 33**");
    let output = replay(&place.file);
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    let told = told(&output);
    assert!(told.contains("1 answer differs"), "{told}");
    assert!(told.contains("the answer to textDocument/hover (request 2)"), "{told}");
    assert!(told.contains("at result.contents.value"), "{told}");
    assert!(told.contains("bar 33") && told.contains("now"), "{told}");
}

#[test]
fn a_session_that_ends_badly_leaves_a_recording() {
    let place = Place::new();
    let mut editor = recorded(&place.file, &capabilities(Encoding::Utf16, Delivery::Pull));
    write_a_little(&mut editor);
    editor.client.kill();
    assert_eq!(place.lines().last().unwrap()["from"], "server");
    assert_same(&place.file);
    let text = std::fs::read_to_string(&place.file).unwrap();
    std::fs::write(&place.file, &text[..text.len() - 9]).unwrap();
    assert_same(&place.file);
}

#[test]
fn bytes_that_are_no_message_are_taken_down_too() {
    let place = Place::new();
    let mut editor = recorded(&place.file, &json!({}));
    editor.client.send_raw(b"Content-Length: 5\r\n\r\n{\"a\":");
    assert_eq!(editor.client.answer(Value::Null)["error"]["code"], -32700);
    editor.end();
    assert_same(&place.file);
}

#[test]
fn a_file_that_is_there_is_replaced_only_if_that_is_asked_for() {
    let place = Place::new();
    std::fs::write(&place.file, "a diary").unwrap();
    let run = |arguments: &[&str]| {
        let mut command = Command::new(bicinium());
        command.args(["lsp", "--record"]).arg(&place.file).args(arguments);
        command.stdin(std::process::Stdio::null()).output().expect("the binary runs")
    };
    let refused = run(&[]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("is not replaced"), "{refused:?}");
    assert_eq!(std::fs::read_to_string(&place.file).unwrap(), "a diary");
    run(&["--force"]);
    assert_eq!(place.lines().len(), 1);
}

#[test]
fn what_is_no_recording_cannot_be_played() {
    let place = Place::new();
    for text in [None, Some("G4 A4\n"), Some("{\"bicinium_recording\":99,\"version\":\"9\"}\n")] {
        if let Some(text) = text {
            std::fs::write(&place.file, text).unwrap();
        }
        let output = replay(&place.file);
        assert_eq!(output.status.code(), Some(2), "{output:?}");
        assert!(String::from_utf8_lossy(&output.stderr).contains("cannot be played"), "{output:?}");
    }
}
