//! What the server says about a sheet to the tests' own client: the measure of what an editor shows.

use bicinium_tests::{Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

const URI: &str = "file:///measure/mill.bicinium";

/// A finding, as much of it as every editor keeps.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// The line, from 0.
    pub line: u64,
    /// The first paragraph of its message, with single spaces.
    pub message: String,
}

impl Finding {
    /// A finding whose message may be followed by paragraphs that only some editors get.
    pub fn new(line: u64, message: &str) -> Self {
        let first = message.trim().split("\n\n").next().unwrap_or_default();
        Finding { line, message: first.split_whitespace().collect::<Vec<_>>().join(" ") }
    }
}

/// How grave findings are, as the protocol counts; the gravest is 1.
pub const HINT: u64 = 4;

/// What is found in a text that is at least this grave, in order.
pub fn findings(text: &str, mildest: u64) -> Vec<Finding> {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Push);
    editor.open(URI, text);
    let pushed = editor.pushed(URI);
    editor.end();
    let finding = |item: &Value| {
        let line = item["range"]["start"]["line"].as_u64().expect("a line is a number");
        Finding::new(line, item["message"].as_str().expect("a finding has a message"))
    };
    let pushed = pushed.as_array().expect("findings are a list").iter();
    let is_grave = |item: &&Value| item["severity"].as_u64().is_some_and(|it| it <= mildest);
    let mut findings: Vec<_> = pushed.filter(is_grave).map(finding).collect();
    findings.sort();
    findings
}

/// The text laid out by the server.
pub fn formatted(text: &str) -> String {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(URI, text);
    let id = editor.ask_format(URI);
    let mut screen = editor.screen(URI).clone();
    let answer = editor.client.answer(id);
    if !answer["result"].is_null() {
        screen.apply(&answer["result"]);
    }
    editor.end();
    screen.text
}

/// What the server says about a place, to a client that takes this form of text.
pub fn hover(text: &str, position: &Value, form: &str) -> String {
    let mut announced = capabilities(Encoding::Utf16, Delivery::Pull);
    announced["textDocument"]["hover"]["contentFormat"] = json!([form]);
    let mut editor = Editor::with(Encoding::Utf16, &announced);
    editor.open(URI, text);
    let mut params = about(URI);
    params["position"] = position.clone();
    let hover = editor.client.request("textDocument/hover", &params);
    editor.end();
    hover["contents"]["value"].as_str().expect("there is something to say").to_owned()
}
