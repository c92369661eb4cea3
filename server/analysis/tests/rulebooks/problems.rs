//! Every kind of mistake is told at its place, in words that say what would mend it. In the texts
//! here, the places stand between `«` and `»`.

use std::ops::Range;

use bicinium_analysis::rulebook::Collection;

use crate::sources::{Files, looked_up};

/// A text without its marks, and the places between them.
fn marked(text: &str) -> (String, Vec<Range<usize>>) {
    let (mut plain, mut places, mut open) = (String::new(), Vec::new(), 0);
    for character in text.chars() {
        match character {
            '«' => open = plain.len(),
            '»' => places.push(open..plain.len()),
            _ => plain.push(character),
        }
    }
    (plain, places)
}

/// Holds what is said about a rulebook against its marks and against words of each message.
fn assert_told(text: &str, words: &[&str]) {
    let (text, places) = marked(text);
    let files = Files::of(&[("/own.rulebook.toml", &text)]);
    let mut collection = Collection::default();
    let held = looked_up(&mut collection, &files, "/own.rulebook.toml");
    let found: Vec<_> = held.problems.iter().map(|problem| problem.range.clone()).collect();
    assert_eq!(found, places, "{text}\n{:#?}", held.problems);
    for (problem, words) in held.problems.iter().zip(words) {
        assert!(problem.message.contains(words), "{words}: {}", problem.message);
    }
    assert_eq!(words.len(), places.len());
    assert!(held.in_force.is_none(), "{text}");
}

fn told(own: &str, words: &[&str]) {
    assert_told(&format!("extends = \"tonal\"\n{own}"), words);
}

#[test]
fn a_misspelt_rule_is_told_with_the_one_that_is_meant() {
    told("[rules.«crosing»]\nlevel = \"off\"", &["Perhaps `crossing` is meant."]);
    told("[rules.«zzz»]\nlevel = \"off\"", &["There is no rule `zzz`."]);
    told("[species.2.rules.«overlab»]", &["Perhaps `overlap` is meant."]);
}

#[test]
fn a_misspelt_switch_is_told_with_the_one_that_is_meant() {
    told("[rules.span]\n«atmost» = 9", &["Perhaps `at-most` is meant."]);
    told("[rules.span]\n«zzz» = 9", &["It has `at-most`."]);
    told("[rules.overlap]\n«at-most» = 9", &["It has none, only a level."]);
    told("[harmony.costs]\n«chance» = 3", &["Perhaps `change` is meant."]);
    told("[figures]\n«week» = \"none\"", &["no switch `week` in `[figures]`"]);
}

#[test]
fn a_value_that_is_no_answer_is_told_with_all_answers() {
    told(
        "[rules.direct-perfects]\nsaved-by = «\"luck\"»",
        &["`luck` is no answer to `saved-by` of rule `direct-perfects`; the answers are `nothing`"],
    );
    told("[figures]\nweak = «\"passings\"»", &["Perhaps `passing` is meant."]);
    told(
        "[rules.opening-interval]\nabove = [\"octave\", «\"fith\"»]",
        &["the answers are `octave`, `fifth`"],
    );
}

#[test]
fn a_value_of_the_wrong_kind_is_told_with_what_may_be_written() {
    told("[rules.span]\nat-most = «\"ten\"»", &["`at-most` of rule `span`"]);
    told("[rules.span]\nat-most = «9.5»", &["`at-most` of rule `span`"]);
    told("[rules.direct-perfects]\nsaved-by = «3»", &["`saved-by` of rule `direct-perfects`"]);
    told("[rules.compass]\nalto = «\"F3\"»", &["the lowest and the highest note of an alto"]);
    told("[harmony.costs]\ndegrees = «[1, 2]»", &["`costs.degrees` of `[harmony]`"]);
}

#[test]
fn a_note_or_a_numeral_that_is_misspelt_is_told_where_it_stands() {
    told("[rules.compass]\nalto = [\"F3\", «\"H5\"»]", &["A note begins with a capital letter"]);
    told("[rules.distance]\nat-most = «\"Q5\"»", &["An interval begins with"]);
    told(
        "[harmony.vocabulary]\nmajor = [\"I\", «\"VIII\"», \"V\"]",
        &["A harmony begins with a Roman numeral"],
    );
    told("[harmony.vocabulary]\n«mixolydain» = [\"I\"]", &["A mode is major, minor"]);
}

#[test]
fn numbers_have_bounds() {
    told("[rules.span]\nat-most = «1001»", &["from 0 to 1000"]);
    told("[rules.span]\nat-most = «-1»", &["from 0 to 1000"]);
    told("[harmony.costs]\ndegrees = [0, 0, «4000000000», 0, 0, 0, 0]", &["from 0 to 1000"]);
}

#[test]
fn a_wrong_level_is_told_with_all_levels() {
    let levels = "The level of rule `overlap` is `fault`, `caution`, `advice` or `off`";
    told("[rules.overlap]\nlevel = «\"grave\"»", &[levels]);
    told("[rules.overlap]\nlevel = «2»", &[levels]);
    told("[species.free.rules.overlap]\nlevel = «true»", &[levels]);
}

#[test]
fn what_is_not_known_at_all_is_told() {
    told("[«harmonie»]\nimplied = \"no\"", &["Perhaps `harmony` is meant."]);
    told("[«crossing»]\nlevel = \"off\"", &["`[rules.crossing]`"]);
    told("«author» = \"me\"", &["What can stand here is `name`, `title`, `extends`, `species`"]);
    told("[species.«6».rules.overlap]\nlevel = \"off\"", &["a number from 1 to 5, `free`"]);
    told(
        "[species.1.«meter»]",
        &["What can stand here is `rules`, `figures`, `harmony` and `ranking`."],
    );
}

#[test]
fn a_value_in_the_place_of_a_table_is_told() {
    told("rules = «3»", &["`[rules.span]`"]);
    told("rules.overlap = «\"off\"»", &["`[rules.overlap]`"]);
    told("species = «1»", &["`[species.1.rules.span]`"]);
    told("species.1 = «1»", &["`[species.1.rules.span]`"]);
    told("figures = «false»", &["`[figures]`"]);
    told("[harmony]\nvocabulary = «3»", &["is a heading of its own"]);
}

#[test]
fn names_are_words() {
    assert_told("extends = «3»", &["`extends = \"…\"`"]);
    told("title = «\"\"»", &["`title = \"…\"`"]);
}

#[test]
fn what_cannot_be_read_is_told_line_by_line() {
    told(
        "[rules.span«»\nlevel = \"off\"\n[rules.overlap]\nlevel = «fault»\nlevel«»\n",
        &["The bracket of this heading", "A word stands in straight", "Something is missing"],
    );
    told("[rules.overlap]\nlevel = \"off\"\n«level» = \"off\"", &["This is said twice."]);
    told("[rules.overlap]\nlevel «»\"off\"", &["Something is missing here"]);
    told("[rules.overlap]\nlevel = \"off«»\n", &["The quotation marks are not closed"]);
    told("[rules.overlap]\nlevel = «off»\n", &["A word stands in straight quotation marks"]);
    told("[rules.overlap]\nlevel = «»", &["Something is missing here"]);
    told("[rules.compass]\nalto = [\"F3\" «»\"D5\"]", &["A comma is missing here"]);
    told("[rules.compass]\nalto = [\"F3\"«»\n", &["The bracket of this list is not closed"]);
}

#[test]
fn all_problems_are_told_in_the_order_of_the_text() {
    told(
        "[rules.overlap]\nlevel = «\"grave\"»\n[rules.«crosing»]\n[rules.span]\n«most» = 3\n\
         at-most = «\"x\"»\n[species.«9»]",
        &[
            "The level of rule `overlap`",
            "Perhaps `crossing`",
            "no switch `most`",
            "`at-most`",
            "no such species",
        ],
    );
}

#[test]
fn a_rulebook_that_extends_none_has_to_answer_all() {
    assert_told("«»[rules.overlap]\nlevel = \"off\"", &["`extends = \"tonal\"`"]);
    assert_told("«»", &["leaves open what holds for `afterbeat-perfects`"]);
}

#[test]
fn built_in_names_are_not_to_be_had() {
    assert_told("name = «\"tonal\"»\nextends = \"modal\"", &["`tonal` is built in"]);
    let files = Files::of(&[("/modal.rulebook.toml", "extends = \"tonal\"")]);
    let mut collection = Collection::default();
    let held = looked_up(&mut collection, &files, "/modal.rulebook.toml");
    assert!(held.problems[0].message.contains("`modal` is built in"), "{:?}", held.problems);
}
