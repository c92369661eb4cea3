//! Positions in every encoding, and positions that are nowhere.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

use crate::sheets::{BROKEN, UNREADABLE};

const SHEET: &str = "file:///sheet.bicinium";

fn encoding_for(capabilities: &Value) -> Value {
    let mut client = Client::start();
    let mut offer = client.initialize(capabilities);
    client.end();
    offer["capabilities"]["positionEncoding"].take()
}

#[test]
fn bytes_are_chosen_where_they_are_offered() {
    for (offered, chosen) in [
        (json!(["utf-16", "utf-8"]), "utf-8"),
        (json!(["utf-32", "utf-16"]), "utf-16"),
        (json!(["utf-32"]), "utf-32"),
        (json!([]), "utf-16"),
    ] {
        assert_eq!(encoding_for(&json!({"general": {"positionEncodings": offered}})), chosen);
    }
    assert_eq!(encoding_for(&json!({})), Value::Null);
}

#[test]
fn findings_lie_where_they_are_written_in_every_encoding() {
    for encoding in Encoding::ALL {
        let mut editor = Editor::start(encoding, Delivery::Push);
        editor.open(SHEET, BROKEN);
        let found = editor.pushed(SHEET);
        let found = found.as_array().unwrap();
        for unreadable in UNREADABLE {
            let at = BROKEN.find(unreadable).unwrap();
            let range = editor.screen(SHEET).range(&(at..at + unreadable.len()));
            assert!(found.iter().any(|it| it["range"] == range), "{unreadable} in {encoding:?}");
        }
        editor.end();
    }
}

#[test]
fn an_editor_that_offers_nothing_counts_in_utf_16() {
    let mut silent = capabilities(Encoding::Utf16, Delivery::Push);
    silent.as_object_mut().unwrap().remove("general");
    let mut editor = Editor::with(Encoding::Utf16, &silent);
    editor.open(SHEET, BROKEN);
    let range =
        editor.screen(SHEET).range(&(BROKEN.find("H4").unwrap()..BROKEN.find("H4").unwrap() + 2));
    let found = editor.pushed(SHEET);
    assert!(found.as_array().unwrap().iter().any(|it| it["range"] == range));
    editor.end();
}

#[test]
fn no_position_is_too_far_off() {
    for encoding in Encoding::ALL {
        let mut editor = Editor::start(encoding, Delivery::Pull);
        editor.open(SHEET, "// é ♯ 𝄪\nexercise \"𝄞\"\n  soprano | F𝄪4 D♭5 | H4 | c5 |");
        for line in [0, 1, 2, 3, 4, 5, 1_000, u32::MAX] {
            for character in [0, 1, 13, 14, 15, 16, 17, 18, 19, 500, u32::MAX] {
                let mut params = about(SHEET);
                params["position"] = json!({"line": line, "character": character});
                editor.client.request("textDocument/hover", &params);
                let end = json!({"line": character, "character": line});
                params["range"] = json!({"start": params["position"], "end": end});
                params["context"] = json!({"diagnostics": []});
                editor.client.request("textDocument/codeAction", &params);
            }
        }
        editor.end();
    }
}

#[test]
fn changes_beyond_the_text_are_brought_inside() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, "exercise\n  soprano | C5 |");
    let range = json!({
        "start": {"line": 1, "character": 4_000_000_000_u32},
        "end": {"line": 4_000_000_000_u32, "character": 0}
    });
    let change = json!({"range": range, "text": " H4 |\n"});
    let identifier = json!({"uri": SHEET, "version": 2});
    let params = json!({"textDocument": identifier, "contentChanges": [change]});
    editor.client.notify("textDocument/didChange", &params);
    let found = editor.pull(SHEET, None);
    let starts: Vec<_> =
        found["items"].as_array().unwrap().iter().map(|it| &it["range"]["start"]).collect();
    assert!(starts.contains(&&json!({"line": 1, "character": 17})), "{found}");
    editor.end();
}
