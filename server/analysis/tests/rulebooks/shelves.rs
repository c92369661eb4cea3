//! A sheet that is given other rulebooks judges again what they judge, and nothing else.

use std::sync::Arc;

use bicinium_analysis::sheet::Work;
use bicinium_analysis::{Rulebook, Sheet, Shelf};

const SHEET: &str = "\
key C major

cantus quay
  line | C5 | D5 | C5 |

exercise \"by the default\"
  soprano cantus quay | C5 | D5 | C5 |
  bass counter | C4 | D4 | E4 |

exercise \"by harbour\"
  rulebook harbour
  soprano cantus quay | C5 | D5 | C5 |
  bass counter | C4 | D4 | E4 |

exercise \"by another\"
  rulebook \"rules/pier.toml\"
  soprano cantus quay | C5 | D5 | C5 |
  bass counter | C4 | D4 | E4 |
";

fn rulebook(level: &str) -> Arc<Rulebook> {
    let text = format!("extends = \"tonal\"\n[rules.consecutive-perfects]\nlevel = \"{level}\"");
    Shelf::default().add(&text).unwrap()
}

fn shelf(rulebooks: &[(&str, &Arc<Rulebook>)]) -> Arc<Shelf> {
    let mut shelf = Shelf::default();
    for (name, rulebook) in rulebooks {
        shelf.put(name, Ok((*rulebook).clone()));
    }
    Arc::new(shelf)
}

fn levels(sheet: &Sheet) -> Vec<(Option<usize>, &'static str)> {
    let snapshot = sheet.snapshot();
    let findings = snapshot.findings();
    let octaves = findings.filter(|found| found.finding.rule == "consecutive-perfects");
    octaves.map(|found| (found.block.number, found.finding.level.name())).collect()
}

/// Takes other rulebooks, and compares the sheet with a fresh one that has them from the start.
fn shelved(sheet: &mut Sheet, shelf: &Arc<Shelf>) -> usize {
    let work = sheet.shelve(shelf.clone());
    let fresh = Sheet::new(&sheet.tree().text(), shelf.clone());
    let told = |sheet: &Sheet| {
        let snapshot = sheet.snapshot();
        format!(
            "{:#?}",
            snapshot.findings().map(|it| (it.range(), it.finding.clone())).collect::<Vec<_>>()
        )
    };
    assert_eq!(told(sheet), told(&fresh));
    assert_eq!(work, Work { parsed: 0, ..work });
    work.judged
}

#[test]
fn a_sheet_says_which_rulebooks_it_asks_for() {
    let sheet = Sheet::new(SHEET, Arc::default());
    let asked: Vec<_> = sheet.rulebooks().into_iter().collect();
    assert_eq!(asked, ["harbour", "rules/pier.toml"]);
}

#[test]
fn only_what_is_judged_by_a_rulebook_that_changed_is_judged_again() {
    let mut sheet = Sheet::new(SHEET, Arc::default());
    let (harbour, pier) = (rulebook("advice"), rulebook("caution"));
    let both = shelf(&[("harbour", &harbour), ("rules/pier.toml", &pier)]);
    assert_eq!(shelved(&mut sheet, &both), 2);
    let expected = [(Some(1), "fault"), (Some(2), "advice"), (Some(3), "caution")];
    assert_eq!(levels(&sheet), expected);
    let other = rulebook("caution");
    let changed = shelf(&[("harbour", &other), ("rules/pier.toml", &pier)]);
    assert_eq!(shelved(&mut sheet, &changed), 1);
    assert_eq!(shelved(&mut sheet, &changed), 0);
    assert_eq!(shelved(&mut sheet, &shelf(&[("harbour", &other)])), 1);
}

#[test]
fn a_default_that_changes_judges_all_that_take_it() {
    let text = format!("rulebook harbour\n{SHEET}");
    let pier = rulebook("caution");
    let both = |level| shelf(&[("harbour", &rulebook(level)), ("rules/pier.toml", &pier)]);
    let mut sheet = Sheet::new(&text, both("advice"));
    // The line that names it, and the exercises that name no other.
    assert_eq!(shelved(&mut sheet, &both("fault")), 3);
}

#[test]
fn a_rulebook_that_cannot_be_had_is_told_with_the_reason_where_it_is_named() {
    let mut shelf = Shelf::default();
    shelf.put("harbour", Err("it has problems of its own".to_owned()));
    let sheet = Sheet::new(SHEET, Arc::new(shelf));
    let snapshot = sheet.snapshot();
    let mut told = snapshot.findings().filter(|found| found.finding.rule == "rulebook");
    let found = told.next().unwrap();
    assert_eq!(&SHEET[found.range()], "harbour");
    assert_eq!(
        found.finding.message,
        "The rulebook harbour cannot be used: it has problems of its own. Until then tonal holds."
    );
    assert_eq!(&SHEET[told.next().unwrap().range()], "\"rules/pier.toml\"");
}
