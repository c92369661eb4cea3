//! Semantic tokens as an editor keeps them: all of them, or what has changed since an answer.

use std::collections::VecDeque;

use serde_json::Value;

use bicinium_tests::writer::PREVIOUS;

/// How many answers are remembered; more than are on their way at once.
const REMEMBERED: usize = 32;

/// What was answered, under the names that the server gave.
#[derive(Default)]
pub struct Tokens(VecDeque<(String, Vec<Value>)>);

impl Tokens {
    /// Lets a request go on from the last answer, if it is one that can.
    pub fn go_on(&self, params: &mut Value) {
        if let (Some(previous), Some((name, _))) = (params.get_mut(PREVIOUS), self.0.back()) {
            *previous = name.as_str().into();
        }
    }

    /// Takes an answer in, and makes of it what the editor then has: all tokens.
    pub fn take(&mut self, params: &Value, answer: &mut Value) {
        let Some(name) = answer["resultId"].as_str().map(str::to_owned) else { return };
        let numbers = match answer["data"].as_array() {
            Some(all) => all.clone(),
            None => self.changed(&params[PREVIOUS], &answer["edits"]),
        };
        *answer = serde_json::json!({"data": numbers});
        self.0.push_back((name, numbers));
        if self.0.len() > REMEMBERED {
            self.0.pop_front();
        }
    }

    fn changed(&self, previous: &Value, edits: &Value) -> Vec<Value> {
        let known = self.0.iter().find(|(name, _)| *previous == name.as_str());
        let (_, mut numbers) = known.expect("it goes on from an answer").clone();
        // Every place is counted in the old numbers, so the last edit comes first.
        for edit in edits.as_array().expect("edits are a list").iter().rev() {
            let number = |name: &str| {
                let number = edit[name].as_u64().expect("a number");
                usize::try_from(number).expect("a place in the list")
            };
            let (start, count) = (number("start"), number("deleteCount"));
            let data = edit["data"].as_array().cloned().unwrap_or_default();
            numbers.splice(start..start + count, data);
        }
        numbers
    }
}
