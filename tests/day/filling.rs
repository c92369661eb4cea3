//! The one command of the server: it fills an exercise, by an edit that it asks the editor to make.

use bicinium_tests::{Client, Editor, Encoding, writer};
use serde_json::{Value, json};

use crate::SHEET;

/// Gives the command, and holds the notes that come against those of a fresh server. The editor does
/// not take them, for it has a mind of its own.
pub fn compare(editor: &mut Editor, exercise: usize) {
    let notes = fill(&mut editor.client, exercise);
    let mut fresh = Editor::with(Encoding::Utf16, &writer::capabilities());
    let text = editor.screen(SHEET).text.clone();
    fresh.open(SHEET, &text);
    let anew = fill(&mut fresh.client, exercise);
    fresh.end();
    // A search that was ended by the clock brings nothing; the other one may have come further.
    if !notes.is_null() && !anew.is_null() {
        assert_eq!(notes, anew, "exercise {exercise} in:\n{text}");
    }
}

/// The changes that the server asks for; null if there are none.
fn fill(client: &mut Client, exercise: usize) -> Value {
    let params = json!({"command": "bicinium.fill", "arguments": [SHEET, exercise]});
    let question = client.ask("workspace/executeCommand", &params);
    let (mut notes, mut is_told) = (Value::Null, false);
    loop {
        let mut message = client.wait_for(|message| is_of(message, question));
        match message["method"].as_str() {
            Some("workspace/applyEdit") => {
                notes = message["params"]["edit"]["changes"].take();
                let refused = json!({"applied": false});
                client.send(&json!({"jsonrpc": "2.0", "id": message["id"], "result": refused}));
            }
            Some(_) => is_told = true,
            None => {
                let code = message["error"]["code"].as_i64();
                assert!(code.is_none_or(|code| code == NO_SUCH_EXERCISE), "{message}");
                // Why the sheet is as it was may be told a moment after the answer.
                if code.is_none() && !is_told {
                    client.notification("window/showMessage");
                }
                return notes;
            }
        }
    }
}

/// What the protocol calls parameters that mean nothing.
const NO_SUCH_EXERCISE: i64 = -32602;

/// Whether a message is the answer, or something that the server says meanwhile.
fn is_of(message: &Value, question: i64) -> bool {
    match message["method"].as_str() {
        None => message["id"] == question,
        Some(method) => matches!(method, "workspace/applyEdit" | "window/showMessage"),
    }
}
