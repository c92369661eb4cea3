//! A cantus by itself: which exercises are taken for one, and what is asked of it there and nowhere
//! else.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::rules::{self, Group};
use bicinium_analysis::score::{VoiceId, Writing};
use bicinium_analysis::{Exercise, Level, Sheet, Shelf, Snapshot};

/// No cantus that anybody would praise: four notes within a third.
const POOR: &str = "D4 | E4 | F4 | D4";

fn snapshot(head: &str, rows: &str) -> Arc<Snapshot> {
    let text = format!("rulebook modal\nkey D dorian\n{head}\nexercise\n{rows}\n");
    Sheet::new(&text, Arc::new(Shelf::default())).snapshot()
}

fn exercise(snapshot: &Snapshot) -> &Exercise {
    snapshot.exercises().next().unwrap().2
}

fn raised(snapshot: &Snapshot, is_meant: impl Fn(Group) -> bool) -> Vec<&'static str> {
    let raised = snapshot.findings().map(|located| located.finding.rule);
    raised.filter(|rule| rules::named(rule).is_some_and(|it| is_meant(it.group))).collect()
}

#[test]
fn a_lone_row_called_cantus_is_judged_as_one() {
    let snapshot = snapshot("", &format!("alto cantus | {POOR} |"));
    let setting = &exercise(&snapshot).score.setting;
    assert_eq!((setting.alone, setting.cantus), (Some(VoiceId::Upper), None));
    assert_eq!(setting.writing(), Writing::Cantus);
    assert_eq!(setting.written().collect::<Vec<_>>(), [VoiceId::Upper]);
    assert_eq!(
        raised(&snapshot, |group| group == Group::Cantus),
        ["cantus-width", "cantus-close", "cantus-length"]
    );
    assert!(snapshot.findings().all(|located| located.finding.level != Level::Unfinished));
}

#[test]
fn a_cantus_that_is_given_is_nobodys_to_mend() {
    let given = format!("alto cantus | {POOR} |");
    for (head, rows) in [
        ("species 1\n", given.clone()),
        ("", format!("{given}\ntenor counter | D4 | C4 | F3 | D4 |")),
        ("", format!("alto counter | {POOR} |")),
        ("cantus poor\n  line | D4 | E4 | F4 | D4 |\n", given.replace("cantus |", "cantus poor |")),
    ] {
        let snapshot = snapshot(head, &rows);
        assert_eq!(exercise(&snapshot).score.setting.alone, None, "{rows}");
        let asked = raised(&snapshot, |group| group == Group::Cantus);
        assert_eq!(asked, Vec::<&str>::new(), "{head}{rows}");
    }
}

#[test]
fn a_cantus_comes_to_its_last_note_from_the_side_that_the_school_asks_for() {
    let told = |side: &str, end: &str| {
        let book = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"modal\"\n\n\
             [species.cantus.rules.cantus-close]\nby-step = \"{side}\"\n"
        );
        let mut books = Shelf::default();
        books.add(&book).expect("a rulebook");
        let text = format!(
            "rulebook own\nkey D dorian\n\nexercise\n  \
             tenor cantus | D3 | F3 | E3 | G3 | A3 | G3 | F3 | {end} | D3 |\n"
        );
        let snapshot = Sheet::new(&text, Arc::new(books)).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        let told = findings.filter(|found| found.rule == "cantus-close");
        told.map(|found| found.message.clone()).collect::<Vec<_>>()
    };
    for (side, end, asked) in [
        ("from-either-side", "E3", None),
        ("from-either-side", "C3", None),
        ("from-either-side", "B2", Some("Come to it by step.")),
        ("from-above", "E3", None),
        ("from-above", "C3", Some("Come to it by step from above.")),
        ("from-above", "B2", Some("Come to it by step from above.")),
    ] {
        let told = told(side, end);
        assert_eq!(told.len(), usize::from(asked.is_some()), "{side}, {end}: {told:?}");
        assert!(asked.is_none_or(|asked| told[0].ends_with(asked)), "{told:?}");
    }
}

#[test]
fn a_lone_cantus_stands_for_no_harmonies() {
    let text = format!("key D minor\n\nexercise\n  alto cantus | {POOR} |\n");
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    assert!(exercise(&snapshot).verdict.reading.stretches.is_empty());
}

#[test]
fn what_is_not_written_yet_is_not_judged_as_a_whole() {
    let snapshot = snapshot("", "alto cantus | D4 | ? | F4 | |");
    assert_eq!(raised(&snapshot, |_| true), Vec::<&str>::new());
}
