//! Diagnostics: pushed or pulled, never both, never late, never twice.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::json;

use crate::sheets::{BROKEN, EMPTY, UNREADABLE};

const SHEET: &str = "file:///sheet.bicinium";
const METHOD_NOT_FOUND: i64 = -32601;

fn editor(delivery: Delivery) -> Editor {
    Editor::start(Encoding::Utf16, delivery)
}

#[test]
fn whoever_cannot_ask_is_told() {
    let mut client = Client::start();
    let offer = client.initialize(&capabilities(Encoding::Utf16, Delivery::Push));
    assert_eq!(offer["capabilities"].get("diagnosticProvider"), None);
    assert_eq!(client.refusal("textDocument/diagnostic", &about(SHEET)), METHOD_NOT_FOUND);
    client.end();
}

#[test]
fn whoever_asks_is_not_told() {
    let mut client = Client::start();
    let offer = client.initialize(&capabilities(Encoding::Utf16, Delivery::Pull));
    assert_eq!(offer["capabilities"]["diagnosticProvider"]["interFileDependencies"], true);
    let document = json!({"uri": SHEET, "languageId": "bicinium", "version": 1, "text": BROKEN});
    client.notify("textDocument/didOpen", &json!({"textDocument": document}));
    let found = client.request("textDocument/diagnostic", &about(SHEET));
    assert!(!found["items"].as_array().unwrap().is_empty());
    client.notify("textDocument/didClose", &about(SHEET));
    client.end();
}

#[test]
fn both_ways_lead_to_the_same() {
    let mut told = editor(Delivery::Push);
    let mut asks = editor(Delivery::Pull);
    told.open(SHEET, BROKEN);
    asks.open(SHEET, BROKEN);
    let found = told.pushed(SHEET);
    assert!(found.as_array().unwrap().len() >= UNREADABLE.len());
    assert_eq!(found, asks.pull(SHEET, None)["items"]);
    told.end();
    asks.end();
}

#[test]
fn a_diagnostic_says_what_it_is_and_where_it_comes_from() {
    let mut editor = editor(Delivery::Push);
    editor.open(SHEET, BROKEN);
    let found = editor.pushed(SHEET);
    let at = BROKEN.find("c3").unwrap();
    let range = editor.screen(SHEET).range(&(at..at + 2));
    let diagnostic = found.as_array().unwrap().iter().find(|it| it["range"] == range).unwrap();
    assert_eq!(diagnostic["source"], "bicinium");
    assert_eq!(diagnostic["severity"], 1);
    assert_eq!(diagnostic["code"], "letter-case");
    assert!(!diagnostic["message"].as_str().unwrap().is_empty());
    editor.end();
}

#[test]
fn an_answer_that_has_not_changed_is_not_given_twice() {
    let mut editor = editor(Delivery::Pull);
    editor.open(SHEET, BROKEN);
    let first = editor.pull(SHEET, None);
    assert_eq!(first["kind"], "full");
    let id = first["resultId"].as_str().unwrap();
    assert_eq!(editor.pull(SHEET, Some(id)), json!({"kind": "unchanged", "resultId": id}));
    let at = BROKEN.find("H4").unwrap();
    editor.edit(SHEET, &(at..at + 1), "B");
    let second = editor.pull(SHEET, Some(id));
    assert_eq!(second["kind"], "full");
    assert_ne!(second["resultId"], first["resultId"]);
    editor.edit(SHEET, &(at..at + 1), "H");
    assert_eq!(editor.pull(SHEET, Some(id))["kind"], "unchanged");
    editor.end();
}

#[test]
fn what_is_shown_already_is_not_sent_again() {
    let mut without_versions = capabilities(Encoding::Utf16, Delivery::Push);
    without_versions["textDocument"]["publishDiagnostics"] = json!({});
    let mut editor = Editor::with(Encoding::Utf16, &without_versions);
    editor.open(SHEET, BROKEN);
    let first = editor.next_push(SHEET);
    assert_eq!(first.get("version"), None);
    for word in ["//", " the", " end"] {
        let end = editor.screen(SHEET).text.len();
        editor.edit(SHEET, &(end..end), word);
        let question = editor.ask_hover(SHEET, 0);
        editor.client.answer(question);
    }
    let at = BROKEN.find("H4").unwrap();
    editor.edit(SHEET, &(at..at + 1), "B");
    let second = editor.next_push(SHEET);
    assert_ne!(second["diagnostics"], first["diagnostics"]);
    editor.end();
}

#[test]
fn closing_clears_what_is_shown() {
    let mut editor = editor(Delivery::Push);
    editor.open(SHEET, BROKEN);
    assert_ne!(editor.pushed(SHEET), json!([]));
    editor.close(SHEET);
    assert_eq!(editor.next_push(SHEET)["diagnostics"], json!([]));
    editor.open(SHEET, EMPTY);
    assert_eq!(editor.pushed(SHEET), json!([]));
    editor.close(SHEET);
    editor.end();
}

#[test]
fn opening_anew_begins_anew() {
    let mut editor = editor(Delivery::Push);
    for round in 0..20 {
        editor.open(SHEET, if round % 2 == 0 { BROKEN } else { EMPTY });
        let found = editor.pushed(SHEET);
        assert_eq!(found.as_array().unwrap().is_empty(), round % 2 == 1);
    }
    editor.end();
}

#[test]
fn an_accepted_finding_is_a_hint_that_tells_the_reason() {
    let sheet = "\
exercise
  key     C major
  soprano | C5 | D5 | E5 | C5 |
  bass    | F3 | G3 | C3 | C3 |
  allow consecutive-perfects because \"the echo is meant\"
";
    let mut editor = editor(Delivery::Push);
    editor.open(SHEET, sheet);
    let found = editor.pushed(SHEET);
    let fifths = found.as_array().unwrap().iter().find(|it| it["code"] == "consecutive-perfects");
    let fifths = fifths.unwrap_or_else(|| panic!("the fifths are not among {found}"));
    assert_eq!(fifths["severity"], 4);
    assert!(fifths["message"].as_str().unwrap().contains("the echo is meant"));
    let places = fifths["relatedInformation"].as_array().unwrap();
    let licence = sheet.find("allow").unwrap()..sheet.trim_end().len();
    let range = editor.screen(SHEET).range(&licence);
    assert!(places.iter().any(|it| it["location"]["range"] == range), "{places:?}");
    editor.end();
}
