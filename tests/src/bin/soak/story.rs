//! What happens at the desk, by chance. It must not know how what comes of it is written down.

use std::collections::HashMap;
use std::path::Path;
use std::time::{Duration, Instant};

use bicinium_tests::writer::{self, Dice, Edit};
use serde_json::{Value, json};

use super::desk::Desk;
use super::log::Log;
use super::page;
use super::sheets::{self, Begun};

/// Between two keys, in milliseconds at most; a quick hand needs about a hundred.
const KEY: usize = 120;
/// Of so many keys one is the last before a rest, in which the server may look ahead.
const TO_A_REST: usize = 60;
const REST: Duration = Duration::from_millis(600);
/// How many changes can be taken back.
const REMEMBERED: usize = 100;

/// Somebody at a desk, with what was done to each sheet.
pub(crate) struct Story {
    desk: Desk,
    sheets: Vec<Begun>,
    done: HashMap<String, Vec<Edit>>,
    passed: usize,
    dice: Dice,
}

impl Story {
    pub(crate) fn begin(binary: &Path, seed: u64) -> Self {
        let mut desk = Desk::new(binary);
        let sheets = sheets::kept();
        for sheet in &sheets {
            desk.editor.open(&sheet.uri, &sheet.text);
        }
        Story { desk, sheets, done: HashMap::new(), passed: 0, dice: Dice::new(seed) }
    }

    /// Goes on so long.
    pub(crate) fn go_on(&mut self, length: Duration, log: &mut Log) {
        let end = Instant::now() + length;
        while Instant::now() < end {
            let sheet = self.dice.below(self.sheets.len());
            match self.dice.below(400) {
                0 => self.open_anew(sheet),
                1 => self.pass(log),
                2 => self.look_at_the_score(sheet, log),
                3..40 => self.take_back(sheet),
                40..280 => self.write(sheet),
                _ => self.ask(sheet),
            }
            let pause = match self.dice.below(TO_A_REST) {
                0 => REST,
                _ => Duration::from_millis(self.dice.below(KEY) as u64),
            };
            self.desk.listen(pause, log);
            let client = &self.desk.editor.client;
            log.sample(|| client.vitals(), self.desk.work);
        }
        self.desk.settle(log);
    }

    /// Ends the server by the book; what has gone wrong, a line for each thing.
    pub(crate) fn end(mut self, binary: &Path) -> Vec<String> {
        let mut fresh = Desk::new(binary);
        for Begun { uri, .. } in &self.sheets {
            let text = self.desk.editor.screen(uri).text.clone();
            fresh.editor.open(uri, &text);
            let (late, anew) = (self.desk.editor.pull(uri, None), fresh.editor.pull(uri, None));
            if found(&late) != found(&anew) {
                let words = format!("{uri}: a fresh server finds something else in\n{text}");
                self.desk.complaints.push(words);
            }
        }
        let last = [self.desk, fresh].map(|mut desk| {
            desk.editor.client.overheard(Duration::ZERO);
            desk.editor.end();
            desk.complaints
        });
        last.concat()
    }

    fn text(&self, sheet: usize) -> &str {
        &self.desk.editor.screen(&self.sheets[sheet].uri).text
    }

    fn write(&mut self, sheet: usize) {
        let Begun { uri, text: fair } = &self.sheets[sheet];
        let text = &self.desk.editor.screen(uri).text;
        let edit = writer::edit(text, fair, &mut self.dice);
        let bytes = edit.bytes.start..edit.bytes.start + edit.insert.len();
        let back = Edit { bytes, insert: text[edit.bytes.clone()].to_owned() };
        let done = self.done.entry(uri.clone()).or_default();
        done.push(back);
        let forgotten = done.len().saturating_sub(REMEMBERED);
        done.drain(..forgotten);
        self.change(sheet, &edit);
    }

    fn take_back(&mut self, sheet: usize) {
        let back = self.done.get_mut(&self.sheets[sheet].uri).and_then(Vec::pop);
        if let Some(edit) = back {
            self.change(sheet, &edit);
        }
    }

    fn change(&mut self, sheet: usize, edit: &Edit) {
        let uri = &self.sheets[sheet].uri;
        self.desk.editor.edit(uri, &edit.bytes, &edit.insert);
        self.desk.work.edits += 1;
        self.desk.ask_for_findings(uri);
    }

    fn ask(&mut self, sheet: usize) {
        let uri = &self.sheets[sheet].uri;
        let screen = self.desk.editor.screen(uri);
        let (method, params) = self.desk.questions.any(uri, screen, &mut self.dice);
        let id = self.desk.ask(method, &params);
        if let Some(id) = id.filter(|_| self.dice.below(8) == 0) {
            self.desk.editor.client.notify("$/cancelRequest", &json!({"id": id}));
        }
    }

    fn open_anew(&mut self, sheet: usize) {
        let text = self.text(sheet).to_owned();
        let uri = &self.sheets[sheet].uri;
        self.desk.editor.close(uri);
        self.desk.editor.open(uri, &text);
        self.desk.ask_for_findings(uri);
    }

    /// Looks at a sheet that was never open before and is not again.
    fn pass(&mut self, log: &mut Log) {
        self.passed += 1;
        let Begun { uri, text } = sheets::passing(self.passed);
        self.desk.editor.open(&uri, &text);
        self.desk.ask_for_findings(&uri);
        self.desk.listen(REST, log);
        self.desk.editor.close(&uri);
    }

    fn look_at_the_score(&mut self, sheet: usize, log: &mut Log) {
        let uri = &self.sheets[sheet].uri;
        let params = json!({"command": "bicinium.scoreAddress", "arguments": [uri]});
        if self.desk.ask("workspace/executeCommand", &params).is_none() {
            return;
        }
        self.desk.settle(log);
        if let Some(address) = self.desk.page.take()
            && !page::look_at(&address)
        {
            self.desk.complaints.push(format!("the page at {address} does not come"));
        }
    }
}

/// What was found, but for what is found out later, when it is quiet.
fn found(report: &Value) -> Vec<&Value> {
    let items = report["items"].as_array().expect("a report has a list");
    items.iter().filter(|it| it["code"] != "dead-end").collect()
}
