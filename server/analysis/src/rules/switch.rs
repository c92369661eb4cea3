//! The switches of a rule or of a section of a rulebook, read from the list under the heading
//! `Switches` of the comment that documents them: every question, what may be answered, and who
//! answers so. Knows the form of the list, not what any switch is about.

use toml::{Table, Value};

use super::comment::part;

/// The heading that the list stands under.
pub const HEADING: &str = "Switches";

/// A question that a rulebook answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Switch {
    /// Its name in a rulebook; a name within a table of switches is put behind a full stop.
    pub key: String,
    /// What is asked.
    pub question: String,
    /// What may be answered.
    pub answers: Vec<Answer>,
}

/// What may be answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// How it is written in a rulebook.
    pub written: Written,
    /// What it means.
    pub meaning: String,
    /// The sources that hold it.
    pub holders: String,
}

/// How an answer is written in a rulebook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// Just so; the quotation marks of words are left out.
    So(String),
    /// In any way that fits this description.
    Like(String),
}

impl Switch {
    /// The switches that the opening comment of a file lists.
    pub fn all_of(source: &str) -> Vec<Self> {
        let mut switches: Vec<Self> = Vec::new();
        for item in items(&part(source, HEADING)) {
            match (item.is_answer, switches.last_mut()) {
                (true, Some(switch)) => switch.answers.push(Answer::read(&item.text)),
                _ => switches.push(Self::read(&item.text)),
            }
        }
        switches
    }

    /// The answer that is written like this, if it is a listed one.
    pub fn answer(&self, value: &Value) -> Option<&Answer> {
        self.answers.iter().find(|answer| answer.written.value().as_ref() == Some(value))
    }

    fn read(text: &str) -> Self {
        let (key, question) = labelled(text);
        let key = key.trim_matches('`').to_owned();
        Self { key, question: question.to_owned(), answers: Vec::new() }
    }
}

impl Answer {
    fn read(text: &str) -> Self {
        let (label, rest) = labelled(text);
        let written = match label.strip_prefix('*') {
            Some(description) => Written::Like(description.trim_end_matches('*').to_owned()),
            None => Written::So(label.trim_matches('`').to_owned()),
        };
        let (meaning, holders) = rest.rsplit_once(" (").unwrap_or((rest, ""));
        let holders = holders.trim_end_matches(')').to_owned();
        Self { written, meaning: meaning.to_owned(), holders }
    }
}

impl Written {
    /// The words of the list.
    pub fn words(&self) -> &str {
        match self {
            Self::So(words) | Self::Like(words) => words,
        }
    }

    /// The value that a rulebook gives the switch; `None` if many would do.
    pub fn value(&self) -> Option<Value> {
        let Self::So(words) = self else { return None };
        let table = toml::from_str::<Table>(&format!("value = {words}"));
        let value = table.ok().and_then(|mut table| table.remove("value"));
        Some(value.unwrap_or_else(|| Value::String(words.clone())))
    }
}

/// An item of the list with its lines joined.
struct Item {
    is_answer: bool,
    text: String,
}

fn items(lines: &[&str]) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    for line in lines.iter().filter(|line| !line.is_empty()) {
        match (line.trim_start().strip_prefix("- "), items.last_mut()) {
            (Some(text), _) => {
                items.push(Item { is_answer: line.starts_with(' '), text: text.to_owned() });
            }
            (None, Some(item)) => {
                item.text.push(' ');
                item.text.push_str(line.trim_start());
            }
            (None, None) => {}
        }
    }
    items
}

/// What stands before the colon that ends a label, and after it.
fn labelled(text: &str) -> (&str, &str) {
    text.split_once(": ").unwrap_or((text, ""))
}

#[cfg(test)]
mod tests {
    use super::{Switch, Written};

    const SOURCE: &str = "\
//! # Where schools differ
//! In much.
//!
//! # Switches
//! - `at-most`: how many may follow each other: a whole
//!   number
//!   - `3`: three, and
//!     no more (Open Music Theory; Lehmann 1907)
//!   - `[\"fifth\"]`: a list (common practice)
//! - `vocabulary.major`: what there is
//!   - *a list of numerals*: whatever it holds (Bridge 1877)
use something;
";

    #[test]
    fn a_list_is_read_with_its_questions_and_answers() {
        let switches = Switch::all_of(SOURCE);
        let keys: Vec<_> = switches.iter().map(|switch| switch.key.as_str()).collect();
        assert_eq!(keys, ["at-most", "vocabulary.major"]);
        let [three, list] = switches[0].answers.as_slice() else { panic!("two answers") };
        assert_eq!(switches[0].question, "how many may follow each other: a whole number");
        assert_eq!(three.meaning, "three, and no more");
        assert_eq!(three.holders, "Open Music Theory; Lehmann 1907");
        assert_eq!(switches[0].answer(&3.into()), Some(three));
        assert_eq!(switches[0].answer(&vec!["fifth"].into()), Some(list));
        assert_eq!(switches[0].answer(&4.into()), None);
    }

    #[test]
    fn an_answer_may_be_described_only() {
        let answer = &Switch::all_of(SOURCE)[1].answers[0];
        assert_eq!(answer.written, Written::Like("a list of numerals".to_owned()));
        assert_eq!((answer.written.value(), answer.holders.as_str()), (None, "Bridge 1877"));
    }

    #[test]
    fn words_stand_for_themselves() {
        let so = |words: &str| Written::So(words.to_owned()).value();
        assert_eq!(so("upper-step"), Some("upper-step".into()));
        assert_eq!(so("P12"), Some("P12".into()));
    }
}
