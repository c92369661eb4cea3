//! The examples of the written reference are what they are said to be.

use bicinium_grammar::{ProblemKind, SheetTree, format};

const REFERENCE: &str = include_str!("../../REFERENCE.md");

/// An example of the reference: the words after its opening fence, and its text.
struct Example {
    kind: &'static str,
    text: String,
}

fn examples() -> Vec<Example> {
    let mut lines = REFERENCE.lines();
    let mut examples = Vec::new();
    while let Some(line) = lines.next() {
        if let Some(kind) = line.strip_prefix("```") {
            let text = lines.by_ref().take_while(|line| *line != "```");
            let text = text.flat_map(|line| [line, "\n"]).collect();
            examples.push(Example { kind, text });
        }
    }
    examples
}

fn of_kind(kind: &str) -> Vec<String> {
    let examples = examples().into_iter().filter(|example| example.kind == kind);
    examples.map(|example| example.text).collect()
}

fn problems(text: &str) -> Vec<&'static str> {
    let sheet = SheetTree::parse(text);
    let problems = sheet.blocks().iter().flat_map(|block| &block.problems);
    problems.map(|problem| problem.kind.name()).collect()
}

fn broken() -> Vec<(Vec<&'static str>, String)> {
    let broken = examples().into_iter().filter_map(|example| {
        let names = example.kind.strip_prefix("bicinium-broken ")?;
        Some((names.split(' ').collect(), example.text))
    });
    broken.collect()
}

#[test]
fn good_examples_have_no_problem() {
    let good = of_kind("bicinium");
    assert!(good.len() > 10);
    for text in good {
        assert_eq!(problems(&text), [""; 0], "{text}");
    }
}

#[test]
fn broken_examples_have_the_problems_they_name() {
    for (names, text) in broken() {
        assert_eq!(problems(&text), names, "{text}");
    }
}

#[test]
fn every_problem_has_a_broken_example_and_a_line_in_the_table() {
    let shown: Vec<_> = broken().into_iter().flat_map(|(names, _)| names).collect();
    for kind in ProblemKind::ALL {
        assert!(shown.contains(&kind.name()), "{} has no example", kind.name());
        assert!(REFERENCE.contains(&format!("\n| `{}` |", kind.name())), "{}", kind.name());
    }
}

#[test]
fn the_formatter_does_what_is_shown() {
    let (before, after) = (of_kind("bicinium-before"), of_kind("bicinium-after"));
    assert!(!before.is_empty());
    assert_eq!(before.iter().map(|text| format(text)).collect::<Vec<_>>(), after);
}

#[test]
fn every_example_is_of_a_known_kind() {
    let known = |kind: &str| {
        ["bicinium", "bicinium-before", "bicinium-after"].contains(&kind)
            || kind.starts_with("bicinium-broken ")
    };
    assert!(examples().iter().all(|example| known(example.kind)));
}
