//! What an editor asks about a sheet: what is said, what can be mended, how it is laid out.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

use crate::sheets::{BROKEN, EMPTY};

const SHEET: &str = "file:///sheet.bicinium";

fn editor() -> Editor {
    Editor::start(Encoding::Utf8, Delivery::Pull)
}

fn edits(action: &Value) -> &Value {
    &action["edit"]["changes"][SHEET]
}

#[test]
fn a_fix_carries_its_edits_and_needs_nothing_sent_back() {
    let mut editor = editor();
    editor.open(SHEET, BROKEN);
    let at = BROKEN.find("c3").unwrap();
    let fixes = editor.actions(SHEET, &(at..at + 2), &json!({"diagnostics": []}));
    let fix = fixes.iter().find(|it| it["isPreferred"] == true).unwrap();
    assert_eq!(fix["kind"], "quickfix");
    assert_eq!(fix["diagnostics"][0]["code"], "letter-case");
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(edits(fix));
    assert_eq!(screen.text, BROKEN.replace("c3", "C3"));
    editor.end();
}

#[test]
fn fixes_are_for_the_place_that_is_asked_about() {
    let mut editor = editor();
    editor.open(SHEET, BROKEN);
    let at = BROKEN.find("C5").unwrap();
    assert_eq!(editor.actions(SHEET, &(0..5), &json!({"diagnostics": []})), Vec::<Value>::new());
    let fixes = editor.actions(SHEET, &(at + 3..BROKEN.len()), &json!({"diagnostics": []}));
    assert!(!fixes.is_empty());
    editor.end();
}

#[test]
fn only_the_kinds_that_are_asked_for_are_offered() {
    let mut editor = editor();
    editor.open(SHEET, BROKEN);
    let all = 0..BROKEN.len();
    for (only, offers) in
        [("quickfix", true), ("", true), ("refactor", false), ("source.organizeImports", false)]
    {
        let fixes = editor.actions(SHEET, &all, &json!({"diagnostics": [], "only": [only]}));
        assert_eq!(!fixes.is_empty(), offers, "{only:?}");
    }
    editor.end();
}

#[test]
fn edits_name_the_version_where_that_is_understood() {
    let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    capabilities["workspace"] = json!({"workspaceEdit": {"documentChanges": true}});
    let mut editor = Editor::with(Encoding::Utf8, &capabilities);
    editor.open(SHEET, BROKEN);
    editor.edit(SHEET, &(0..0), "// one more line\n");
    let text = editor.screen(SHEET).text.clone();
    let at = text.find("c3").unwrap();
    let fixes = editor.actions(SHEET, &(at..at), &json!({"diagnostics": []}));
    let fix = fixes.iter().find(|it| it["isPreferred"] == true).unwrap();
    let change = &fix["edit"]["documentChanges"][0];
    assert_eq!(change["textDocument"], json!({"uri": SHEET, "version": 2}));
    assert_eq!(fix["edit"].get("changes"), None);
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(&change["edits"]);
    assert_eq!(screen.text, text.replace("c3", "C3"));
    editor.end();
}

#[test]
fn whoever_takes_only_commands_is_offered_no_fixes() {
    let mut client = Client::start();
    let offer = client.initialize(&json!({}));
    assert_eq!(offer["capabilities"].get("codeActionProvider"), None);
    client.end();
}

#[test]
fn hovers_come_in_the_form_that_is_shown() {
    for (form, expected) in [
        (json!({"contentFormat": ["markdown", "plaintext"]}), "markdown"),
        (json!({"contentFormat": ["plaintext"]}), "plaintext"),
        (json!({}), "plaintext"),
    ] {
        let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
        capabilities["textDocument"]["hover"] = form;
        let mut editor = Editor::with(Encoding::Utf8, &capabilities);
        editor.open(SHEET, BROKEN);
        let question = editor.ask_hover(SHEET, BROKEN.find("C5").unwrap());
        let hover = editor.client.answer(question)["result"].take();
        assert_eq!(hover["contents"]["kind"], expected);
        let bytes = editor.screen(SHEET).bytes(&hover["range"]);
        assert_eq!(&BROKEN[bytes], "C5");
        editor.end();
    }
}

#[test]
fn formatting_is_done_after_one_round_and_says_no_more() {
    let mut editor = editor();
    editor.open(SHEET, "exercise\nsoprano|C5|D##5 E5|\n      bass | C4 | D4|\n");
    let question = editor.ask_format(SHEET);
    let edits = editor.client.answer(question)["result"].take();
    assert_ne!(edits, json!([]));
    let mut screen = editor.screen(SHEET).clone();
    let before = screen.text.len();
    screen.apply(&edits);
    editor.edit(SHEET, &(0..before), &screen.text);
    let question = editor.ask_format(SHEET);
    assert_eq!(editor.client.answer(question)["result"], json!([]));
    editor.end();
}

#[test]
fn a_barline_lays_out_the_system_that_it_stands_in() {
    let mut editor = editor();
    let rough = "exercise\n  soprano | C5 | D##5 E5 |\n  bass | C4 |\n\n  soprano|C5|\n";
    editor.open(SHEET, rough);
    let typed = rough.find("C4 |").unwrap() + 4;
    let mut params = about(SHEET);
    params["position"] = editor.screen(SHEET).position(typed);
    params["ch"] = "|".into();
    params["options"] = json!({"tabSize": 2, "insertSpaces": true});
    let edits = editor.client.request("textDocument/onTypeFormatting", &params);
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(&edits);
    assert!(screen.text.contains("\n  bass    | C4 |\n"), "{}", screen.text);
    assert!(screen.text.ends_with("soprano|C5|\n"), "{}", screen.text);
    params["range"] = editor.screen(SHEET).range(&(typed..rough.len()));
    let edits = editor.client.request("textDocument/rangeFormatting", &params);
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(&edits);
    assert!(screen.text.ends_with("soprano | C5 |\n"), "{}", screen.text);
    editor.end();
}

#[test]
fn nothing_is_said_about_what_is_not_open_or_not_there() {
    let mut editor = editor();
    editor.open(SHEET, EMPTY);
    let mut params = about("file:///other.bicinium");
    params["position"] = json!({"line": 0, "character": 0});
    assert_eq!(editor.client.request("textDocument/hover", &params), Value::Null);
    params["options"] = json!({"tabSize": 2, "insertSpaces": true});
    assert_eq!(editor.client.request("textDocument/formatting", &params), Value::Null);
    let found = editor.client.request("textDocument/diagnostic", &params);
    assert_eq!(found["items"], json!([]));
    let question = editor.ask_hover(SHEET, 0);
    assert_eq!(editor.client.answer(question)["result"], Value::Null);
    editor.end();
}

fn labels(found: &Value) -> Vec<&str> {
    let items = found["items"].as_array().expect("completions are a list").iter();
    items.map(|item| item["label"].as_str().expect("a label")).collect()
}

#[test]
fn words_are_completed_with_what_they_mean() {
    let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    capabilities["textDocument"]["completion"] =
        json!({"completionItem": {"documentationFormat": ["markdown"]}});
    let mut editor = Editor::with(Encoding::Utf8, &capabilities);
    let text = "exercise\n  key G mix\n  soprano | C5 | \n";
    editor.open(SHEET, text);
    let mut params = about(SHEET);
    params["position"] = editor.screen(SHEET).position(text.find("mix").unwrap() + 2);
    params["context"] = json!({"triggerKind": 1});
    let found = editor.client.request("textDocument/completion", &params);
    let labels = labels(&found);
    let mode = labels.iter().position(|label| *label == "mixolydian").expect("it is offered");
    let item = &found["items"][mode];
    assert_eq!(item["documentation"]["kind"], "markdown");
    assert_eq!(&text[editor.screen(SHEET).bytes(&item["textEdit"]["range"])], "mix");
    // A blank in a bar brings nothing up.
    params["position"] = editor.screen(SHEET).position(text.len() - 1);
    params["context"] = json!({"triggerKind": 2, "triggerCharacter": " "});
    assert_eq!(editor.client.request("textDocument/completion", &params), Value::Null);
    editor.end();
}

#[test]
fn a_rulebook_is_completed_as_it_is_on_screen() {
    let school = "untitled:harbour.rulebook.toml";
    let mut editor = editor();
    editor.open(school, "extends = \"tonal\"\n\n[rules.crossing]\nlevel = \n");
    let at = editor.screen(school).text.find("level = ").unwrap() + "level = ".len();
    let mut params = about(school);
    params["position"] = editor.screen(school).position(at);
    let found = editor.client.request("textDocument/completion", &params);
    assert_eq!(labels(&found), ["\"fault\"", "\"caution\"", "\"advice\"", "\"off\""]);
    editor.end();
}
