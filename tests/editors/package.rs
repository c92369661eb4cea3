//! The package for VS Code, as it is written down: every command is there, every snippet and every example can be
//! taken, every step of the walkthrough leads somewhere. Nothing is started.

use std::collections::BTreeSet;
use std::fs;

use bicinium_analysis::Sheet;
use bicinium_analysis::finding::Level;
use serde_json::Value;

use crate::stage::editors;

fn text(name: &str) -> String {
    let path = editors().join("vscode").join(name);
    fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()))
}

fn json(name: &str) -> Value {
    serde_json::from_str(&text(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

/// The commands of the package that a text names.
fn commands(text: &str, before: &str) -> BTreeSet<String> {
    let named = text.split(before).skip(1);
    let end = |rest: &str| rest.find(|c: char| !(c.is_alphanumeric() || c == '.')).unwrap_or(0);
    named.map(|rest| rest[..end(rest)].to_owned()).collect()
}

fn of<'a>(package: &'a Value, list: &str) -> impl Iterator<Item = &'a Value> {
    package["contributes"][list].as_array().expect("it is a list").iter()
}

#[test]
fn every_command_that_is_offered_is_there_and_every_one_that_is_there_is_offered() {
    let package = json("package.json");
    let offered: BTreeSet<_> = of(&package, "commands")
        .map(|it| it["command"].as_str().expect("it has a name").to_owned())
        .collect();
    assert_eq!(commands(&text("src/extension.ts"), "[\""), offered);
    let of_menus = package["contributes"]["menus"].as_object().expect("there are menus").values();
    let of_menus = of_menus.flat_map(|menu| menu.as_array().expect("a menu is a list"));
    for used in of_menus.chain(of(&package, "keybindings")) {
        assert!(offered.contains(used["command"].as_str().expect("it has a command")), "{used}");
    }
}

#[test]
fn every_step_of_the_walkthrough_has_its_page_and_leads_to_a_command() {
    let package = json("package.json");
    let offered: BTreeSet<_> =
        of(&package, "commands").filter_map(|it| it["command"].as_str()).collect();
    let steps: Vec<_> = of(&package, "walkthroughs")
        .flat_map(|walkthrough| walkthrough["steps"].as_array().expect("it has steps"))
        .collect();
    assert!(steps.len() >= 4);
    for step in steps {
        let page = text(step["media"]["markdown"].as_str().expect("it has a page"));
        for example in page.split("```").skip(1).step_by(2) {
            assert_eq!(slips(example.trim_start_matches('\n')), Vec::<String>::new());
        }
        let links = commands(step["description"].as_str().expect("it is described"), "(command:");
        for link in links.iter().filter(|link| link.starts_with("bicinium.")) {
            assert!(offered.contains(link.as_str()), "{link}");
        }
    }
}

#[test]
fn every_snippet_is_a_sheet_with_nothing_but_holes() {
    let snippets = json("snippets/bicinium.json");
    for (name, snippet) in snippets.as_object().expect("they are named") {
        let body = match &snippet["body"] {
            Value::String(line) => line.clone(),
            lines => {
                let lines = lines.as_array().expect("a body is one line or several").iter();
                lines.map(|line| line.as_str().expect("a line is text").to_owned() + "\n").collect()
            }
        };
        for choice in 0..8 {
            let written = filled(&body, choice);
            let sheet = match name.as_str() {
                "Licence" => within_an_exercise(&written),
                _ => written,
            };
            assert_eq!(slips(&sheet), Vec::<String>::new(), "{name}:\n{sheet}");
        }
    }
}

#[test]
fn a_slip_in_a_snippet_would_be_seen() {
    assert!(!slips("exercise\n  sopran counter | C5 |\n").is_empty());
}

/// What stands in a snippet once each of its places has what it suggests; of several suggestions one.
fn filled(body: &str, choice: usize) -> String {
    let mut rest = body.to_owned();
    while let Some(start) = rest.find("${") {
        let length = rest[start..].find('}').expect("a place ends");
        let place = rest[start + 2..start + length].trim_start_matches(|c: char| c.is_numeric());
        let suggested = match place.strip_prefix('|') {
            Some(choices) => {
                let choices: Vec<_> = choices.trim_end_matches('|').split(',').collect();
                choices[choice % choices.len()].to_owned()
            }
            None => place.trim_start_matches(':').to_owned(),
        };
        rest.replace_range(start..=start + length, &suggested);
    }
    rest.replace("$0", "")
}

fn within_an_exercise(licence: &str) -> String {
    let licence = licence.replace("allow rule at 1", "allow consecutive-perfects at 2");
    format!("exercise\n  soprano counter | C5 | D5 |\n  bass cantus | C3 | D3 |\n  {licence}\n")
}

/// What of a sheet cannot be taken as music.
fn slips(text: &str) -> Vec<String> {
    let snapshot = Sheet::new(text, std::sync::Arc::default()).snapshot();
    let findings = snapshot.blocks().iter().flat_map(|block| &block.judged.findings);
    let slips = findings.filter(|finding| finding.level == Level::Notation);
    slips.map(|finding| finding.message.clone()).collect()
}
