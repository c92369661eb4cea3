//! A recording played again, step by step: what the client said is said again, and where the server
//! had spoken, it is waited for what it says now. It must not know what is asked or answered.
//!
//! Answers are compared one by one. What is shown of a document is compared whenever the recording
//! shows the state that the client had sent last: what lies between may be skipped by a server that
//! is quicker or slower than it was.

use std::collections::{BTreeMap, HashMap, VecDeque};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use super::compare::difference;
use super::line::Line;
use crate::recording::{Entry, Sender};

/// How long an answer may take.
const PATIENCE: Duration = Duration::from_secs(20);
/// The codes that answer a question which was withdrawn or overtaken.
const WITHDRAWN: [i64; 2] = [-32800, -32801];
const PUBLISH: &str = "textDocument/publishDiagnostics";
const CHANGE: &str = "textDocument/didChange";

/// What came of it.
#[derive(Debug, Default)]
pub(super) struct Played {
    /// How many messages the client said.
    pub(super) said: usize,
    /// How many answers, and how many states of a document as shown, were compared.
    pub(super) compared: usize,
    /// How many answers were left out, for the question was withdrawn.
    pub(super) left_out: usize,
    /// How many of the compared were not the same.
    pub(super) differing: usize,
    /// The first of them, in words.
    pub(super) first: Option<String>,
}

/// Plays a recording to a server.
pub(super) fn play(session: &[Entry], line: Line) -> Played {
    let mut player = Player::new(line);
    for (at, entry) in session.iter().enumerate() {
        match entry.from {
            Sender::Client => player.say(&entry.message),
            Sender::Server => player.expect(entry, &session[at + 1..]),
        }
    }
    player.played
}

struct Player {
    line: Line,
    played: Played,
    /// What was asked, by the id of the request.
    asked: HashMap<String, String>,
    /// The newest version of each document that the client has sent.
    versions: BTreeMap<String, Value>,
    /// What has come and was not expected yet.
    answers: HashMap<String, VecDeque<Value>>,
    requests: HashMap<String, VecDeque<Value>>,
    shown: HashMap<String, Value>,
    /// The ids that the server gives its requests now, by those that it gave them then.
    ids: HashMap<String, Value>,
}

impl Player {
    fn new(line: Line) -> Self {
        Self {
            line,
            played: Played::default(),
            asked: HashMap::new(),
            versions: BTreeMap::new(),
            answers: HashMap::new(),
            requests: HashMap::new(),
            shown: HashMap::new(),
            ids: HashMap::new(),
        }
    }

    fn say(&mut self, message: &Value) {
        self.played.said += 1;
        let mut message = message.clone();
        match method(&message) {
            Some(method) => {
                self.asked.insert(key(&message["id"]), method.to_owned());
            }
            None => {
                if let Some(id) = self.ids.get(&key(&message["id"])) {
                    message["id"] = id.clone();
                }
            }
        }
        let document = &message["params"]["textDocument"];
        if let (Some(uri), Some(version)) = (document["uri"].as_str(), document.get("version")) {
            self.versions.insert(uri.to_owned(), version.clone());
        }
        self.line.send(&message.as_str().map_or_else(|| message.to_string(), str::to_owned));
    }

    fn expect(&mut self, entry: &Entry, rest: &[Entry]) {
        match method(&entry.message) {
            Some(PUBLISH) => self.expect_shown(entry, rest),
            Some(method) if entry.message.get("id").is_some() => self.expect_request(method, entry),
            Some(_) => {}
            None => self.expect_answer(entry),
        }
    }

    fn expect_answer(&mut self, entry: &Entry) {
        let id = key(&entry.message["id"]);
        let answer = self.wait(|it| it.answers.get_mut(&id)?.pop_front());
        let what = match self.asked.get(&id) {
            Some(method) => format!("the answer to {method} (request {id})"),
            None => "an answer to no request".to_owned(),
        };
        let answers = [Some(&entry.message), answer.as_ref()];
        if answers.iter().flatten().any(|it| is_withdrawn(it)) {
            self.played.left_out += 1;
        } else {
            self.hold(entry, &what, &entry.message, answer.as_ref());
        }
    }

    fn expect_request(&mut self, method: &str, entry: &Entry) {
        let request = self.wait(|it| it.requests.get_mut(method)?.pop_front());
        if let Some(request) = &request {
            self.ids.insert(key(&entry.message["id"]), request["id"].clone());
        }
        let parameters = |message: &Value| json!({"params": message["params"]});
        let (recorded, now) = (parameters(&entry.message), request.as_ref().map(parameters));
        self.hold(entry, &format!("what the server asks: {method}"), &recorded, now.as_ref());
    }

    fn expect_shown(&mut self, entry: &Entry, rest: &[Entry]) {
        let expected = &entry.message["params"];
        let Some(uri) = expected["uri"].as_str() else { return };
        let is_last = match expected.get("version") {
            Some(version) => self.versions.get(uri) == Some(version),
            None => !is_changed_next(uri, rest),
        };
        if !is_last || is_overtaken(uri, rest) {
            return;
        }
        self.wait(|it| (it.shown.get(uri) == Some(expected)).then_some(()));
        let now = self.shown.get(uri).cloned();
        self.hold(entry, &format!("what is shown of {uri}"), expected, now.as_ref());
    }

    fn hold(&mut self, entry: &Entry, what: &str, recorded: &Value, now: Option<&Value>) {
        self.played.compared += 1;
        let difference = match now {
            Some(now) => difference(&unnamed(recorded), &unnamed(now)),
            None => Some(": it does not come any more".to_owned()),
        };
        let Some(difference) = difference else { return };
        self.played.differing += 1;
        let place = format!("{what}, {} ms after the beginning{difference}.", entry.ms);
        self.played.first.get_or_insert(place);
    }

    /// Listens until what is meant has come, or nothing more can be hoped for.
    fn wait<T>(&mut self, mut found: impl FnMut(&mut Self) -> Option<T>) -> Option<T> {
        let end = Instant::now() + PATIENCE;
        loop {
            if let Some(found) = found(self) {
                return Some(found);
            }
            let message = self.line.receive(end.saturating_duration_since(Instant::now()))?;
            self.hear(message);
        }
    }

    fn hear(&mut self, message: Value) {
        let id = key(&message["id"]);
        match method(&message).map(str::to_owned) {
            Some(method) if method == PUBLISH => {
                let uri = message["params"]["uri"].as_str().unwrap_or_default();
                self.shown.insert(uri.to_owned(), message["params"].clone());
            }
            Some(method) => self.requests.entry(method).or_default().push_back(message),
            None => self.answers.entry(id).or_default().push_back(message),
        }
    }
}

/// Whether more is shown of a document before the client changes it, whatever is asked about it meanwhile.
fn is_overtaken(uri: &str, rest: &[Entry]) -> bool {
    next_about(uri, rest).is_some_and(|next| next.from == Sender::Server)
}

/// Whether the client changes a document next: what is shown without a version may be of the state
/// before or after the last change.
fn is_changed_next(uri: &str, rest: &[Entry]) -> bool {
    next_about(uri, rest).is_some_and(|next| method(&next.message) == Some(CHANGE))
}

fn next_about<'e>(uri: &str, rest: &'e [Entry]) -> Option<&'e Entry> {
    rest.iter().find(|entry| match entry.from {
        Sender::Server => {
            method(&entry.message) == Some(PUBLISH) && entry.message["params"]["uri"] == uri
        }
        Sender::Client => {
            let is_question = entry.message.get("id").is_some();
            !is_question && entry.message["params"]["textDocument"]["uri"] == uri
        }
    })
}

/// The message without the name and version by which a server presents itself.
fn unnamed(message: &Value) -> Value {
    let mut message = message.clone();
    if let Some(result) = message.get_mut("result").and_then(Value::as_object_mut) {
        result.remove("serverInfo");
    }
    message
}

fn is_withdrawn(answer: &Value) -> bool {
    answer["error"]["code"].as_i64().is_some_and(|code| WITHDRAWN.contains(&code))
}

fn method(message: &Value) -> Option<&str> {
    message.get("method")?.as_str()
}

fn key(id: &Value) -> String {
    id.to_string()
}
