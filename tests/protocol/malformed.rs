//! Messages that are not by the book: each costs at most itself.

use bicinium_tests::{Client, about};
use serde_json::{Value, json};

const PARSE_ERROR: i64 = -32700;
const INVALID_REQUEST: i64 = -32600;
const METHOD_NOT_FOUND: i64 = -32601;
const INVALID_PARAMS: i64 = -32602;

fn client() -> Client {
    Client::initialized(&json!({}))
}

fn framed(body: &str) -> Vec<u8> {
    format!("Content-Length: {}\r\n\r\n{body}", body.len()).into_bytes()
}

fn request(id: i64, method: &str) -> String {
    json!({"jsonrpc": "2.0", "id": id, "method": method}).to_string()
}

fn code(answer: &Value) -> Option<i64> {
    answer["error"]["code"].as_i64()
}

#[test]
fn headers_may_be_written_in_any_way() {
    let mut client = client();
    for (id, head) in [
        "content-length: SIZE\r\n\r\n",
        "CONTENT-LENGTH:SIZE\r\n\r\n",
        "Content-Length: SIZE\n\n",
        "Content-Type: application/vscode-jsonrpc\r\nContent-Length: SIZE\r\n\r\n",
        "Content-Length: SIZE\r\nContent-Type: application/json; charset=utf8\r\n\r\n",
        "X-Anything: at all\r\nContent-Length: SIZE\r\nY: z\r\n\r\n",
    ]
    .into_iter()
    .enumerate()
    {
        let body = json!({"jsonrpc": "2.0", "id": id + 100, "method": "no/such"}).to_string();
        client.send_raw(head.replace("SIZE", &body.len().to_string()).as_bytes());
        client.send_raw(body.as_bytes());
        assert_eq!(code(&client.answer(id + 100)), Some(METHOD_NOT_FOUND), "{head:?}");
    }
    client.end();
}

#[test]
fn what_is_not_json_is_answered_and_forgotten() {
    let mut client = client();
    let deep = "[".repeat(100_000);
    for body in ["", "{", "nonsense", "{\"jsonrpc\":\"2.0\",}", &deep, "\u{feff}{}"] {
        client.send_raw(&framed(body));
        assert_eq!(code(&client.answer(Value::Null)), Some(PARSE_ERROR));
    }
    client.end();
}

#[test]
fn what_is_no_message_is_answered_and_forgotten() {
    let mut client = client();
    for (body, id) in [
        ("42", Value::Null),
        ("[]", Value::Null),
        ("{}", Value::Null),
        (r#"{"jsonrpc":"2.0","id":90}"#, json!(90)),
        (r#"{"jsonrpc":"1.0","id":91,"method":"shutdown"}"#, json!(91)),
        (r#"{"id":"a","method":"shutdown"}"#, json!("a")),
        (r#"{"jsonrpc":"2.0","id":92,"method":7}"#, json!(92)),
        (r#"{"jsonrpc":"2.0","id":{},"method":"shutdown"}"#, Value::Null),
    ] {
        client.send_raw(&framed(body));
        assert_eq!(code(&client.answer(id)), Some(INVALID_REQUEST), "{body}");
    }
    client.end();
}

#[test]
fn replies_to_nothing_are_forgotten() {
    let mut client = client();
    for reply in [
        json!({"jsonrpc": "2.0", "id": 0, "result": null}),
        json!({"jsonrpc": "2.0", "id": null, "error": {"code": 1, "message": ""}}),
        json!({"jsonrpc": "2.0", "id": "what", "result": {"a": 1}}),
    ] {
        client.send(&reply);
    }
    client.end();
}

#[test]
fn rubbish_between_messages_is_passed_over() {
    let mut client = client();
    client.send_raw(b"no header at all\r\n");
    client.send_raw(&framed(&request(50, "no/such")));
    assert_eq!(code(&client.answer(50)), Some(METHOD_NOT_FOUND));
    client.send_raw(&vec![0xFF; 300_000]);
    client.send_raw(&framed(&request(51, "no/such")));
    assert_eq!(code(&client.answer(51)), Some(METHOD_NOT_FOUND));
    client.end();
}

#[test]
fn a_wrong_length_is_made_good_with_the_next_message() {
    let mut client = client();
    for length in ["-1", "many", "99999999999999", "18446744073709551616", "10"] {
        let body = request(60, "no/such");
        client.send_raw(format!("Content-Length: {length}\r\n\r\n{body}").as_bytes());
        client.send_raw(&framed(&request(61, "no/such")));
        assert_eq!(code(&client.answer(Value::Null)), Some(PARSE_ERROR), "{length}");
        assert_eq!(code(&client.answer(61)), Some(METHOD_NOT_FOUND), "{length}");
    }
    client.end();
}

#[test]
fn a_length_that_is_too_long_costs_only_its_own_message() {
    let mut client = client();
    let (first, second) = (request(70, "no/such"), framed(&request(71, "no/such")));
    let length = first.len() + second.len() / 2;
    client.send_raw(format!("Content-Length: {length}\r\n\r\n{first}").as_bytes());
    client.send_raw(&second);
    assert_eq!(code(&client.answer(Value::Null)), Some(PARSE_ERROR));
    assert_eq!(code(&client.answer(71)), Some(METHOD_NOT_FOUND));
    client.end();
}

#[test]
fn unknown_methods_and_wrong_parameters_are_refused() {
    let mut client = client();
    assert_eq!(client.refusal("no/such", &json!({})), METHOD_NOT_FOUND);
    assert_eq!(client.refusal("$/no/such", &json!({})), METHOD_NOT_FOUND);
    assert_eq!(client.refusal("textDocument/hover", &json!({"a": 1})), INVALID_PARAMS);
    assert_eq!(client.refusal("textDocument/hover", &Value::Null), INVALID_PARAMS);
    client.notify("no/such", &json!({}));
    client.notify("$/no/such", &json!({}));
    client.notify("textDocument/didOpen", &json!({"a": 1}));
    client.notify("textDocument/didChange", &about("file:///never-opened.bicinium"));
    client.end();
}

#[test]
fn bytes_that_are_not_text_become_replacement_characters() {
    let mut client = client();
    let mut open = json!({"jsonrpc": "2.0", "method": "textDocument/didOpen", "params": {
        "textDocument":
            {"uri": "file:///a.bicinium", "languageId": "bicinium", "version": 1, "text": "MARK"}
    }})
    .to_string()
    .into_bytes();
    let at = open.windows(4).position(|bytes| bytes == b"MARK").unwrap();
    open.splice(at..at + 4, *b"exercise // \\ud834 \xFF\\n  soprano | H4 |\\n");
    client.send_raw(format!("Content-Length: {}\r\n\r\n", open.len()).as_bytes());
    client.send_raw(&open);
    let shown = client.notification("textDocument/publishDiagnostics");
    let found = shown["diagnostics"].as_array().unwrap();
    let start = json!({"line": 1, "character": 12});
    assert!(found.iter().any(|it| it["range"]["start"] == start), "{found:?}");
    client.end();
}
