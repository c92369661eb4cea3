//! What can still become of an exercise: told above it, filled in by name, and noticed as soon as it
//! cannot be finished any more.

use std::process::Command;

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, bicinium, capabilities};
use serde_json::{Value, json};

const SHEET: &str = "file:///ahead.bicinium";
const CONTENT_MODIFIED: i64 = -32801;

/// The leading note cannot be reached from F5 by a good leap.
const CLOSED: &str = "rulebook modal
key D dorian

exercise \"Harbour\"
  species 1
  soprano counter | A4 | ? | F5 | ? | D5 |
  tenor   cantus  | D4 | F4 | D4 | E4 | D4 |
";

/// Much is open here, in the species with the most ways.
const FLORID: &str = "rulebook modal
key D dorian

exercise
  species 5
  soprano counter |    |    |    |    |    |    |    |    |    |    |    |
  tenor   cantus  | D4 | F4 | E4 | D4 | G4 | F4 | A4 | G4 | F4 | E4 | D4 |
";

fn editor(delivery: Delivery) -> Editor {
    let mut capabilities = capabilities(Encoding::Utf16, delivery);
    capabilities["textDocument"]["codeLens"] = json!({});
    capabilities["window"] = json!({"workDoneProgress": true});
    Editor::with(Encoding::Utf16, &capabilities)
}

/// Waits until the server says that the sheet cannot be finished.
fn dead_end(editor: &mut Editor) -> Value {
    loop {
        let shown = editor.next_push(SHEET);
        let found = shown["diagnostics"].as_array().expect("diagnostics are a list").clone();
        if let Some(found) = found.into_iter().find(|it| it["code"] == "dead-end") {
            return found;
        }
    }
}

/// The lens that says what can become of the first exercise.
fn prospect(editor: &mut Editor) -> Value {
    let lenses = editor.client.request("textDocument/codeLens", &about(SHEET));
    let mut lenses = lenses.as_array().expect("lenses are a list").clone().into_iter();
    let open = lenses.find(|lens| lens.get("data").is_some()).expect("something is open");
    editor.client.request("codeLens/resolve", &open)
}

fn title(lens: &Value) -> &str {
    lens["command"]["title"].as_str().expect("a lens says something")
}

/// How many ways the command line finds.
fn counted(text: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder for a sheet");
    let path = folder.path().join("sheet.bicinium");
    std::fs::write(&path, text).expect("the sheet is written");
    let arguments = ["realize", "--count", "--format", "json"];
    let output = Command::new(bicinium()).args(arguments).arg(&path).output().expect("it runs");
    let answer: Value = serde_json::from_slice(&output.stdout).expect("it answers in JSON");
    assert_eq!(answer["exact"], true);
    answer["count"].as_str().expect("a number").to_owned()
}

#[test]
fn what_cannot_be_finished_is_told_at_the_note_that_stands_in_the_way() {
    let mut editor = editor(Delivery::Push);
    editor.open(SHEET, CLOSED);
    let found = dead_end(&mut editor);
    let bytes = editor.screen(SHEET).bytes(&found["range"]);
    assert_eq!(&CLOSED[bytes.clone()], "F5", "{found}");
    assert_eq!(found["severity"], 2);
    assert!(found["message"].as_str().expect("a message").contains("F5 in bar 3"), "{found}");
    assert!(title(&prospect(&mut editor)).starts_with("no realization"));
    let actions = editor.actions(SHEET, &bytes, &json!({"diagnostics": [], "only": ["quickfix"]}));
    let reopening: Vec<_> =
        actions.iter().filter(|it| it["diagnostics"][0]["code"] == "dead-end").collect();
    assert_eq!(reopening.len(), 2, "another note, or none: {actions:?}");
    for action in reopening {
        let mut screen = editor.screen(SHEET).clone();
        screen.apply(&action["edit"]["changes"][SHEET]);
        assert_ne!(counted(&screen.text), "0", "{action}");
    }
    editor.edit(SHEET, &bytes, "?");
    let shown = editor.pushed(SHEET);
    let mut shown = shown.as_array().expect("a list").iter();
    assert!(shown.all(|it| it["code"] != "dead-end"));
    editor.client.kill();
}

#[test]
fn who_asks_for_findings_is_told_to_ask_again() {
    let mut capabilities = capabilities(Encoding::Utf16, Delivery::Pull);
    capabilities["workspace"]["diagnostics"] = json!({"refreshSupport": true});
    capabilities["workspace"]["diagnostic"] = json!({"refreshSupport": true});
    let mut editor = Editor::with(Encoding::Utf16, &capabilities);
    editor.open(SHEET, CLOSED);
    let asked = editor.client.wait_for(|it| it["method"] == "workspace/diagnostic/refresh");
    editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null}));
    let report = editor.pull(SHEET, None);
    let mut items = report["items"].as_array().expect("a list").iter();
    assert!(items.any(|it| it["code"] == "dead-end"), "{report}");
    editor.end();
}

#[test]
fn the_number_of_ways_stands_above_and_the_best_is_filled_in() {
    let open = CLOSED.replace("F5", "?");
    let mut editor = editor(Delivery::Pull);
    editor.open(SHEET, &open);
    let lens = prospect(&mut editor);
    let number = counted(&open);
    assert!(title(&lens).starts_with(&format!("{number} realization")), "{lens}");
    let mut command = lens["command"].clone();
    command["workDoneToken"] = json!("filling");
    let id = editor.client.ask("workspace/executeCommand", &command);
    let asked = editor.client.wait_for(|it| it["method"] == "workspace/applyEdit");
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(&asked["params"]["edit"]["changes"][SHEET]);
    let result = json!({"applied": true});
    editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": result}));
    assert_eq!(editor.client.answer(id)["result"], Value::Null);
    assert!(!screen.text.contains('?'), "{}", screen.text);
    editor.edit(SHEET, &(0..open.len()), &screen.text);
    assert_eq!(editor.pull(SHEET, None)["items"], json!([]), "{}", screen.text);
    let progress = |kind: &'static str| {
        move |it: &Value| it["method"] == "$/progress" && it["params"]["value"]["kind"] == kind
    };
    editor.client.wait_for(progress("begin"));
    editor.client.wait_for(progress("end"));
    editor.client.kill();
}

#[test]
fn a_search_that_is_not_wanted_any_more_ends_and_changes_nothing() {
    let mut editor = editor(Delivery::Pull);
    editor.open(SHEET, FLORID);
    let params =
        json!({"command": "bicinium.fill", "arguments": [SHEET, 1], "workDoneToken": "filling"});
    let id = editor.client.ask("workspace/executeCommand", &params);
    editor.client.wait_for(|it| it["params"]["value"]["kind"] == "begin");
    editor.client.notify("window/workDoneProgress/cancel", &json!({"token": "filling"}));
    let answer = editor.client.answer(id);
    assert_eq!(answer["error"]["code"], Value::Null, "{answer}");
    let said = editor.client.notification("window/showMessage");
    assert_eq!(said["message"], "The search was ended; nothing was filled.");
    editor.client.kill();
}

#[test]
fn an_answer_about_a_text_that_has_changed_since_is_not_given() {
    let mut editor = editor(Delivery::Pull);
    editor.open(SHEET, FLORID);
    let lenses = editor.client.request("textDocument/codeLens", &about(SHEET));
    let id = editor.client.ask("codeLens/resolve", &lenses[1]);
    editor.edit(SHEET, &(0..0), "// later\n");
    assert_eq!(editor.client.answer(id)["error"]["code"], CONTENT_MODIFIED);
    editor.client.kill();
}

#[test]
fn a_command_that_makes_no_sense_is_refused() {
    let mut client = Client::start();
    client.initialize(&json!({}));
    let refused = [
        json!({"command": "bicinium.nothing"}),
        json!({"command": "bicinium.fill"}),
        json!({"command": "bicinium.fill", "arguments": ["no address", 1]}),
        json!({"command": "bicinium.fill", "arguments": [SHEET, -1]}),
    ];
    for params in refused {
        assert_eq!(client.refusal("workspace/executeCommand", &params), -32602, "{params}");
    }
    client.end();
}
