//! A client that talks with the unruly service over a pair of streams within the process.

use std::sync::Mutex;
use std::time::Duration;

use serde_json::{Value, json};
use tokio::io::{AsyncWriteExt, DuplexStream, duplex};
use tokio::task::JoinHandle;
use tower_lsp::LspService;

use super::super::framing::{Frame, Frames};
use super::super::{serve, start};
use super::unruly::Unruly;
use crate::recording::Recorder;

pub(super) struct Talk {
    pub(super) to_server: DuplexStream,
    pub(super) from_server: Frames<DuplexStream>,
    pub(super) serving: JoinHandle<i32>,
}

impl Talk {
    pub(super) async fn begin() -> Talk {
        let mut talk = Talk::with_buffers_of(1 << 16);
        talk.send(&json!({"id": 0, "method": "initialize", "params": {"capabilities": {}}})).await;
        assert_eq!(talk.receive().await["id"], 0);
        talk
    }

    pub(super) fn with_buffers_of(bytes: usize) -> Talk {
        let (to_server, input) = duplex(bytes);
        let (output, from_server) = duplex(bytes);
        let unruly = |client| Unruly { client, versions: Mutex::default() };
        let (service, socket) = LspService::new(unruly);
        let serving =
            tokio::spawn(serve(service, socket, input, start(output, Recorder::default())));
        Talk { to_server, from_server: Frames::new(from_server), serving }
    }

    pub(super) async fn send(&mut self, message: &Value) {
        let mut message = message.clone();
        message["jsonrpc"] = "2.0".into();
        self.send_raw(&framed(&message.to_string())).await;
    }

    pub(super) async fn send_raw(&mut self, text: &str) {
        within(self.to_server.write_all(text.as_bytes())).await.unwrap();
    }

    pub(super) async fn hover(&mut self, id: u32, line: u32) {
        self.send(&hover(id, line)).await;
    }

    pub(super) async fn change(&mut self, version: i32) {
        let params =
            json!({"textDocument": {"uri": "file:///a", "version": version}, "contentChanges": []});
        self.send(&json!({"method": "textDocument/didChange", "params": params})).await;
    }

    pub(super) async fn receive(&mut self) -> Value {
        match within(self.from_server.next()).await {
            Some(Frame::Body(body)) => serde_json::from_slice(&body).unwrap(),
            other => panic!("a message was expected, not {other:?}"),
        }
    }

    /// Leaves by the book; there must be nothing left to read but the answer to the shutdown.
    pub(super) async fn end(mut self) {
        self.send(&json!({"id": "end", "method": "shutdown", "params": {}})).await;
        assert_eq!(self.receive().await, json!({"jsonrpc": "2.0", "id": "end", "result": null}));
        self.send(&json!({"method": "exit"})).await;
        assert_eq!(within(self.serving).await.unwrap(), 0);
        assert_eq!(within(self.from_server.next()).await, None);
    }
}

pub(super) fn framed(body: &str) -> String {
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

pub(super) fn hover(id: u32, line: u32) -> Value {
    let params = json!({
        "textDocument": {"uri": "file:///a"}, "position": {"line": line, "character": 0}
    });
    json!({"jsonrpc": "2.0", "id": id, "method": "textDocument/hover", "params": params})
}

pub(super) async fn within<T>(work: impl Future<Output = T>) -> T {
    tokio::time::timeout(Duration::from_secs(20), work).await.expect("nothing came")
}
