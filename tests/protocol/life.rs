//! The life cycle: what is answered when, how the server ends, and with which exit code.

use bicinium_tests::{Client, about};
use serde_json::{Value, json};

const NOT_INITIALIZED: i64 = -32002;
const INVALID_REQUEST: i64 = -32600;

fn hover() -> Value {
    let mut params = about("file:///a.bicinium");
    params["position"] = json!({"line": 0, "character": 0});
    params
}

fn exit(client: &mut Client) {
    client.send(&json!({"jsonrpc": "2.0", "method": "exit"}));
}

#[test]
fn exit_after_shutdown_is_a_success() {
    let mut client = Client::initialized(&json!({}));
    client.request("shutdown", &Value::Null);
    exit(&mut client);
    assert_eq!(client.exit_code(), 0);
}

#[test]
fn exit_without_shutdown_is_a_failure() {
    let mut client = Client::initialized(&json!({}));
    exit(&mut client);
    assert_eq!(client.exit_code(), 1);
}

#[test]
fn exit_before_everything_is_a_failure() {
    let mut client = Client::start();
    exit(&mut client);
    assert_eq!(client.exit_code(), 1);
}

#[test]
fn a_shutdown_that_was_refused_does_not_count() {
    let mut client = Client::start();
    assert_eq!(client.refusal("shutdown", &Value::Null), NOT_INITIALIZED);
    exit(&mut client);
    assert_eq!(client.exit_code(), 1);
}

#[test]
fn the_end_of_the_input_is_a_failure() {
    let mut client = Client::initialized(&json!({}));
    client.hang_up();
    assert_eq!(client.exit_code(), 1);
}

#[test]
fn the_end_of_the_input_after_shutdown_is_a_success() {
    let mut client = Client::initialized(&json!({}));
    client.request("shutdown", &Value::Null);
    client.hang_up();
    assert_eq!(client.exit_code(), 0);
}

#[test]
fn the_end_of_the_input_in_the_middle_of_a_message_is_a_failure() {
    let mut client = Client::initialized(&json!({}));
    client.send_raw(b"Content-Length: 100\r\n\r\n{\"jsonrpc\"");
    client.hang_up();
    assert_eq!(client.exit_code(), 1);
}

#[test]
fn shutdown_takes_any_empty_parameters() {
    for params in [Value::Null, json!({}), json!([])] {
        let mut client = Client::initialized(&json!({}));
        assert_eq!(client.request("shutdown", &params), Value::Null);
        exit(&mut client);
        assert_eq!(client.exit_code(), 0);
    }
}

#[test]
fn nothing_is_answered_before_initialize() {
    let mut client = Client::start();
    client.notify("textDocument/didSave", &about("file:///a.bicinium"));
    assert_eq!(client.refusal("textDocument/hover", &hover()), NOT_INITIALIZED);
    client.initialize(&json!({}));
    client.request("textDocument/hover", &hover());
    client.end();
}

#[test]
fn initialize_comes_once() {
    let mut client = Client::initialized(&json!({}));
    let again = json!({"capabilities": {}});
    assert_eq!(client.refusal("initialize", &again), INVALID_REQUEST);
    client.end();
}

#[test]
fn nothing_is_answered_after_shutdown() {
    let mut client = Client::initialized(&json!({}));
    client.request("shutdown", &Value::Null);
    assert_eq!(client.refusal("textDocument/hover", &hover()), INVALID_REQUEST);
    assert_eq!(client.refusal("shutdown", &Value::Null), INVALID_REQUEST);
    exit(&mut client);
    assert_eq!(client.exit_code(), 0);
}

#[test]
fn settings_of_any_kind_do_no_harm() {
    let mut client = Client::initialized(&json!({}));
    for settings in [Value::Null, json!({}), json!({"bicinium": {"no": ["such"]}})] {
        let params = json!({"settings": settings});
        client.notify("workspace/didChangeConfiguration", &params);
    }
    client.notify("workspace/didChangeConfiguration", &Value::Null);
    assert_eq!(client.request("textDocument/hover", &hover()), Value::Null);
    client.end();
}

#[test]
fn the_server_says_who_it_is() {
    let mut client = Client::start();
    let offer = client.initialize(&json!({}));
    assert_eq!(offer["serverInfo"]["name"], "bicinium");
    assert_eq!(offer["capabilities"]["textDocumentSync"]["change"], 2);
    client.end();
}

#[test]
fn a_pipe_that_nobody_reads_from_any_more_ends_the_server() {
    let mut client = Client::start_deaf();
    client.go_deaf();
    client.ask("initialize", &json!({"capabilities": {}}));
    assert_eq!(client.exit_code(), 1);
}
