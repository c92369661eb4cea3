//! Conversations with a service that misbehaves on purpose.

mod talk;
mod unruly;

use serde_json::{Value, json};
use tokio::io::AsyncWriteExt;

use self::talk::{Talk, framed, hover, within};
use self::unruly::{
    ANSWERS_LATER, ASKS_BACK, HANDS_OVER, NEVER_ANSWERS, PANICS_AT_ONCE, PANICS_LATER,
    TELLS_THE_ORDER,
};
use super::framing::Frame;

#[tokio::test]
async fn a_panic_costs_one_answer() {
    let mut talk = Talk::begin().await;
    for (id, line) in [(1, PANICS_AT_ONCE), (2, PANICS_LATER)] {
        talk.hover(id, line).await;
        let answer = talk.receive().await;
        assert_eq!((&answer["id"], &answer["error"]["code"]), (&json!(id), &json!(-32603)));
    }
    talk.change(13).await;
    talk.change(14).await;
    talk.hover(3, TELLS_THE_ORDER).await;
    assert_eq!(talk.receive().await["result"]["contents"], "[14]");
    talk.end().await;
}

#[tokio::test]
async fn what_a_handler_hands_over_is_its_result_and_nobody_elses() {
    let mut talk = Talk::begin().await;
    for (id, line, said) in [(1, HANDS_OVER, "handed over"), (2, TELLS_THE_ORDER, "[]")] {
        talk.hover(id, line).await;
        let answer = talk.receive().await;
        assert_eq!((&answer["id"], &answer["result"]["contents"]), (&json!(id), &json!(said)));
    }
    talk.end().await;
}

#[tokio::test]
async fn waiting_handlers_stop_nobody_and_can_be_cancelled() {
    let mut talk = Talk::begin().await;
    for id in 1..=50 {
        talk.hover(id, NEVER_ANSWERS).await;
    }
    talk.change(1).await;
    talk.hover(99, TELLS_THE_ORDER).await;
    assert_eq!(talk.receive().await["result"]["contents"], "[1]");
    for id in 1..=50 {
        talk.send(&json!({"method": "$/cancelRequest", "params": {"id": id}})).await;
        let answer = talk.receive().await;
        assert_eq!((&answer["id"], &answer["error"]["code"]), (&json!(id), &json!(-32800)));
    }
    talk.end().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_comes_before_the_first_wait_happens_in_order() {
    let mut talk = Talk::begin().await;
    let versions: Vec<i32> = (100..300).collect();
    for &version in &versions {
        talk.change(version).await;
    }
    talk.hover(1, TELLS_THE_ORDER).await;
    assert_eq!(talk.receive().await["result"]["contents"], format!("{versions:?}"));
    talk.end().await;
}

#[tokio::test]
async fn a_reply_that_nobody_waits_for_any_more_does_no_harm() {
    let mut talk = Talk::begin().await;
    talk.hover(1, ASKS_BACK).await;
    let question = talk.receive().await;
    assert_eq!(question["method"], "workspace/configuration");
    talk.send(&json!({"method": "$/cancelRequest", "params": {"id": 1}})).await;
    assert_eq!(talk.receive().await["error"]["code"], -32800);
    talk.send(&json!({"id": question["id"], "result": [null]})).await;
    talk.send(&json!({"id": 4711, "result": null})).await;
    talk.hover(2, ASKS_BACK).await;
    let question = talk.receive().await;
    talk.send(&json!({"id": question["id"], "result": [null]})).await;
    assert_eq!(talk.receive().await["id"], 2);
    talk.end().await;
}

#[tokio::test]
async fn a_client_that_does_not_read_is_still_heard() {
    let mut talk = Talk::with_buffers_of(64);
    talk.send(&json!({"id": 0, "method": "initialize", "params": {"capabilities": {}}})).await;
    for id in 1..=5000 {
        talk.hover(id, TELLS_THE_ORDER).await;
    }
    for id in 0..=5000 {
        assert_eq!(talk.receive().await["id"], id);
    }
    talk.end().await;
}

#[tokio::test]
async fn the_end_of_the_input_lets_handlers_finish() {
    let mut talk = Talk::begin().await;
    talk.hover(1, ANSWERS_LATER).await;
    let Talk { to_server, mut from_server, serving } = talk;
    drop(to_server);
    assert!(matches!(within(from_server.next()).await, Some(Frame::Body(_))));
    assert_eq!(within(serving).await.unwrap(), 1);
}

#[tokio::test]
async fn exit_waits_for_nobody() {
    let mut talk = Talk::begin().await;
    talk.hover(1, NEVER_ANSWERS).await;
    talk.send(&json!({"method": "exit"})).await;
    assert_eq!(within(talk.serving).await.unwrap(), 1);
}

#[tokio::test]
async fn a_stream_that_cannot_be_written_ends_the_conversation() {
    let mut talk = Talk::begin().await;
    drop(talk.from_server);
    let question = framed(&hover(1, TELLS_THE_ORDER).to_string());
    talk.to_server.write_all(question.as_bytes()).await.unwrap();
    assert_eq!(within(talk.serving).await.unwrap(), 1);
}

#[tokio::test]
async fn broken_messages_cost_only_themselves() {
    let mut talk = Talk::begin().await;
    for (body, code, id) in [
        ("{]}", -32700, Value::Null),
        ("", -32700, Value::Null),
        ("[]", -32600, Value::Null),
        (r#"{"id":7,"a":null}"#, -32600, json!(7)),
        (r#"{"id":8,"method":"shutdown"}"#, -32600, json!(8)),
        (r#"{"jsonrpc":"2.0","id":9,"method":"$/what"}"#, -32601, json!(9)),
    ] {
        talk.send_raw(&framed(body)).await;
        let answer = talk.receive().await;
        assert_eq!((&answer["error"]["code"], &answer["id"]), (&json!(code), &id), "{body}");
    }
    talk.send_raw("Content-Length: lots\r\n\r\n").await;
    assert_eq!(talk.receive().await["error"]["code"], -32700);
    talk.end().await;
}
