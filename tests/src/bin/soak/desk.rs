//! The editor at which somebody sits: what was asked and is not answered yet, and what the server says by itself. It
//! must not know what is typed.

use std::collections::HashMap;
use std::path::Path;
use std::time::{Duration, Instant};

use bicinium_tests::writer::{self, Questions};
use bicinium_tests::{Client, Editor, Encoding, about};
use serde_json::{Value, json};

use super::log::{Log, Work};

/// How many answers may be owed before no more is asked.
const AT_ONCE: usize = 12;
/// Cancelled, overtaken by an edit, and refused in words.
const NO_FAULT: [i64; 3] = [-32800, -32801, -32602];
const FINDINGS: &str = "textDocument/diagnostic";

/// An editor with all that it waits for.
pub(crate) struct Desk {
    pub(crate) editor: Editor,
    pub(crate) questions: Questions,
    pub(crate) work: Work,
    pub(crate) complaints: Vec<String>,
    waiting: HashMap<i64, (String, Instant)>,
    /// The address of the page of the score, once it was told.
    pub(crate) page: Option<String>,
}

impl Desk {
    pub(crate) fn new(binary: &Path) -> Self {
        let mut client = Client::start_binary(binary);
        let questions = Questions::new(&client.initialize(&writer::capabilities()));
        Desk {
            editor: Editor::over(client, Encoding::Utf16),
            questions,
            work: Work::default(),
            complaints: Vec::new(),
            waiting: HashMap::new(),
            page: None,
        }
    }

    /// Asks without waiting for the answer; not if too many are owed.
    pub(crate) fn ask(&mut self, method: &str, params: &Value) -> Option<i64> {
        if self.waiting.len() >= AT_ONCE {
            return None;
        }
        let id = self.editor.client.ask(method, params);
        self.waiting.insert(id, (method.to_owned(), Instant::now()));
        self.work.questions += 1;
        Some(id)
    }

    pub(crate) fn ask_for_findings(&mut self, uri: &str) {
        self.ask(FINDINGS, &about(uri));
    }

    /// Takes in what the server says, so long.
    pub(crate) fn listen(&mut self, length: Duration, log: &mut Log) {
        let end = Instant::now() + length;
        loop {
            let rest = end.saturating_duration_since(Instant::now());
            for message in self.editor.client.overheard(rest) {
                self.take(&message, log);
            }
            if rest.is_zero() {
                return;
            }
        }
    }

    /// Waits until nothing is owed any more.
    pub(crate) fn settle(&mut self, log: &mut Log) {
        let patience = Instant::now() + Duration::from_secs(60);
        while !self.waiting.is_empty() && Instant::now() < patience {
            self.listen(Duration::from_millis(50), log);
        }
        let owed = self.waiting.drain().map(|(_, (method, _))| format!("no answer to {method}"));
        self.complaints.extend(owed);
    }

    fn take(&mut self, message: &Value, log: &mut Log) {
        match (message["method"].as_str(), message.get("id")) {
            (Some(_), Some(id)) => {
                self.editor.client.send(&json!({"jsonrpc": "2.0", "id": id, "result": null}));
            }
            (Some(_), None) if message["params"]["type"] == 1 => {
                self.complaints.push(format!("told: {}", message["params"]["message"]));
            }
            (Some(_), None) => {}
            (None, _) => self.answered(message, log),
        }
    }

    fn answered(&mut self, message: &Value, log: &mut Log) {
        let known = message["id"].as_i64().and_then(|id| self.waiting.remove(&id));
        let Some((method, since)) = known else {
            return self.complaints.push(format!("nobody asked for {message}"));
        };
        self.work.answers += 1;
        if method == FINDINGS {
            log.waited(since.elapsed());
        }
        let error = message["error"]["code"].as_i64();
        if error.is_some_and(|code| !NO_FAULT.contains(&code)) {
            self.complaints.push(format!("{method}: {}", message["error"]));
        }
        if method == "workspace/executeCommand" {
            self.page = message["result"].as_str().map(str::to_owned).or(self.page.take());
        }
    }
}
