//! What it costs if the server breaks inside: one result, and a word to the user, once.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities, rehearsal};
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const URI: &str = "file:///a.bicinium";
const OTHER: &str = "file:///b.bicinium";
const INTERNAL_ERROR: i64 = -32603;
const TOLD: &str = "window/showMessage";

fn editor(delivery: Delivery) -> Editor {
    let mut client = Client::start_binary(rehearsal());
    client.initialize(&capabilities(Encoding::Utf16, delivery));
    Editor::over(client, Encoding::Utf16)
}

/// Writes a comment at the head of the sheet, at which the server breaks.
fn break_while(editor: &mut Editor, moment: &str) -> usize {
    let comment = format!("// break while {moment}\n");
    editor.edit(URI, &(0..0), &comment);
    comment.len()
}

/// What the user is told says what to do.
fn assert_told(editor: &mut Editor) {
    let told = editor.client.notification(TOLD);
    assert_eq!(told["type"], 1);
    let words = told["message"].as_str().expect("the user is told words");
    for part in ["Your sheets are untouched", "bicinium lsp --record", "send FILE"] {
        assert!(words.contains(part), "{words}");
    }
}

fn count(found: &Value) -> usize {
    found.as_array().expect("findings are a list").len()
}

fn hover(uri: &str) -> Value {
    let mut params = about(uri);
    params["position"] = json!({"line": 1, "character": 13});
    params
}

#[test]
fn a_change_that_breaks_is_made_good_by_a_fresh_start() {
    let mut editor = editor(Delivery::Push);
    editor.open(URI, BROKEN);
    let before = editor.pushed(URI);
    let length = break_while(&mut editor, "editing");
    let after = editor.pushed(URI);
    assert_eq!(count(&after), count(&before));
    assert_ne!(after, before, "the findings have moved");
    assert_told(&mut editor);
    editor.edit(URI, &(0..length), "");
    assert_eq!(editor.pushed(URI), before);
    editor.end();
}

#[test]
fn a_sheet_that_cannot_be_judged_costs_only_itself_and_goes_on_with_the_next_change() {
    let mut editor = editor(Delivery::Pull);
    editor.open(URI, BROKEN);
    editor.open(OTHER, BROKEN);
    let before = [URI, OTHER].map(|uri| editor.pull(uri, None)["items"].take());
    break_while(&mut editor, "editing");
    let length = break_while(&mut editor, "judging");
    assert_eq!(editor.client.refusal("textDocument/diagnostic", &about(URI)), INTERNAL_ERROR);
    assert_eq!(editor.client.refusal("textDocument/hover", &hover(URI)), INTERNAL_ERROR);
    assert_eq!(editor.pull(OTHER, None)["items"], before[1]);
    assert_told(&mut editor);
    editor.edit(URI, &(0..length + "// break while editing\n".len()), "");
    assert_eq!(editor.pull(URI, None)["items"], before[0]);
    editor.end();
}

#[test]
fn a_question_that_breaks_is_refused_and_everything_else_goes_on() {
    let mut editor = editor(Delivery::Pull);
    editor.open(URI, BROKEN);
    break_while(&mut editor, "answering");
    for _ in 0..3 {
        assert_eq!(editor.client.refusal("textDocument/hover", &hover(URI)), INTERNAL_ERROR);
    }
    assert_told(&mut editor);
    break_while(&mut editor, "searching");
    for _ in 0..3 {
        assert_eq!(editor.client.refusal("textDocument/completion", &hover(URI)), INTERNAL_ERROR);
    }
    editor.edit(URI, &(0..editor.screen(URI).text.len()), BROKEN);
    assert_ne!(editor.client.request("textDocument/hover", &hover(URI)), Value::Null);
    editor.client.request("textDocument/completion", &hover(URI));
    editor.end();
}

#[test]
fn the_program_that_is_handed_out_does_not_break() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(URI, BROKEN);
    let before = count(&editor.pull(URI, None)["items"]);
    for moment in ["editing", "judging", "answering", "searching"] {
        break_while(&mut editor, moment);
    }
    assert_eq!(count(&editor.pull(URI, None)["items"]), before);
    editor.end();
}
