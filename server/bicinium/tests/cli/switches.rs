//! The list of all switches, and the switches on the page of a rule.

use bicinium_analysis::rulebook::switches;

use crate::run::{Folder, assert_fits, flat, run};

/// A rulebook with answers that no list has.
const SCHOOL: &str = "\
name = \"harbour\"
title = \"Harbour School\"
extends = \"tonal\"

[rules.direct-perfects]
saved-by = \"upper-semitone\"

[rules.distance]
at-most = \"P15\"

[species.3.rules.crossing]
at-most = 4
";

/// What stands below a line, up to the next line that is not further in.
fn below<'t>(out: &'t str, line: &str) -> Vec<&'t str> {
    let depth = |line: &str| line.len() - line.trim_start().len();
    let rest = out.lines().skip_while(|other| !other.trim_start().starts_with(line));
    let mut rest = rest.peekable();
    let own = rest.peek().map_or(0, |own| depth(own));
    rest.skip(1).take_while(|other| depth(other) > own).collect()
}

#[test]
fn every_question_is_listed_with_its_answers_and_their_sources() {
    let ran = run(&["rules", "--switches"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_fits(&ran.out);
    let out = flat(&ran.out);
    for question in switches() {
        assert!(ran.out.contains(question.about.name()), "{question:?}");
        let asked = format!("{}: {}", question.switch.key, question.switch.question);
        assert!(out.contains(&flat(&asked)), "{asked}");
        for answer in question.switch.answers {
            let told =
                format!("{}: {} ({})", answer.written.words(), answer.meaning, answer.holders);
            assert!(out.contains(&flat(&told)), "{told}");
        }
    }
}

#[test]
fn rulebooks_stand_below_what_they_answer_species_by_species() {
    let out = run(&["rules", "--switches"]).out;
    let rule = out.split("\n\n").find(|part| part.starts_with("minor-sixth-leap")).unwrap();
    assert_eq!(
        below(rule, "upward-if-it-turns-back:").last().unwrap().trim(),
        "→ modal in species 1"
    );
    assert_eq!(below(rule, "both-ways:"), ["      → tonal"]);
    assert_eq!(below(rule, "never:"), Vec::<&str>::new());
}

#[test]
fn another_rulebook_is_set_beside_them() {
    let folder = Folder::new();
    folder.save("school.toml", SCHOOL);
    let ran = folder.run(&["rules", "--switches", "--rulebook", "school.toml"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let part = |rule: &str| ran.out.split("\n\n").find(|part| part.starts_with(rule)).unwrap();
    assert_eq!(below(part("direct-perfects"), "upper-semitone:"), ["      → harbour"]);
    assert_eq!(below(part("distance"), "P15"), ["      → harbour"]);
    assert_eq!(below(part("crossing"), "4"), ["      → harbour in species 3"]);
}

#[test]
fn the_same_answer_is_told_once() {
    let folder = Folder::new();
    folder.save("school.toml", SCHOOL);
    let out = folder.run(&["rules", "--switches", "--rulebook", "school.toml"]).out;
    assert_eq!(
        below(&out, "costs.alternatives:").iter().filter(|line| line.trim() == "4").count(),
        1
    );
}

#[test]
fn the_table_of_levels_has_a_column_for_another_rulebook() {
    let folder = Folder::new();
    folder.save("school.toml", format!("{SCHOOL}\n[rules.overlap]\nlevel = \"off\"\n"));
    let ran = folder.run(&["rules", "--rulebook", "school.toml"]);
    assert_fits(&ran.out);
    let row = ran.out.lines().find(|row| row.trim_start().starts_with("overlap ")).unwrap();
    assert_eq!(
        row.split_whitespace().take(4).collect::<Vec<_>>(),
        ["overlap", "off", "caution", "caution"]
    );
}

#[test]
fn a_rulebook_that_is_not_there_is_told() {
    let ran = run(&["rules", "--switches", "--rulebook", "harbour"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("There is no rulebook harbour."), "{}", ran.err);
}

#[test]
fn the_page_of_a_rule_tells_its_switches() {
    let out = run(&["explain", "crossing"]).out;
    assert!(out.contains("\nSwitches\n  at-most: for how many moments"), "{out}");
    assert!(out.contains("      → modal; tonal\n"), "{out}");
    assert!(!run(&["explain", "overlap"]).out.contains("Switches"));
}

#[test]
fn a_rule_without_switches_is_told_where_the_levels_differ() {
    let out = run(&["rules", "--switches"]).out;
    let parts: Vec<_> = out.split("\n\n").collect();
    let part = parts.iter().find(|part| part.starts_with("major-thirds")).unwrap();
    assert!(part.contains("\n  level: modal off; tonal advice\n  schools: Only Lehmann"), "{part}");
    assert!(!parts.iter().any(|part| part.starts_with("consecutive-perfects")));
}
