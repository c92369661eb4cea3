//! A server that only echoes: to each change and each question the same findings, made once. What
//! it takes is what the pipe and the reader take, so that the rest is the work of a server.

use std::io::{Write, stdin, stdout};

use serde_json::{Value, json};

use super::line;
use super::subject::PUBLISH;

/// Serves with this many findings until the input ends.
pub(crate) fn serve(findings: usize) {
    let items = vec![finding(); findings];
    let items = Value::Array(items).to_string();
    let mut input = stdin().lock();
    while let Some(body) = line::read(&mut input) {
        let message: Value = serde_json::from_str(&body.0).expect("a message is JSON");
        if let Some(answer) = answer(&message, &items) {
            let mut output = stdout().lock();
            let header = format!("Content-Length: {}\r\n\r\n", answer.len());
            let written = output
                .write_all(header.as_bytes())
                .and_then(|()| output.write_all(answer.as_bytes()));
            written.and_then(|()| output.flush()).expect("someone reads");
        }
    }
}

fn answer(message: &Value, items: &str) -> Option<String> {
    if let Some(id) = message.get("id") {
        return Some(format!(
            "{{\"jsonrpc\":\"2.0\",\"result\":{{\"kind\":\"full\",\"items\":{items}}},\"id\":{id}}}"
        ));
    }
    let version = message["params"]["textDocument"]["version"].as_i64()?;
    Some(format!(
        "{{\"jsonrpc\":\"2.0\",\"method\":\"{PUBLISH}\",\"params\":{{\"diagnostics\":{items},\
         \"uri\":\"x\",\"version\":{version}}}}}"
    ))
}

/// A finding as long as they usually are.
fn finding() -> Value {
    json!({
        "range": {"start": {"line": 4711, "character": 21}, "end": {"line": 4711, "character": 23}},
        "severity": 1,
        "code": "struck-dissonance",
        "source": "echo",
        "message": "x".repeat(240),
    })
}
