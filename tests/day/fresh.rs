//! Answers held against those of servers that know nothing but the text.

use std::time::{Duration, Instant};

use bicinium_tests::writer::{self, PREVIOUS};
use bicinium_tests::{Editor, Encoding};
use serde_json::Value;

use crate::SHEET;

/// A request, the text for which it was asked, and what was answered.
pub struct Asked {
    /// The sheet as it was.
    pub text: String,
    /// What was asked.
    pub method: &'static str,
    /// About what.
    pub params: Value,
    /// When it was asked.
    pub since: Instant,
    /// How long it took at most.
    pub took: Duration,
    /// The result.
    pub answer: Value,
}

/// What is looked for by trying, which the clock may end.
const SEARCHED: [&str; 3] =
    ["textDocument/codeAction", "textDocument/completion", "codeLens/resolve"];

/// How long a single search may take before the clock ends it. A slow machine has found less by then.
const SHORTEST: Duration = Duration::from_secs(1);

/// Asks a fresh server for each text, all that was asked for it.
pub fn compare(asked: &[Asked]) {
    for same in asked.chunk_by(|one, next| one.text == next.text) {
        let mut editor = Editor::with(Encoding::Utf16, &writer::capabilities());
        editor.open(SHEET, &same[0].text);
        for asked in same {
            let since = Instant::now();
            let mut fresh = ask(&mut editor, asked);
            let is_unhurried = asked.took.max(since.elapsed()) < SHORTEST;
            if SEARCHED.contains(&asked.method) && !is_unhurried {
                continue;
            }
            let mut answer = asked.answer.clone();
            forget_what_may_differ(&mut fresh);
            forget_what_may_differ(&mut answer);
            let Asked { method, params, text, .. } = asked;
            assert_eq!(answer, fresh, "{method} with {params} in:\n{text}");
        }
        editor.end();
    }
}

/// The answer, or the words in which it is refused.
fn ask(editor: &mut Editor, asked: &Asked) -> Value {
    let mut params = asked.params.clone();
    if let Some(previous) = params.get_mut(PREVIOUS) {
        // The name of an answer means nothing to another server, or something else.
        *previous = "none".into();
    }
    let question = editor.client.ask(asked.method, &params);
    let mut message = editor.client.answer(question);
    let part = if message["error"].is_null() { "/result" } else { "/error/message" };
    message.pointer_mut(part).map(Value::take).unwrap_or_default()
}

/// Takes out what need not be the same: the names that a server gives its answers, for they mean nothing
/// to another one, the versions of documents, and what is found out later, when it is quiet.
fn forget_what_may_differ(answer: &mut Value) {
    if let Some(object) = answer.as_object_mut() {
        object.remove("resultId");
        object.remove("version");
    }
    let list = match answer {
        Value::Array(list) => Some(list),
        Value::Object(object) => object.get_mut("items").and_then(Value::as_array_mut),
        _ => None,
    };
    let is_later =
        |it: &Value| it["code"] == "dead-end" || it["diagnostics"][0]["code"] == "dead-end";
    if let Some(list) = list {
        list.retain(|it| !is_later(it));
        // The report about the workspace holds those about its sheets.
        list.iter_mut().filter(|it| it.get("items").is_some()).for_each(forget_what_may_differ);
    }
}
