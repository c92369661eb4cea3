//! A day of writing: requests of all kinds that the server offers, among edits and cancellations,
//! against the real binary. Every answer has to be that of a server which has just been started.
//!
//! `BICINIUM_DAY` says how many requests there are, `BICINIUM_DAY_SEED` which; at length it is
//! run with 10000.

mod filling;
mod fresh;
mod tokens;

use std::env;
use std::time::{Duration, Instant};

use bicinium_tests::writer::{self, Dice, MORNING, Questions};
use bicinium_tests::{Client, Editor, Encoding};
use serde_json::{Value, json};

use crate::fresh::Asked;
use crate::tokens::Tokens;

const SHEET: &str = "file:///day/mill.bicinium";

/// How many requests are on their way at once.
const AT_ONCE: usize = 8;

/// What the protocol lets a server answer to a request that has been overtaken.
const OVERTAKEN: [i64; 2] = [-32800, -32801];

/// What it answers to somebody who wants a name that cannot be.
const REFUSED: i64 = -32602;

/// One of so many hours ends with the command.
const HOURS_WITHOUT_COMMAND: usize = 24;

/// How much the server may take beyond what it took after a third of the day, in kB. A leak of one
/// sheet with each edit would be more than that.
const SLACK: u64 = 24 * 1024;

#[test]
fn every_answer_of_a_day_is_that_of_a_fresh_server() {
    let length = number("BICINIUM_DAY").unwrap_or(200);
    let mut day = Day::begin(number("BICINIUM_DAY_SEED").unwrap_or(1_725));
    let mut early = None;
    while day.asked < length {
        day.hour();
        if early.is_none() && day.asked * 3 >= length {
            early = Some(day.editor.client.memory());
        }
    }
    let (early, late) = (early.expect("a third has passed"), day.editor.client.memory());
    assert!(late <= early + SLACK, "the server took {early} kB, and {late} kB at the end");
    assert!(day.answered * 2 > day.asked, "most requests were not answered");
    day.editor.end();
}

fn number(name: &str) -> Option<u64> {
    env::var(name).ok().map(|text| text.parse().expect("a number"))
}

struct Day {
    editor: Editor,
    questions: Questions,
    tokens: Tokens,
    dice: Dice,
    asked: u64,
    answered: u64,
}

impl Day {
    fn begin(seed: u64) -> Self {
        let mut client = Client::start();
        let questions = Questions::new(&client.initialize(&writer::capabilities()));
        let mut editor = Editor::over(client, Encoding::Utf16);
        editor.open(SHEET, MORNING);
        let (tokens, dice) = (Tokens::default(), Dice::new(seed));
        Day { editor, questions, tokens, dice, asked: 0, answered: 0 }
    }

    /// Requests and edits until as many requests are on their way as may be; then the answers.
    fn hour(&mut self) {
        let mut waiting = Vec::new();
        while waiting.len() < AT_ONCE {
            match self.dice.below(4) {
                0 => self.write(),
                _ => waiting.push(self.ask()),
            }
        }
        let answered = waiting.into_iter().filter_map(|(id, asked)| self.answer(id, asked));
        let answered: Vec<_> = answered.collect();
        self.answered += answered.len() as u64;
        fresh::compare(&answered);
        if self.dice.below(HOURS_WITHOUT_COMMAND) == 0 {
            filling::compare(&mut self.editor, 1 + self.dice.below(3));
        }
    }

    fn write(&mut self) {
        let edit = writer::edit(&self.editor.screen(SHEET).text, MORNING, &mut self.dice);
        self.editor.edit(SHEET, &edit.bytes, &edit.insert);
    }

    fn ask(&mut self) -> (i64, Asked) {
        let text = self.editor.screen(SHEET).clone();
        let (method, mut params) = self.questions.any(SHEET, &text, &mut self.dice);
        self.tokens.go_on(&mut params);
        let id = self.editor.client.ask(method, &params);
        if self.dice.below(6) == 0 {
            self.editor.client.notify("$/cancelRequest", &json!({"id": id}));
        }
        self.asked += 1;
        let (since, took) = (Instant::now(), Duration::ZERO);
        (id, Asked { text: text.text, method, params, since, took, answer: Value::Null })
    }

    /// The answer to a request; `None` if it was overtaken.
    fn answer(&mut self, id: i64, asked: Asked) -> Option<Asked> {
        let mut message = self.editor.client.answer(id);
        let asked = Asked { took: asked.since.elapsed(), ..asked };
        let error = message["error"]["code"].as_i64();
        if error.is_some_and(|code| OVERTAKEN.contains(&code)) {
            return None;
        }
        if error == Some(REFUSED) && asked.method.contains("ename") {
            return Some(Asked { answer: message["error"]["message"].take(), ..asked });
        }
        assert_eq!(error, None, "{} with {}: {message}", asked.method, asked.params);
        let mut answer = message["result"].take();
        if asked.method.contains("semanticTokens") {
            self.tokens.take(&asked.params, &mut answer);
        }
        Some(Asked { answer, ..asked })
    }
}
