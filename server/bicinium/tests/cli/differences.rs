//! How a school differs from the one that it extends, in sentences.

use crate::run::{Folder, assert_fits, flat, run};

fn told(rulebook: &str) -> String {
    let folder = Folder::with("own.rulebook.toml", rulebook);
    let ran = folder.run(&["rules", "--rulebook", "own", "--explain-differences"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert_fits(&ran.out);
    flat(&ran.out)
}

fn tells(decisions: &str, sentence: &str) {
    let told = told(&format!("extends = \"tonal\"\n{decisions}"));
    assert!(told.starts_with("own extends tonal and differs from it in this: "), "{told}");
    assert!(told.ends_with(sentence), "{told}");
    assert_eq!(told.matches("tonal").count(), 2, "one difference only: {told}");
}

#[test]
fn levels_are_told_with_both_schools() {
    tells("[rules.crossing]\nlevel = \"advice\"", "crossing It is advice; in tonal it is a fault.");
    tells(
        "[rules.major-thirds]\nlevel = \"off\"",
        "major-thirds It is switched off; in tonal it is advice.",
    );
    tells(
        "[rules.converging-octave]\nlevel = \"caution\"",
        "converging-octave It is a caution; in tonal it is switched off.",
    );
}

#[test]
fn species_are_told_apart() {
    tells(
        "[species.2.rules.crossing]\nlevel = \"advice\"\n[species.free.rules.crossing]\nlevel = \"advice\"",
        "In species 2 and in free writing, it is advice; in tonal it is a fault.",
    );
}

#[test]
fn answers_are_told_with_what_they_mean() {
    tells(
        "[rules.direct-perfects]\nsaved-by = \"nothing\"",
        "To `saved-by`, what makes a direct fifth or octave acceptable, it answers `nothing` \
         (nothing); tonal answers `upper-step` (a step in the upper voice).",
    );
    tells("[species.3.rules.span]\nat-most = 9", "`9`; tonal answers `12` (a twelfth).");
    tells(
        "[rules.compass]\nalto = [\"G3\", \"C5\"]",
        "`[\"G3\", \"C5\"]`; tonal answers `[\"F3\", \"D5\"]` (F3 to D5).",
    );
    tells("[harmony.costs]\nchange = 5", "it answers `5`; tonal answers `2`.");
    tells(
        "[species.4.figures]\nweak = \"none\"",
        "`passing-and-neighbours` (passing notes and neighbours).",
    );
}

#[test]
fn answers_to_a_rule_that_is_switched_off_are_not_told() {
    let off = "extends = \"tonal\"\n[rules.span]\nlevel = \"off\"\nat-most = 9\n";
    assert!(!told(off).contains("at-most"));
}

#[test]
fn harmonies_are_told_by_what_is_added_and_what_is_missing() {
    let major = "[harmony.vocabulary]\nmajor = [\"I\", \"I6\", \"ii\", \"ii6\", \"iii\", \"iii6\", \
                 \"IV\", \"IV6\", \"V\", \"V6\", \"V7\", \"vi\", \"vii°6\"]\naeolian = [\"i\", \"v\"]";
    let told = told(&format!("extends = \"tonal\"\n{major}"));
    assert!(told.contains("In aeolian it has also i and v."), "{told}");
    assert!(told.ends_with("In major it has also V7 and it does not have vi6."), "{told}");
}

#[test]
fn a_school_that_decides_nothing_differs_in_nothing() {
    let same = "extends = \"tonal\"\n[rules.crossing]\nlevel = \"fault\"\n";
    assert_eq!(told(same), "own extends tonal and differs from it in nothing.");
}

#[test]
fn what_is_built_in_is_told_too() {
    let modal = run(&["rules", "--rulebook", "modal", "--explain-differences"]);
    assert!(modal.out.contains("extends no other rulebook"), "{}", modal.out);
    let tonal = run(&["rules", "--rulebook", "tonal", "--explain-differences"]);
    assert!(tonal.out.contains("extends modal and differs"), "{}", tonal.out);
    assert_eq!(run(&["rules", "--explain-differences"]).code, 2);
}
