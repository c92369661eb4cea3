//! The pages of the rules, and their list.

use bicinium_analysis::Shelf;
use bicinium_analysis::rules::{self, page::Page};
use bicinium_analysis::score::Writing;

use crate::run::{assert_fits, flat, run};

#[test]
fn every_rule_is_explained_with_an_example_that_is_marked() {
    for entry in rules::all() {
        let ran = run(&["explain", entry.name]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", entry.name);
        let page = Page::of(entry.source);
        for part in [&page.finds, &page.why, &page.differences, &page.sources] {
            assert!(flat(&ran.out).contains(&flat(part)), "{}: {}", entry.name, ran.out);
        }
        for row in page.broken.lines().chain(page.mended.lines()) {
            assert!(ran.out.contains(row), "{}: {row} is missing", entry.name);
        }
        let raised =
            ["fault", "caution", "advice"].map(|level| format!("{level}: {}\n", entry.name));
        assert!(raised.iter().any(|heading| ran.out.contains(heading)), "{}", ran.out);
        assert!(ran.out.contains('^'), "{}", ran.out);
    }
}

#[test]
fn a_page_gives_the_level_in_each_rulebook() {
    let ran = run(&["explain", "crossing"]);
    assert!(ran.out.contains("  modal: caution\n  tonal: fault\n"), "{}", ran.out);
}

#[test]
fn a_misspelt_rule_is_recognized() {
    let ran = run(&["explain", "crosing"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(ran.err, "bicinium: There is no rule crosing. Perhaps crossing is meant.\n");
    let ran = run(&["explain", "qqq"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("`bicinium rules`"), "{}", ran.err);
}

#[test]
fn every_rule_is_listed_once_with_its_level_in_each_rulebook() {
    let ran = run(&["rules"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_fits(&ran.out);
    let rows: Vec<Vec<_>> = ran.out.lines().map(|row| row.split_whitespace().collect()).collect();
    for entry in rules::all() {
        let row: Vec<_> = rows.iter().filter(|row| row.first() == Some(&entry.name)).collect();
        let [row] = row.as_slice() else { panic!("{}: {row:?}", entry.name) };
        for (rulebook, level) in Shelf::default().all().zip(&row[1..]) {
            let is_in = |writing: Writing| {
                rulebook.rules(writing).active.iter().any(|rule| rule.entry.name == entry.name)
            };
            let is_anywhere = Writing::ALL.into_iter().any(is_in);
            assert_eq!(*level == "off", !is_anywhere, "{}", entry.name);
        }
    }
}
