//! The two examples of W. S. Rockstro in Grove's dictionary, 1883, under a rulebook after his article.

use bicinium_analysis::Level;

use super::sheets::examples;

fn faults(example: usize) -> Vec<(&'static str, Option<u32>)> {
    let examples = examples("grove-1883", "grove-1883");
    let findings = examples[example].findings.iter();
    let grave = findings.filter(|finding| finding.level <= Level::Fault);
    grave.map(|finding| (finding.rule, finding.place.map(|place| place.bar))).collect()
}

#[test]
fn the_first_example_has_no_fault() {
    assert_eq!(faults(0), []);
}

#[test]
fn the_second_example_has_the_octave_that_its_author_calls_bad_and_no_other_fault() {
    assert_eq!(faults(1), [("converging-octave-wide", Some(3))]);
}
