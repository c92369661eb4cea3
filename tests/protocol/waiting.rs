//! Work that takes a while, questions that are taken back, and clients that do not listen.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about};
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const LARGE: &str = "file:///large.bicinium";
const SMALL: &str = "file:///small.bicinium";
const CANCELLED: i64 = -32800;

/// A sheet that takes a while to judge.
fn large() -> String {
    let exercise = |number: usize| format!("exercise \"No. {number}\"\n{}", rows(number));
    (1..=300).map(exercise).collect()
}

fn rows(number: usize) -> String {
    let row = |notes: [&str; 4]| {
        let turned = [&notes[number % 4..], &notes[..number % 4]].concat();
        (turned.join(" | ") + " | ").repeat(6)
    };
    let (upper, lower) = (row(["C5", "D5", "E5", "B5"]), row(["A3", "G3", "C3", "G3"]));
    format!("  key C major\n  species 1\n  soprano | {upper}\n  bass | {lower}\n")
}

fn hover(uri: &str) -> Value {
    let mut params = about(uri);
    params["position"] = json!({"line": 4, "character": 9});
    params
}

#[test]
fn many_waiting_questions_stop_nobody() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(LARGE, &large());
    let waiting: Vec<_> =
        (0..50).map(|_| editor.client.ask("textDocument/hover", &hover(LARGE))).collect();
    editor.open(SMALL, BROKEN);
    assert_ne!(editor.pull(SMALL, None)["items"], json!([]));
    for id in waiting {
        assert_ne!(editor.client.answer(id)["result"], Value::Null);
    }
    editor.end();
}

#[test]
fn a_question_that_is_taken_back_is_answered_once() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(LARGE, &large());
    let waiting: Vec<_> =
        (0..50).map(|_| editor.client.ask("textDocument/hover", &hover(LARGE))).collect();
    for id in &waiting {
        editor.client.notify("$/cancelRequest", &json!({"id": id}));
    }
    let answers: Vec<_> = waiting.iter().map(|&id| editor.client.answer(id)).collect();
    let cancelled = |answer: &&Value| answer["error"]["code"] == CANCELLED;
    assert!(answers.iter().filter(cancelled).count() > 0);
    assert!(answers.iter().all(|it| cancelled(&it) || it.get("result").is_some()));
    let again = editor.client.request("textDocument/hover", &hover(LARGE));
    assert_ne!(again, Value::Null);
    editor.client.notify("$/cancelRequest", &json!({"id": waiting[0]}));
    editor.client.notify("$/cancelRequest", &json!({"id": "never asked"}));
    editor.end();
}

#[test]
fn a_client_that_does_not_read_is_still_heard() {
    const QUESTIONS: i64 = 5000;
    let mut client = Client::start_deaf();
    let handshake = client.ask("initialize", &json!({"capabilities": {}}));
    let questions: Vec<_> =
        (0..QUESTIONS).map(|_| client.ask("textDocument/hover", &hover(SMALL))).collect();
    client.listen();
    assert!(client.answer(handshake).get("result").is_some());
    for id in questions {
        assert_eq!(client.answer(id)["result"], Value::Null);
    }
    client.end();
}

#[test]
fn exit_is_heard_while_a_sheet_is_being_judged() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Push);
    editor.open(LARGE, &large());
    editor.client.send(&json!({"jsonrpc": "2.0", "method": "exit"}));
    assert_eq!(editor.client.exit_code(), 1);
}

#[test]
fn exit_is_heard_from_a_client_that_does_not_read() {
    let mut client = Client::start_deaf();
    client.ask("initialize", &json!({"capabilities": {}}));
    for _ in 0..3000 {
        client.ask("textDocument/hover", &hover(SMALL));
    }
    client.ask("shutdown", &Value::Null);
    client.send(&json!({"jsonrpc": "2.0", "method": "exit"}));
    assert_eq!(client.exit_code(), 0);
}
