//! Sentences that have to be true of the notes they are about.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// What a rule says about a sheet.
fn said(text: &str, rule: &str) -> Vec<String> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    findings.filter(|found| found.rule == rule).map(|found| found.message.clone()).collect()
}

#[test]
fn a_note_that_is_struck_again_makes_no_leap() {
    let sheet = "\
key C major
meter 4/4

exercise
  species 3
  soprano counter | C5 F5 F5 E5 | D5 C5 B4 A4 |
  tenor   cantus  | C4          | F4          |
";
    let said = said(sheet, "weak-dissonance");
    assert!(said.iter().any(|it| it.contains("F5 in bar 1, beat 2")), "{said:#?}");
    assert!(said.iter().any(|it| it.contains("F5 is only struck again")), "{said:#?}");
    for sentence in &said {
        assert!(!sentence.contains("leaps to it from F5"), "{sentence}");
        assert!(!sentence.contains("leap to F5"), "{sentence}");
    }
}
