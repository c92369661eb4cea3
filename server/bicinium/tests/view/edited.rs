//! The page that the language server shows of a sheet as it stands in the editor: it follows every change,
//! lights up the note at the cursor, and what is chosen on it is selected and written by the editor.

use bicinium_tests::{Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

use crate::SHEET;
use crate::guest::Page;

const URI: &str = "file:///nowhere/quay.bicinium";

const HOLES: &str = "rulebook tonal
key C major

exercise \"Holes\"
  species 1
  soprano counter | G4 | ? | C5 | B4 | ? | C5 |
  tenor   cantus  | C4 | E4 | F4 | G4 | D4 | C4 |
";

/// An editor whose sheet is shown.
pub struct Edited {
    pub page: Page,
    editor: Editor,
    text: String,
}

fn able() -> Value {
    let mut able = capabilities(Encoding::Utf16, Delivery::Pull);
    able["window"] = json!({"showDocument": {"support": true}});
    able["workspace"] = json!({"applyEdit": true});
    able
}

fn editor_with(capabilities: &Value, text: &str) -> Editor {
    let mut editor = Editor::with(Encoding::Utf16, capabilities);
    editor.open(URI, text);
    editor
}

/// The command that shows the score, where the cursor is in an exercise.
fn command(editor: &mut Editor, byte: usize) -> Option<Value> {
    let actions = editor.actions(URI, &(byte..byte), &json!({"diagnostics": []}));
    let action = actions.into_iter().find(|action| action["command"] == "bicinium.showScore")?;
    Some(json!({"command": action["command"], "arguments": action["arguments"]}))
}

impl Edited {
    /// The page of a sheet that no file has, opened as an editor opens it.
    pub fn with(text: &str) -> Self {
        let mut editor = editor_with(&able(), text);
        let command = command(&mut editor, text.find("cantus").unwrap()).unwrap();
        let told = editor.client.request("workspace/executeCommand", &command);
        let mut asked = editor.client.wait_for(|it| it["method"] == "window/showDocument");
        assert_eq!(asked["params"]["external"], true);
        assert_eq!(asked["params"]["uri"], told);
        let page = Page::at(told.as_str().unwrap());
        let answer =
            json!({"jsonrpc": "2.0", "id": asked["id"].take(), "result": {"success": true}});
        editor.client.send(&answer);
        Self { page, editor, text: text.to_owned() }
    }

    /// Whether the server still answers.
    pub fn is_alive(&mut self) {
        assert!(self.editor.pull(URI, None)["items"].is_array());
    }

    /// Ends the session; nothing may have been left unread.
    pub fn end(self) {
        self.editor.end();
    }

    fn replace(&mut self, old: &str, new: &str) {
        let at = self.text.find(old).unwrap();
        self.text.replace_range(at..at + old.len(), new);
        self.editor.edit(URI, &(at..at + old.len()), new);
    }

    /// Asks the page for something that the editor has to do, which it does as told; its request, and
    /// the answer.
    fn done(&mut self, path: &str, method: &str, result: &Value) -> (Value, Value) {
        let (page, path) = (self.page.clone(), path.to_owned());
        let asking = std::thread::spawn(move || page.post(&path).body);
        let request = self.editor.client.wait_for(|it| it["method"] == method);
        self.editor.client.send(&json!({"jsonrpc": "2.0", "id": request["id"], "result": result}));
        let answer = asking.join().unwrap();
        (request["params"].clone(), serde_json::from_str(&answer).unwrap())
    }
}

#[test]
fn the_page_shows_what_stands_in_the_editor_and_follows_it() {
    let mut edited = Edited::with(SHEET);
    assert_eq!(edited.page.data("sheet.json")["editor"], true);
    let mut news = edited.page.listen();
    let first: u64 = news.next().parse().unwrap();
    edited.replace("Quay", "Mill");
    assert_eq!(news.next(), (first + 1).to_string());
    let sheet = edited.page.data("sheet.json");
    assert_eq!(
        (&sheet["name"], &sheet["exercises"][0]["title"]),
        (&"quay.bicinium".into(), &"Mill".into())
    );
    edited.editor.close(URI);
    assert_eq!(news.next(), (first + 2).to_string());
    let trouble = edited.page.data("sheet.json")["trouble"].take();
    assert_eq!(trouble, "it is not open in the editor any more");
    edited.editor.open(URI, SHEET);
    news.next();
    assert_eq!(edited.page.data("sheet.json")["exercises"][0]["title"], "Quay");
    edited.end();
}

#[test]
fn there_is_one_page_for_a_sheet() {
    let mut edited = Edited::with(SHEET);
    let command = json!({"command": "bicinium.scoreAddress", "arguments": [URI]});
    let told = edited.editor.client.request("workspace/executeCommand", &command);
    assert_eq!(told, edited.page.address());
    edited.end();
}

#[test]
fn a_client_that_cannot_open_a_browser_is_told_the_address() {
    let mut editor = editor_with(&capabilities(Encoding::Utf16, Delivery::Pull), SHEET);
    let command = command(&mut editor, SHEET.find("cantus").unwrap()).unwrap();
    let address = editor.client.request("workspace/executeCommand", &command);
    let told = editor.client.notification("window/showMessage");
    assert_eq!(told["message"], format!("The score is at {}", address.as_str().unwrap()));
    let page = Page::at(address.as_str().unwrap());
    let answer: Value =
        serde_json::from_str(&page.post("select?number=1&voice=1&at=0").body).unwrap();
    assert_eq!(answer["why"], "This editor cannot be asked to go to a note.");
    editor.end();
}

#[test]
fn the_score_is_offered_within_exercises_only() {
    let mut editor = editor_with(&able(), SHEET);
    assert!(command(&mut editor, 2).is_none());
    assert!(command(&mut editor, SHEET.find("F#3").unwrap()).is_some());
    let unknown =
        json!({"command": "bicinium.showScore", "arguments": ["file:///no-such.bicinium"]});
    assert_eq!(editor.client.request("workspace/executeCommand", &unknown), Value::Null);
    let told = editor.client.notification("window/showMessage");
    assert_eq!(told["message"], "The sheet is not open, so its score cannot be shown.");
    let nothing = json!({"command": "bicinium.showScore", "arguments": []});
    assert_eq!(editor.client.refusal("workspace/executeCommand", &nothing), -32602);
    editor.end();
}

#[test]
fn a_note_that_is_chosen_is_selected_in_the_editor() {
    let mut edited = Edited::with(SHEET);
    let (asked, answer) = edited.done(
        "select?number=1&voice=1&at=64",
        "window/showDocument",
        &json!({"success": true}),
    );
    let at = SHEET.find("F#3").unwrap();
    let expected = json!({
        "uri": URI,
        "external": false,
        "takeFocus": false,
        "selection": edited.editor.screen(URI).range(&(at..at + 3)),
    });
    assert_eq!(asked, expected);
    assert_eq!(answer, json!({"done": true, "why": null}));
    let (_, answer) = edited.done(
        "select?number=1&voice=1&at=64",
        "window/showDocument",
        &json!({"success": false}),
    );
    assert_eq!(answer["why"], "The editor did not go to the note.");
    edited.end();
}

#[test]
fn the_note_at_the_cursor_is_told() {
    let mut edited = Edited::with(SHEET);
    let mut news = edited.page.listen();
    news.next();
    let at = SHEET.find("F#3").unwrap();
    let mut params = about(URI);
    params["position"] = edited.editor.screen(URI).position(at + 1);
    edited.editor.client.request("textDocument/documentHighlight", &params);
    assert_eq!(news.next(), r#"{"number":1,"voice":1,"at":64}"#);
    // From now on the client tells by itself, and questions do not count.
    params["position"] = edited.editor.screen(URI).position(SHEET.find("A4").unwrap());
    edited.editor.client.notify("bicinium/cursor", &params);
    assert_eq!(news.next(), r#"{"number":1,"voice":0,"at":64}"#);
    let hover = edited.editor.ask_hover(URI, at);
    edited.editor.client.answer(hover);
    params["position"] = edited.editor.screen(URI).position(SHEET.find("G3").unwrap());
    edited.editor.client.notify("bicinium/cursor", &params);
    assert_eq!(news.next(), r#"{"number":1,"voice":1,"at":0}"#);
    edited.end();
}

#[test]
fn a_choice_is_tried_without_a_trace_and_written_by_the_editor() {
    let mut edited = Edited::with(HOLES);
    let spot = "number=1&voice=0&at=64";
    let found = edited.page.data(&format!("openings.json?{spot}"));
    let choices = found["choices"].as_array().unwrap();
    assert!(choices.len() > 1, "{found}");
    let second = choices[1]["text"].as_str().unwrap();
    assert_eq!(choices[1]["notes"], json!([64]));
    let tried = edited.page.data(&format!("exercise.json?width=120&{spot}&choice=1"));
    let sounds = |shown: &Value| shown["notes"].as_array().unwrap().len();
    assert_eq!((sounds(&tried), tried["open"].as_array().unwrap().len()), (11, 1));
    assert!(tried["svg"].as_str().unwrap().contains(&format!("aria-label=\"{second}, ")));
    let present = edited.page.data("exercise.json?width=120&number=1");
    assert_eq!((sounds(&present), present["open"].as_array().unwrap().len()), (10, 2));
    let write = format!("write?{spot}&choice=1&edition={}", found["edition"]);
    let (asked, answer) = edited.done(&write, "workspace/applyEdit", &json!({"applied": true}));
    let at = HOLES.find('?').unwrap();
    let edit = json!({"range": edited.editor.screen(URI).range(&(at..at + 1)), "newText": second});
    assert_eq!(asked["edit"]["changes"][URI], json!([edit]));
    assert_eq!(answer["done"], true);
    edited.end();
}

#[test]
fn what_was_chosen_for_another_text_is_not_written() {
    let mut edited = Edited::with(HOLES);
    let spot = "number=1&voice=0&at=64";
    let edition = edited.page.data(&format!("openings.json?{spot}"))["edition"].clone();
    let mut news = edited.page.listen();
    news.next();
    edited.replace("Holes", "Gaps");
    news.next();
    let answer = edited.page.post(&format!("write?{spot}&choice=0&edition={edition}")).body;
    assert!(answer.contains("The sheet has changed meanwhile"), "{answer}");
    edited.end();
}
