//! What is done with a server while the clock runs. It must not know which server it is.

use serde_json::{Value, json};

use super::Named;
use super::figures::{Table, Times, milliseconds, time};
use super::line::Line;
use super::sheets::Typed;
use super::subject::{Delivery, PUBLISH, Subject};

const CHANGE: &str = "textDocument/didChange";
const CHANGES_WITHOUT_WAITING: usize = 1_000;

/// A server with a text open in it.
struct Session<'a> {
    line: Line,
    subject: &'a Subject,
    text: &'a Typed,
    version: usize,
    result: Option<String>,
}

/// Everything about a sheet of some length.
pub(crate) fn whole_sheet(subject: &Subject, sheet: &Named, table: &Table) {
    let Named { name, text } = sheet;
    let row = |what: &str| format!("{}, {name}: {what}", subject.name);
    let start = Times::of(5, || drop(Session::start(subject, text)));
    table.row(row("spawn to initialize"), start);
    table
        .row(row("cold to complete findings"), Times::of(5, || drop(Session::open(subject, text))));
    let mut session = Session::open(subject, text);
    let open = session.line.peak_memory();
    let count = if text.text.len() > 1_000_000 { 100 } else { 300 };
    table.row(row("keystroke to diagnostics"), Times::of(count, || session.keystroke()));
    table.row(row("hover after an edit"), Times::of(count, || session.hover_after_edit()));
    if subject.delivery == Delivery::Pull {
        table.row(row("formatting"), Times::of(5, || session.format()));
    } else {
        let mut publishes = 0;
        let burst = time(|| publishes = session.burst());
        let figure = format!("{:9.3} ms, {publishes} publishes", milliseconds(burst));
        table.row(row("1000 changes without waiting"), figure);
    }
    let peak = session.line.peak_memory();
    table.row(row("peak memory"), format!("{open:.1} MB open, {peak:.1} MB at the end"));
}

/// Keystrokes only.
pub(crate) fn typing_in(subject: &Subject, text: &Named, table: &Table) {
    let mut session = Session::open(subject, &text.text);
    let keystroke = Times::of(100, || session.keystroke());
    table.row(format!("{}, {}: keystroke", subject.name, text.name), keystroke);
}

impl<'a> Session<'a> {
    fn start(subject: &'a Subject, text: &'a Typed) -> Self {
        let line = Line::start(subject.command(text), &subject.capabilities());
        Session { line, subject, text, version: 0, result: None }
    }

    /// Starts a server and waits for all findings of the text.
    fn open(subject: &'a Subject, text: &'a Typed) -> Self {
        let mut session = Session::start(subject, text);
        let (uri, language) = (subject.uri, subject.language);
        let document = json!({"uri": uri, "languageId": language, "version": 0, "text": text.text});
        session.line.notify("textDocument/didOpen", &json!({"textDocument": document}));
        session.wait_for_diagnostics();
        session
    }

    fn keystroke(&mut self) {
        self.change();
        self.wait_for_diagnostics();
    }

    fn change(&mut self) {
        let change = self.changed_to(self.text.faces[(self.version + 1) % 2]);
        self.line.notify(CHANGE, &change);
    }

    fn changed_to(&mut self, face: &str) -> Value {
        let end = self.text.end_with(self.version);
        self.version += 1;
        let at = |column: usize| json!({"line": self.text.line, "character": column});
        let range = json!({"start": at(self.text.columns.0), "end": at(end)});
        let change = json!({"range": range, "text": face});
        let document = json!({"uri": self.subject.uri, "version": self.version});
        json!({"textDocument": document, "contentChanges": [change]})
    }

    fn wait_for_diagnostics(&mut self) {
        match self.subject.delivery {
            Delivery::Push => {
                let mark = format!("\"version\":{}}}", self.version);
                self.line.notification(PUBLISH, &mark);
            }
            Delivery::Pull => self.pull(),
        }
    }

    fn pull(&mut self) {
        let mut params = self.about();
        if let Some(result) = &self.result {
            params["previousResultId"] = json!(result);
        }
        let body = self.line.request("textDocument/diagnostic", &params);
        self.result = result_id(&body.0);
    }

    fn hover_after_edit(&mut self) {
        self.change();
        let mut params = self.about();
        params["position"] = json!({"line": self.text.line, "character": self.text.columns.0});
        self.line.request("textDocument/hover", &params);
    }

    fn format(&mut self) {
        let mut params = self.about();
        params["options"] = json!({"tabSize": 4, "insertSpaces": true});
        self.line.request("textDocument/formatting", &params);
    }

    /// Ends with a text that was not there before, so that whatever is said of it is news.
    fn burst(&mut self) -> usize {
        let first = self.version;
        let faces =
            (1..CHANGES_WITHOUT_WAITING).map(|number| self.text.faces[(first + number) % 2]);
        let changes: Vec<_> = faces.chain(["u"]).map(|face| self.changed_to(face)).collect();
        let mark = format!("\"version\":{}}}", self.version);
        self.line.flood(CHANGE, &changes, PUBLISH, &mark)
    }

    fn about(&self) -> Value {
        json!({"textDocument": {"uri": self.subject.uri}})
    }
}

/// The id of a report, found without reading all of it.
fn result_id(body: &str) -> Option<String> {
    const MARK: &str = "\"resultId\":\"";
    let start = body.rfind(MARK)? + MARK.len();
    let length = body[start..].find('"')?;
    Some(body[start..start + length].to_owned())
}
