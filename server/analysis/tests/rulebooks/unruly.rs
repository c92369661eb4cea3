//! A rulebook is untrusted: whatever it says, nothing panics, and it is either whole or told to be
//! wrong at places that are in it.

use std::sync::Arc;

use bicinium_analysis::rulebook::{Collection, switches};
use bicinium_analysis::{Rulebook, Sheet, Shelf};
use proptest::prelude::*;

use crate::sources::{Files, looked_up};

/// Exercises of all species in which much happens.
const SHEET: &str = "\
key D minor

exercise
  species 2
  soprano cantus | D5 | F5 | E5 | D5 |
  bass counter | rest D3 | F3 F3 | B2 C#3 | D3 |

exercise
  species 4
  soprano counter | rest A4 | - G4 | - F#4 | D5 |
  tenor cantus | D4 | F3 | E3 | D3 |

exercise
  key C phrygian
  species 5
  alto counter | C5 B4 (A4 G4) F4 | E4 - C5 C3 | ? | E4 |
  alto cantus | C4 | F4 | E4 | C4 |

exercise
  soprano | G4 A4 | B4 | |
  bass | G2 | G3 | |
";

fn read(text: &str) -> Option<Arc<Rulebook>> {
    let files = Files::of(&[("/own.rulebook.toml", text)]);
    let mut collection = Collection::default();
    let held = looked_up(&mut collection, &files, "/own.rulebook.toml");
    assert_eq!(held.problems.is_empty(), held.in_force.is_some());
    for problem in &held.problems {
        assert!(text.get(problem.range.clone()).is_some(), "{problem:?} in {text:?}");
        assert!(problem.message.ends_with('.'), "{problem:?}");
    }
    held.in_force.clone()
}

fn judge(rulebook: Arc<Rulebook>) {
    Sheet::new(SHEET, Arc::new(Shelf::default().bound_to(rulebook))).snapshot();
}

/// Values of many kinds, as a rulebook writes them.
const VALUES: [&str; 18] = [
    "0",
    "1",
    "1000",
    "4294967295",
    "-1",
    "1.5",
    "nan",
    "true",
    "\"\"",
    "\"fault\"",
    "\"P1\"",
    "\"d70\"",
    "[]",
    "[\"A9\", \"C0\"]",
    "[\"C0\", \"C0\"]",
    "[0, 0, 0, 0, 0, 0, 1000]",
    "{}",
    "1979-05-27",
];

#[test]
fn every_switch_takes_or_refuses_every_kind_of_value() {
    let mut taken = 0;
    for question in switches() {
        for value in VALUES {
            let name = question.about.name();
            let heading = match question.about {
                bicinium_analysis::rulebook::About::Rule(_) => format!("rules.{name}"),
                bicinium_analysis::rulebook::About::Section(_) => name.to_owned(),
            };
            let key = &question.switch.key;
            let text = format!("extends = \"tonal\"\n[{heading}]\n{key} = {value}\n");
            if let Some(rulebook) = read(&text) {
                judge(rulebook);
                taken += 1;
            }
        }
    }
    assert!(taken > 20, "{taken}");
}

#[test]
fn a_school_without_harmonies_judges_all_the_same() {
    let text = "extends = \"tonal\"\n[harmony.vocabulary]\nminor = []\nphrygian = []\nmajor = []\n";
    judge(read(text).unwrap());
}

#[test]
fn depth_has_an_end() {
    let deep = 100_000;
    for text in [
        format!("[rules.{}a]\nb = 1\n", "a.".repeat(deep)),
        format!("{}a = 1\n", "a.".repeat(deep)),
        format!("a = {}{}\n", "[".repeat(deep), "]".repeat(deep)),
        format!("a = {}1{}\n", "{a = ".repeat(deep), "}".repeat(deep)),
    ] {
        assert!(read(&text).is_none());
    }
}

fn piece() -> impl Strategy<Value = String> {
    let value = prop::sample::select(VALUES.to_vec());
    let words = "extends name title rules species figures harmony vocabulary costs level at-most";
    let words: Vec<_> = words.split(' ').collect();
    prop_oneof![
        Just("\n".to_owned()),
        Just(" = ".to_owned()),
        Just("extends = \"tonal\"\n".to_owned()),
        Just("[rules.span]\n".to_owned()),
        Just("[species.1.rules.compass]\n".to_owned()),
        Just("[[rules]]\n".to_owned()),
        Just(".".to_owned()),
        Just("\"".to_owned()),
        prop::sample::select(words).prop_map(ToOwned::to_owned),
        value.prop_map(ToOwned::to_owned),
        "\\PC{0,4}",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_text_is_read(text in "\\PC{0,120}") {
        read(&text);
    }

    #[test]
    fn anything_like_a_rulebook_is_read(pieces in prop::collection::vec(piece(), 0..30)) {
        if let Some(rulebook) = read(&pieces.concat()) {
            judge(rulebook);
        }
    }

    #[test]
    fn a_rulebook_that_is_cut_off_is_read(at in 0..5000_usize) {
        let whole = include_str!("../../src/rulebook/modal.rulebook.toml");
        let at = (0..=at.min(whole.len())).rev().find(|at| whole.is_char_boundary(*at)).unwrap();
        read(&whole[..at]);
    }
}
