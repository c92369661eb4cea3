//! Answers held against those of servers that know nothing but the text.

use bicinium_tests::{Editor, Encoding};
use serde_json::Value;

use crate::{SHEET, questions};

/// A request, the text for which it was asked, and what was answered.
pub struct Asked {
    /// The sheet as it was.
    pub text: String,
    /// What was asked.
    pub method: &'static str,
    /// About what.
    pub params: Value,
    /// The result.
    pub answer: Value,
}

/// Asks a fresh server for each text, all that was asked for it.
pub fn compare(asked: &[Asked]) {
    for same in asked.chunk_by(|one, next| one.text == next.text) {
        let mut editor = Editor::with(Encoding::Utf16, &questions::capabilities());
        editor.open(SHEET, &same[0].text);
        for asked in same {
            let mut fresh = editor.client.request(asked.method, &asked.params);
            let mut answer = asked.answer.clone();
            forget_what_may_differ(&mut fresh);
            forget_what_may_differ(&mut answer);
            let Asked { method, params, text, .. } = asked;
            assert_eq!(answer, fresh, "{method} with {params} in:\n{text}");
        }
        editor.end();
    }
}

/// Takes out what need not be the same: the names that a server gives its answers, for they mean nothing
/// to another one, and what is found out later, when it is quiet.
fn forget_what_may_differ(answer: &mut Value) {
    if let Some(object) = answer.as_object_mut() {
        object.remove("resultId");
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
    }
}
