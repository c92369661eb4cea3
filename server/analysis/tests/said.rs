//! What is said of every rule in one line, of every fixture that breaks it and of the broken example of its page, word
//! for word, with the places that it points at. The sentences stand in `said.txt`, group by group, to be read by a
//! musician; `BICINIUM_DRAW=1` writes them anew.

#![allow(clippy::unwrap_used)]

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::rules::{self, page::Page};
use bicinium_analysis::{Finding, Sheet, Shelf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests")
}

/// The fixtures of a rule that break it, by their names, with its page.
fn sheets(rule: &rules::Entry) -> Vec<(String, String)> {
    let files = fs::read_dir(folder().join("rules").join(rule.name)).unwrap();
    let mut paths: Vec<_> = files.map(|file| file.unwrap().path()).collect();
    paths.retain(|path| path.file_name().unwrap().to_string_lossy().starts_with("breaks"));
    paths.sort();
    let fixture = |path: PathBuf| {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        (name, fs::read_to_string(path).unwrap())
    };
    let page = ("page".to_owned(), Page::of(rule.source).broken.clone());
    std::iter::once(page).chain(paths.into_iter().map(fixture)).collect()
}

/// What a rule says about a sheet, a line for each sentence and for each place that it points at.
fn said(rule: &str, text: &str) -> String {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    findings.filter(|finding| finding.rule == rule).map(sentence).collect()
}

fn sentence(finding: &Finding) -> String {
    let place = finding.place.map(|it| format!("{}.{} ", it.bar, it.beat)).unwrap_or_default();
    let voice = finding.voice.map(|it| format!("{it:?} ")).unwrap_or_default();
    let mut told = format!("  {place}{voice}- {}\n", finding.message);
    for related in &finding.related {
        writeln!(told, "    ({})", related.message).unwrap();
    }
    told
}

#[test]
fn every_rule_says_what_it_said() {
    let mut all = String::new();
    let mut group = None;
    for rule in rules::all() {
        if group.replace(rule.group) != Some(rule.group) {
            writeln!(all, "# {}", rule.group.name()).unwrap();
        }
        writeln!(all, "{}: {}", rule.name, Page::of(rule.source).summary()).unwrap();
        for (name, text) in sheets(rule) {
            write!(all, "{}, {name}\n{}", rule.name, said(rule.name, &text)).unwrap();
        }
    }
    let path = folder().join("said.txt");
    if std::env::var_os("BICINIUM_DRAW").is_some() {
        fs::write(&path, &all).unwrap();
    }
    let known = fs::read_to_string(path).unwrap();
    for (now, before) in all.lines().zip(known.lines()) {
        assert_eq!(now, before);
    }
    assert_eq!(all.lines().count(), known.lines().count());
}
