//! A sheet that is given all that it asks for before it is judged, against one that gets it afterwards.

#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use bicinium_analysis::sheet::{Lent, Unjudged};
use bicinium_analysis::{Finding, Sheet, Shelf};

const SHEET: &str = "\
use \"songs.bicinium\"
use \"nowhere.bicinium\"
rulebook quay
key C major

cantus own-song
  rulebook unheard-of
  line | C4 | D4 | C4 |

exercise
  species 1
  soprano counter | E5 | F5 | E5 |
  tenor cantus quay-song | E4 | F4 | E4 |

exercise
  rulebook modal
  soprano cantus quay-song | E4 | G4 | E4 |
  tenor counter | C4 | C4 | C4 |
";

fn lent() -> Lent {
    let notes: Vec<_> = ["E4", "F4", "E4"].map(|note| note.parse().unwrap()).to_vec();
    let definitions = BTreeMap::from([("quay-song".to_owned(), notes.into())]);
    Lent { definitions, leads_back: Some("songs.bicinium uses this sheet".to_owned()) }
}

fn shelf() -> Arc<Shelf> {
    let mut shelf = Shelf::default();
    let quay =
        "name = \"quay\"\nextends = \"tonal\"\n[rules.consecutive-perfects]\nlevel = \"off\"\n";
    shelf.add(quay).unwrap();
    Arc::new(shelf)
}

fn findings(sheet: &Sheet) -> Vec<Finding> {
    sheet.snapshot().findings().map(|located| located.finding.clone()).collect()
}

#[test]
fn what_is_given_before_and_what_is_given_afterwards_come_to_the_same() {
    let unjudged = Unjudged::new(SHEET);
    let paths = BTreeSet::from(["nowhere.bicinium".to_owned(), "songs.bicinium".to_owned()]);
    assert_eq!(unjudged.uses(), paths);
    let names = BTreeSet::from(["modal".to_owned(), "quay".to_owned()]);
    assert_eq!(unjudged.rulebooks(), names);
    let missing = || Err("there is no such file".to_owned());
    let mut later = Sheet::new(SHEET, Arc::default());
    later.provide("songs.bicinium", Ok(lent()));
    later.provide("nowhere.bicinium", missing());
    later.shelve(shelf());
    let imports = BTreeMap::from([
        ("songs.bicinium".to_owned(), Ok(lent())),
        ("nowhere.bicinium".to_owned(), missing()),
    ]);
    let sheet = unjudged.judge(imports, shelf());
    assert_eq!(findings(&sheet), findings(&later));
    let rules: Vec<_> = findings(&sheet).iter().map(|finding| finding.rule).collect();
    assert!(rules.contains(&"use") && rules.contains(&"use-circle"), "{rules:?}");
    assert!(rules.contains(&"cantus-altered") && !rules.contains(&"rulebook"), "{rules:?}");
    assert_eq!((later.uses(), later.rulebooks()), (paths, names));
}

#[test]
fn another_rulebook_judges_one_exercise_and_leaves_the_sheet_as_it_is() {
    let sheet = Sheet::new(&SHEET.replace("rulebook quay", "rulebook tonal"), Arc::default());
    let before = findings(&sheet);
    let modal = Shelf::default().get("modal").unwrap().clone();
    let block = sheet.by_another(1, &modal).unwrap();
    assert_eq!(block.number, Some(1));
    let bound = Arc::new(Shelf::default().bound_to(modal.clone()));
    let all = Sheet::new(&SHEET.replace("rulebook quay", "rulebook tonal"), bound).snapshot();
    let (_, same, exercise) = all.exercises().next().unwrap();
    assert_eq!(block.judged.findings, same.judged.findings);
    assert_eq!((block.start, &exercise.rulebook.name), (same.start, &modal.name));
    assert_eq!(findings(&sheet), before);
    assert!(sheet.by_another(3, &modal).is_none());
}
