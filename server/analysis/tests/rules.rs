//! Every rule against its page and its fixtures: what is called broken raises the rule, what is
//! called mended or nearly broken does not.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::rules::{self, Group, page::Page};
use bicinium_analysis::{Level, Sheet, Shelf};

/// The rules raised on a sheet at the given levels.
fn raised(text: &str, levels: &[Level]) -> BTreeSet<&'static str> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    let counted = findings.filter(|finding| levels.contains(&finding.level) && finding.stands());
    counted.map(|finding| finding.rule).collect()
}

const GRAVE: [Level; 3] = [Level::Notation, Level::Fault, Level::Caution];

fn fixtures(rule: &str, kind: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules").join(rule);
    let files = std::fs::read_dir(&folder).into_iter().flatten().flatten();
    let mut paths: Vec<_> = files.map(|file| file.path()).collect();
    paths.retain(|path| path.file_name().unwrap().to_string_lossy().starts_with(kind));
    paths.sort();
    paths
}

#[test]
fn every_page_has_all_its_parts() {
    for entry in rules::all() {
        let page = Page::of(entry.source);
        let parts =
            [&page.finds, &page.why, &page.broken, &page.mended, &page.sources, &page.differences];
        assert!(parts.iter().all(|part| !part.is_empty()), "{}: {page:#?}", entry.name);
    }
}

#[test]
fn every_name_is_given_once() {
    let names: Vec<_> = rules::all().map(|entry| entry.name).collect();
    let different: BTreeSet<_> = names.iter().collect();
    assert_eq!(names.len(), different.len());
}

#[test]
fn the_broken_example_of_a_page_raises_that_rule_and_no_other() {
    let mut wrong = Vec::new();
    for entry in rules::all() {
        let page = Page::of(entry.source);
        let all = raised(&page.broken, &Level::ALL);
        let mut grave = raised(&page.broken, &GRAVE);
        grave.remove(entry.name);
        if !all.contains(entry.name) || !grave.is_empty() {
            wrong.push(format!("{}: raised {all:?}", entry.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_mended_example_of_a_page_raises_nothing() {
    let mut wrong = Vec::new();
    for entry in rules::all() {
        let page = Page::of(entry.source);
        let all = raised(&page.mended, &Level::ALL);
        let grave = raised(&page.mended, &GRAVE);
        if all.contains(entry.name) || !grave.is_empty() {
            wrong.push(format!("{}: raised {all:?}", entry.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_has_two_fixtures_that_break_it_and_two_that_nearly_do() {
    let mut wrong = Vec::new();
    for entry in rules::all() {
        for kind in ["breaks", "nearly"] {
            let sheets = sheets(entry.name, kind);
            if sheets.len() < 2 {
                wrong.push(format!("{}: fewer than two fixtures {kind}*.bicinium", entry.name));
            }
            for (path, text) in sheets {
                let raised = raised(&text, &Level::ALL);
                if raised.contains(entry.name) != (kind == "breaks") {
                    wrong.push(format!("{}: raised {raised:?}", path.display()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_fixtures_that_break_a_rule_differ_in_key_and_those_about_a_line_in_voice() {
    let mut wrong = Vec::new();
    for entry in rules::all() {
        let sheets = sheets(entry.name, "breaks");
        let different = |of: fn(&str) -> BTreeSet<&str>| {
            sheets.iter().map(|(_, text)| of(text)).collect::<BTreeSet<_>>().len() > 1
        };
        if !different(keys) {
            wrong.push(format!("{}: all in one key", entry.name));
        }
        if entry.group == Group::Line && !different(counters) {
            wrong.push(format!("{}: all in one voice", entry.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn sheets(rule: &str, kind: &str) -> Vec<(PathBuf, String)> {
    let read = |path: PathBuf| (path.clone(), std::fs::read_to_string(path).unwrap());
    fixtures(rule, kind).into_iter().map(read).collect()
}

/// The keys that a sheet is in.
fn keys(text: &str) -> BTreeSet<&str> {
    text.lines().filter_map(|line| line.trim().strip_prefix("key ")).collect()
}

/// The registers of the voices that are judged.
fn counters(text: &str) -> BTreeSet<&str> {
    let words = text.lines().map(|line| line.split_whitespace());
    words.filter_map(|mut words| words.next().filter(|_| words.next() == Some("counter"))).collect()
}
