//! Conversations over an in-process pair of streams with a service that misbehaves on purpose.

use std::sync::Mutex;
use std::time::Duration;

use serde_json::{Value, json};
use tokio::io::{AsyncWriteExt, DuplexStream, duplex};
use tokio::task::JoinHandle;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    ConfigurationItem, DidChangeTextDocumentParams, Hover, HoverContents, HoverParams,
    InitializeParams, InitializeResult, MarkedString,
};
use tower_lsp::{Client, LanguageServer, LspService, async_trait};

use super::framing::{Frame, Frames};

/// What the service does with a hover depends on the line that is asked about.
const PANICS_AT_ONCE: u32 = 0;
const PANICS_LATER: u32 = 1;
const NEVER_ANSWERS: u32 = 2;
const ASKS_BACK: u32 = 3;
const ANSWERS_LATER: u32 = 4;
const TELLS_THE_ORDER: u32 = 5;

struct Unruly {
    client: Client,
    versions: Mutex<Vec<i32>>,
}

#[async_trait]
impl LanguageServer for Unruly {
    async fn initialize(&self, _: InitializeParams) -> Result<InitializeResult> {
        Ok(InitializeResult::default())
    }

    async fn shutdown(&self) -> Result<()> {
        tokio::task::yield_now().await;
        Ok(())
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let version = params.text_document.version;
        assert_ne!(version, 13, "thirteen is unlucky");
        self.versions.lock().unwrap().push(version);
        tokio::time::sleep(Duration::from_millis(u64::from(version.unsigned_abs() % 3))).await;
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        match params.text_document_position_params.position.line {
            PANICS_AT_ONCE => panic!("at once"),
            PANICS_LATER => {
                tokio::task::yield_now().await;
                panic!("later")
            }
            NEVER_ANSWERS => std::future::pending().await,
            ASKS_BACK => {
                let item = ConfigurationItem { scope_uri: None, section: None };
                let _ = self.client.configuration(vec![item]).await;
            }
            ANSWERS_LATER => tokio::time::sleep(Duration::from_millis(50)).await,
            _ => {}
        }
        Ok(Some(said(&format!("{:?}", self.versions.lock().unwrap()))))
    }
}

fn said(text: &str) -> Hover {
    Hover { contents: HoverContents::Scalar(MarkedString::String(text.into())), range: None }
}

struct Talk {
    to_server: DuplexStream,
    from_server: Frames<DuplexStream>,
    serving: JoinHandle<i32>,
}

impl Talk {
    async fn begin() -> Talk {
        let mut talk = Talk::with_buffers_of(1 << 16);
        talk.send(&json!({"id": 0, "method": "initialize", "params": {"capabilities": {}}})).await;
        assert_eq!(talk.receive().await["id"], 0);
        talk
    }

    fn with_buffers_of(bytes: usize) -> Talk {
        let (to_server, input) = duplex(bytes);
        let (output, from_server) = duplex(bytes);
        let unruly = |client| Unruly { client, versions: Mutex::default() };
        let (service, socket) = LspService::new(unruly);
        let serving = tokio::spawn(super::serve(service, socket, input, output));
        Talk { to_server, from_server: Frames::new(from_server), serving }
    }

    async fn send(&mut self, message: &Value) {
        let mut message = message.clone();
        message["jsonrpc"] = "2.0".into();
        self.send_raw(&framed(&message.to_string())).await;
    }

    async fn send_raw(&mut self, text: &str) {
        within(self.to_server.write_all(text.as_bytes())).await.unwrap();
    }

    async fn hover(&mut self, id: u32, line: u32) {
        self.send(&hover(id, line)).await;
    }

    async fn change(&mut self, version: i32) {
        let params =
            json!({"textDocument": {"uri": "file:///a", "version": version}, "contentChanges": []});
        self.send(&json!({"method": "textDocument/didChange", "params": params})).await;
    }

    async fn receive(&mut self) -> Value {
        match within(self.from_server.next()).await {
            Some(Frame::Body(body)) => serde_json::from_slice(&body).unwrap(),
            other => panic!("a message was expected, not {other:?}"),
        }
    }

    /// Leaves by the book; there must be nothing left to read but the answer to the shutdown.
    async fn end(mut self) {
        self.send(&json!({"id": "end", "method": "shutdown", "params": {}})).await;
        assert_eq!(self.receive().await, json!({"jsonrpc": "2.0", "id": "end", "result": null}));
        self.send(&json!({"method": "exit"})).await;
        assert_eq!(within(self.serving).await.unwrap(), 0);
        assert_eq!(within(self.from_server.next()).await, None);
    }
}

fn framed(body: &str) -> String {
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

fn hover(id: u32, line: u32) -> Value {
    let params = json!({
        "textDocument": {"uri": "file:///a"}, "position": {"line": line, "character": 0}
    });
    json!({"jsonrpc": "2.0", "id": id, "method": "textDocument/hover", "params": params})
}

async fn within<T>(work: impl Future<Output = T>) -> T {
    tokio::time::timeout(Duration::from_secs(20), work).await.expect("nothing came")
}

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
