//! An editor around the client: it holds documents, tells the server how they change, and knows
//! how to ask about them.
//!
//! It must not judge what the server answers.

use std::collections::HashMap;
use std::ops::Range;

use serde_json::{Value, json};

use crate::client::Client;
use crate::text::{Encoding, ScreenText};

/// How diagnostics get to an editor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Delivery {
    /// The server sends them.
    Push,
    /// The editor asks for them.
    Pull,
}

/// What an editor announces that counts columns like this and gets diagnostics like that.
pub fn capabilities(encoding: Encoding, delivery: Delivery) -> Value {
    let mut capabilities = json!({
        "general": {"positionEncodings": [encoding.name()]},
        "textDocument": {
            "hover": {"contentFormat": ["markdown"]},
            "codeAction": {
                "codeActionLiteralSupport": {"codeActionKind": {"valueSet": ["quickfix"]}}
            },
            "publishDiagnostics": {"versionSupport": true, "relatedInformation": true}
        }
    });
    if delivery == Delivery::Pull {
        capabilities["textDocument"]["diagnostic"] = json!({});
    }
    capabilities
}

/// An editor with a server of its own.
pub struct Editor {
    /// The line to the server.
    pub client: Client,
    encoding: Encoding,
    documents: HashMap<String, Document>,
}

struct Document {
    screen: ScreenText,
    version: i64,
}

impl Editor {
    /// Starts an editor that counts columns like this and gets diagnostics like that.
    pub fn start(encoding: Encoding, delivery: Delivery) -> Self {
        Editor::with(encoding, &capabilities(encoding, delivery))
    }

    /// Starts an editor that announces exactly this.
    pub fn with(encoding: Encoding, capabilities: &Value) -> Self {
        Editor::over(Client::initialized(capabilities), encoding)
    }

    /// An editor around a client that has been through the handshake.
    pub fn over(client: Client, encoding: Encoding) -> Self {
        Editor { client, encoding, documents: HashMap::new() }
    }

    /// Opens a document.
    pub fn open(&mut self, uri: &str, text: &str) {
        let document = json!({"uri": uri, "languageId": "bicinium", "version": 1, "text": text});
        self.client.notify("textDocument/didOpen", &json!({"textDocument": document}));
        let screen = ScreenText::new(text, self.encoding);
        self.documents.insert(uri.to_owned(), Document { screen, version: 1 });
    }

    /// Replaces bytes of a document.
    pub fn edit(&mut self, uri: &str, bytes: &Range<usize>, insert: &str) {
        let document = self.documents.get_mut(uri).expect("the document is open");
        let change = document.screen.change(bytes, insert);
        document.version += 1;
        let identifier = json!({"uri": uri, "version": document.version});
        let params = json!({"textDocument": identifier, "contentChanges": [change]});
        self.client.notify("textDocument/didChange", &params);
    }

    /// Closes a document.
    pub fn close(&mut self, uri: &str) {
        self.documents.remove(uri).expect("the document is open");
        self.client.notify("textDocument/didClose", &json!({"textDocument": {"uri": uri}}));
    }

    /// A document as it is on screen.
    pub fn screen(&self, uri: &str) -> &ScreenText {
        &self.documents[uri].screen
    }

    /// Waits until the server has sent diagnostics for the present version, and returns them;
    /// those for earlier versions are read and forgotten.
    pub fn pushed(&mut self, uri: &str) -> Value {
        let version = self.documents[uri].version;
        loop {
            let mut shown = self.next_push(uri);
            if shown["version"] == version {
                return shown["diagnostics"].take();
            }
        }
    }

    /// Waits for the next diagnostics that the server sends for a document.
    pub fn next_push(&mut self, uri: &str) -> Value {
        const METHOD: &str = "textDocument/publishDiagnostics";
        let is_meant =
            |message: &Value| message["method"] == METHOD && message["params"]["uri"] == uri;
        self.client.wait_for(is_meant)["params"].take()
    }

    /// Asks for diagnostics.
    pub fn pull(&mut self, uri: &str, previous: Option<&str>) -> Value {
        let mut params = about(uri);
        if let Some(previous) = previous {
            params["previousResultId"] = previous.into();
        }
        self.client.request("textDocument/diagnostic", &params)
    }

    /// Asks what there is to say about a byte, without waiting for the answer.
    pub fn ask_hover(&mut self, uri: &str, byte: usize) -> i64 {
        let mut params = about(uri);
        params["position"] = self.screen(uri).position(byte);
        self.client.ask("textDocument/hover", &params)
    }

    /// Asks how the document would be laid out, without waiting for the answer.
    pub fn ask_format(&mut self, uri: &str) -> i64 {
        let mut params = about(uri);
        params["options"] = json!({"tabSize": 4, "insertSpaces": false});
        self.client.ask("textDocument/formatting", &params)
    }

    /// Asks for the code actions for a range of bytes.
    pub fn actions(&mut self, uri: &str, bytes: &Range<usize>, context: &Value) -> Vec<Value> {
        let mut params = about(uri);
        params["range"] = self.screen(uri).range(bytes);
        params["context"] = context.clone();
        let actions = self.client.request("textDocument/codeAction", &params);
        actions.as_array().expect("code actions are a list").clone()
    }

    /// Leaves by the book; nothing may have been left unread.
    pub fn end(self) {
        self.client.end();
    }
}

/// Parameters that name a document.
pub fn about(uri: &str) -> Value {
    json!({"textDocument": {"uri": uri}})
}
