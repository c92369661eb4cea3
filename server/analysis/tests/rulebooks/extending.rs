//! Rulebooks that extend each other: chains, circles, gaps, and what stays in force meanwhile.

use std::sync::Arc;

use bicinium_analysis::rulebook::Collection;
use bicinium_analysis::{Rulebook, Shelf};
use toml::Table;

use crate::sources::{Files, looked_up, messages};

const PIER: &str = "extends = \"tonal\"\n[rules.overlap]\nlevel = \"fault\"\n";
const QUAY: &str = "extends = \"pier\"\n[rules.crossing]\nlevel = \"advice\"\n";
const HARBOUR: &str = "extends = \"quay\"\n[rules.span]\nat-most = 8\n";

fn levels(rulebook: &Rulebook, rule: &str) -> Vec<Option<&'static str>> {
    let species = [None, Some(1), Some(2), Some(3), Some(4), Some(5)];
    let level = |species| rulebook.rules(species).level(rule).map(bicinium_analysis::Level::name);
    species.map(level).to_vec()
}

fn chain() -> Files {
    Files::of(&[
        ("/school/pier.rulebook.toml", PIER),
        ("/school/quay.rulebook.toml", QUAY),
        ("/school/class/harbour.rulebook.toml", HARBOUR),
    ])
}

const ALL: usize = 6;

fn in_force(files: &Files, path: &str) -> Arc<Rulebook> {
    looked_up(&mut Collection::default(), files, path).in_force.clone().unwrap()
}

#[test]
fn a_chain_brings_everything_along() {
    let harbour = in_force(&chain(), "/school/class/harbour.rulebook.toml");
    assert_eq!((harbour.name.as_str(), harbour.title.as_str()), ("harbour", "harbour"));
    assert_eq!(levels(&harbour, "overlap"), vec![Some("fault"); ALL]);
    assert_eq!(levels(&harbour, "crossing"), vec![Some("advice"); ALL]);
    let names = std::iter::successors(Some(&harbour), |book| book.base.as_ref());
    let names: Vec<_> = names.map(|book| book.name.as_str()).collect();
    assert_eq!(names, ["harbour", "quay", "pier", "tonal", "modal"]);
}

#[test]
fn the_nearest_of_a_name_is_meant_and_paths_are_followed() {
    let files = chain();
    files.save("/school/class/quay.rulebook.toml", "extends = \"modal\"");
    let harbour = "/school/class/harbour.rulebook.toml";
    let base = |files: &Files| {
        in_force(files, harbour).base.as_ref().unwrap().base.as_ref().unwrap().name.clone()
    };
    assert_eq!(base(&files), "modal");
    files.save(harbour, "extends = \"own.toml\"");
    files.save("/school/class/own.toml", "extends = \"pier\"");
    assert_eq!(base(&files), "pier");
}

#[test]
fn what_is_said_for_all_is_nearer_than_what_the_base_says_for_a_species() {
    let text = "extends = \"tonal\"\n[rules.contrary-perfects]\nlevel = \"fault\"\n\
                [rules.repeated-note]\nlevel = \"advice\"\nat-most = 4\n\
                [rules.main-quarter-perfects]\nlevel = \"caution\"\n\
                [species.2.rules.repeated-note]\nlevel = \"fault\"\n";
    let files = Files::of(&[("/own.rulebook.toml", text)]);
    let own = in_force(&files, "/own.rulebook.toml");
    assert_eq!(levels(&own, "contrary-perfects"), vec![Some("fault"); ALL]);
    // Free writing has no such rule, and does not get it by the way.
    let advice = Some("advice");
    assert_eq!(
        levels(&own, "repeated-note"),
        [None, advice, Some("fault"), advice, advice, advice]
    );
    let third = [None, None, None, Some("caution"), None, None];
    assert_eq!(levels(&own, "main-quarter-perfects"), third);
    for species in 1..=5 {
        let path = ["rules", "repeated-note", "at-most"];
        assert_eq!(own.rules(Some(species)).written(&path), Some(&4.into()));
    }
}

#[test]
fn a_figure_gets_no_place_in_a_species_that_has_none_for_it() {
    let text = "extends = \"tonal\"\n[figures]\nweak = \"passing\"\nstrong = \"none\"\n";
    let own = in_force(&Files::of(&[("/own.rulebook.toml", text)]), "/own.rulebook.toml");
    let weak = |species| own.rules(Some(species)).written(&["figures", "weak"]).unwrap().as_str();
    assert_eq!([1, 2, 5].map(weak), [Some("none"), Some("passing"), Some("passing")]);
}

/// Otherwise a school that says something of it for all writing would switch it on everywhere.
#[test]
fn nothing_built_in_is_switched_off_for_all_and_on_for_a_species() {
    for rulebook in Shelf::default().all() {
        let general: Table = toml::from_str(match rulebook.name.as_str() {
            "modal" => include_str!("../../src/rulebook/modal.rulebook.toml"),
            _ => include_str!("../../src/rulebook/tonal.rulebook.toml"),
        })
        .unwrap();
        for (rule, decided) in general["rules"].as_table().unwrap() {
            if decided.get("level").and_then(|level| level.as_str()) == Some("off") {
                assert_eq!(levels(rulebook, rule), vec![None; ALL], "{rule}");
            }
        }
    }
}

#[test]
fn a_rule_is_switched_on_for_a_species_only_there() {
    let text = "extends = \"tonal\"\n[species.free.rules.cadence]\nlevel = \"caution\"\n";
    let files =
        Files::of(&[("/own.rulebook.toml", text), ("/two.rulebook.toml", "extends = \"own\"")]);
    let two = in_force(&files, "/two.rulebook.toml");
    assert_eq!(levels(&two, "cadence")[..2], [Some("caution"), Some("fault")]);
}

#[test]
fn a_circle_is_named_whole_in_each_of_its_files() {
    let files = chain();
    files.save("/school/pier.rulebook.toml", "extends = \"quay\"");
    files.save("/school/quay.rulebook.toml", "extends = \"pier\"");
    let mut collection = Collection::default();
    let pier = messages(&mut collection, &files, "/school/pier.rulebook.toml");
    assert!(pier[0].contains("pier extends quay and quay extends pier"), "{pier:?}");
    let quay = messages(&mut collection, &files, "/school/quay.rulebook.toml");
    assert!(quay[0].contains("quay extends pier and pier extends quay"), "{quay:?}");
    let harbour = messages(&mut collection, &files, "/school/class/harbour.rulebook.toml");
    assert!(harbour[0].contains("The rulebook quay, which this one extends"), "{harbour:?}");
    files.save("/school/pier.rulebook.toml", PIER);
    assert!(messages(&mut collection, &files, "/school/class/harbour.rulebook.toml").is_empty());
}

#[test]
fn a_rulebook_that_extends_itself_is_told() {
    let files = Files::of(&[("/own.rulebook.toml", "extends = \"own\"")]);
    let told = messages(&mut Collection::default(), &files, "/own.rulebook.toml");
    assert!(told[0].contains("extends itself"), "{told:?}");
}

#[test]
fn a_circle_of_files_with_one_name_is_told_by_their_paths() {
    let files = Files::of(&[
        ("/a/own.rulebook.toml", "extends = \"b/own.rulebook.toml\""),
        ("/a/b/own.rulebook.toml", "extends = \"other\""),
        ("/a/other.rulebook.toml", "extends = \"own\""),
    ]);
    let told = messages(&mut Collection::default(), &files, "/a/own.rulebook.toml");
    assert!(told[0].contains("/a/own.rulebook.toml extends /a/b/own.rulebook.toml"), "{told:?}");
}

#[test]
fn a_base_that_is_not_there_is_told_beside_all_else() {
    let text = "extends = \"tonall\"\n[rules.overlap]\nlevel = \"grave\"";
    let files = Files::of(&[("/own.rulebook.toml", text)]);
    let mut collection = Collection::default();
    let held = looked_up(&mut collection, &files, "/own.rulebook.toml");
    let [base, level] = held.problems.as_slice() else { panic!("{:?}", held.problems) };
    assert!(base.message.contains("no file tonall.rulebook.toml"), "{base:?}");
    assert!(base.message.contains("perhaps tonal is meant"), "{base:?}");
    assert_eq!(
        (&text[base.range.clone()], &text[level.range.clone()]),
        ("\"tonall\"", "\"grave\"")
    );
}

#[test]
fn a_file_that_cannot_be_read_is_told() {
    let files = Files::default();
    let told = messages(&mut Collection::default(), &files, "/own.rulebook.toml");
    assert_eq!(told, ["This rulebook cannot be read: there is no such file."]);
}

#[test]
fn the_last_good_rulebook_stays_in_force_while_the_file_is_broken() {
    let (files, path) = (chain(), "/school/class/harbour.rulebook.toml");
    let mut collection = Collection::default();
    let good = looked_up(&mut collection, &files, path).in_force.clone().unwrap();
    files.save(path, "extends = \"quay\"\n[rules.spam]\n");
    let held = looked_up(&mut collection, &files, path);
    assert_eq!(held.problems.len(), 1);
    assert!(Arc::ptr_eq(&good, held.in_force.as_ref().unwrap()));
    files.save("/school/pier.rulebook.toml", "level = 3");
    let quay = looked_up(&mut collection, &files, "/school/quay.rulebook.toml");
    assert!(quay.problems.is_empty() && quay.in_force.is_some(), "{quay:?}");
    files.save(path, HARBOUR);
    assert!(looked_up(&mut collection, &files, path).problems.is_empty());
    files.remove(path);
    assert!(looked_up(&mut collection, &files, path).in_force.is_some());
}

#[test]
fn a_rulebook_is_set_up_anew_only_if_something_that_matters_has_changed() {
    let (files, path) = (chain(), "/school/class/harbour.rulebook.toml");
    let mut collection = Collection::default();
    let first = looked_up(&mut collection, &files, path).in_force.clone().unwrap();
    files.save("/school/pier.rulebook.toml", &format!("# Our pier.\n{PIER}"));
    let second = looked_up(&mut collection, &files, path).in_force.clone().unwrap();
    assert!(Arc::ptr_eq(&first, &second));
    files.save("/school/pier.rulebook.toml", &PIER.replace("fault", "caution"));
    let third = looked_up(&mut collection, &files, path).in_force.clone().unwrap();
    assert_eq!(levels(&third, "overlap"), vec![Some("caution"); ALL]);
}
