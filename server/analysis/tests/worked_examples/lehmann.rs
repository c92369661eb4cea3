//! The examples of F. J. Lehmann, 1907, under a rulebook after his treatise: his complete lines,
//! and his verdicts on short passages.

use std::collections::BTreeMap;

use bicinium_analysis::Level;

use super::sheets::{Example, examples};
use super::tables::rows;

const NAME: &str = "lehmann-1907";

/// A passage with the verdict of its author.
struct Verdict {
    passage: String,
    is_good: bool,
    rules: Vec<String>,
    level: String,
    bar: String,
    words: String,
}

impl Verdict {
    fn from_row(row: &[String]) -> Self {
        let [passage, verdict, rules, level, bar, words] = row else { unreachable!("six cells") };
        Self {
            passage: passage.clone(),
            is_good: verdict == "good",
            rules: rules.split(' ').map(str::to_owned).collect(),
            level: level.clone(),
            bar: bar.clone(),
            words: words.clone(),
        }
    }

    /// Whether our verdict is the author's: what he condemns is a finding of the rule that his words
    /// concern, in its bar; what he approves has no fault, and no caution from that rule.
    fn is_shared(&self, ours: &Example) -> bool {
        let concerned = |rule: &str| self.rules.iter().any(|name| name == rule);
        if self.is_good {
            let is_against =
                |level, rule| level <= Level::Fault || (level == Level::Caution && concerned(rule));
            return !ours.findings.iter().any(|found| is_against(found.level, found.rule));
        }
        ours.findings.iter().any(|found| {
            let bar = found.place.map(|place| place.bar.to_string());
            concerned(found.rule)
                && found.level.name() == self.level
                && bar.as_ref() == Some(&self.bar)
        })
    }

    fn line(&self, ours: &Example) -> String {
        let verdict = if self.is_good { "good" } else { "bad" };
        let told = ours.told(Level::Caution);
        format!("{} {verdict} ({}): {told:#?}", self.passage, self.words)
    }
}

fn verdicts() -> Vec<Verdict> {
    let rows = rows("lehmann-1907-verdicts.tsv");
    rows.iter().map(|row| Verdict::from_row(row)).collect()
}

/// The passages, by figure.
fn passages() -> BTreeMap<String, Example> {
    let all = examples("lehmann-1907-passages", NAME).into_iter();
    let by_figure = |example: Example| {
        let title = example.exercise.title.clone().unwrap();
        (title.split(' ').next().unwrap().to_owned(), example)
    };
    all.map(by_figure).collect()
}

#[test]
fn every_passage_has_its_verdict() {
    let passages = passages();
    let titles: Vec<_> = passages.values().map(|known| known.exercise.title.clone()).collect();
    let verdicts: BTreeMap<_, _> =
        verdicts().into_iter().map(|known| (known.passage, known.is_good)).collect();
    let of_verdict = |(passage, is_good): (&String, &bool)| {
        Some(format!("{passage} {}", if *is_good { "good" } else { "bad" }))
    };
    assert_eq!(titles, verdicts.iter().map(of_verdict).collect::<Vec<_>>());
}

#[test]
fn the_verdicts_are_his_but_for_the_differences_that_are_listed() {
    let passages = passages();
    let listed = rows("lehmann-1907-differences.tsv");
    let is_listed = |verdict: &Verdict| listed.iter().any(|row| row[0] == verdict.passage);
    let mut wrong = Vec::new();
    for verdict in verdicts() {
        let ours = &passages[&verdict.passage];
        match (verdict.is_shared(ours), is_listed(&verdict)) {
            (false, false) => wrong.push(format!("differs: {}", verdict.line(ours))),
            (true, true) => wrong.push(format!("agrees by now: {}", verdict.passage)),
            _ => {}
        }
    }
    assert!(wrong.is_empty(), "{} passages\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn differences_are_few_and_each_has_a_reason() {
    let differences = rows("lehmann-1907-differences.tsv");
    assert!(differences.len() * 20 <= passages().len(), "{differences:#?}");
    assert!(differences.iter().all(|row| !row[1].is_empty()), "{differences:#?}");
}

#[test]
fn his_complete_lines_have_no_fault() {
    for example in examples(NAME, NAME) {
        assert!(example.told(Level::Fault).is_empty(), "{:#?}", example.told(Level::Fault));
    }
}
