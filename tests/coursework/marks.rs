//! Every number of the marks, recomputed from what `check` finds and from what the rubric says.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::run::{class, list, marks, run_in, text};

/// What `check` finds in a sheet by one rulebook.
fn checked(sheet: &str, rulebook: &str) -> Vec<Value> {
    let ran = run_in(&class(), &["check", sheet, "--rulebook", rulebook, "--format", "json"]);
    serde_json::from_str(&ran.out).expect("findings are JSON")
}

/// What was found in the exercise that answers a task.
fn found<'f>(all: &'f [Value], answer: &Value) -> Vec<&'f Value> {
    all.iter().filter(|finding| finding["exercise"] == answer["exercise"]).collect()
}

fn rubric() -> toml::Table {
    let path = class().join("ropewalk.rubric.toml");
    let text = std::fs::read_to_string(path).expect("the rubric is there");
    text.parse().expect("the rubric is TOML")
}

/// A number of the rubric in hundredths, if it is there.
fn number(rubric: &toml::Table, path: &[&str]) -> Option<i64> {
    let mut value = rubric.get(path[0])?;
    for key in &path[1..] {
        value = value.get(key)?;
    }
    value.as_integer().map(|whole| whole * 100).or_else(|| Some(hundredths(value.as_float()?)))
}

#[expect(clippy::cast_possible_truncation, reason = "points are small")]
fn hundredths(points: f64) -> i64 {
    (points * 100.0).round() as i64
}

fn points(value: &Value) -> i64 {
    hundredths(value.as_f64().expect("points are a number"))
}

/// What is taken off for so many, by a part of the rubric.
fn off(rubric: &toml::Table, part: &[&str], times: i64) -> i64 {
    let each = number(rubric, &[part, &["off"]].concat()).unwrap_or(0);
    let most = number(rubric, &[part, &["at-most"]].concat()).unwrap_or(i64::MAX);
    (each * times).min(most)
}

fn length(value: &Value) -> i64 {
    i64::try_from(list(value).len()).expect("lists are short")
}

/// The points of an answer, reckoned from the findings of `check`.
fn reckoned(rubric: &toml::Table, worth: i64, answer: &Value, findings: &[&Value]) -> i64 {
    if answer["begun"] == false {
        return 0;
    }
    let mut counts: BTreeMap<Vec<&str>, i64> = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding["level"] != "unfinished") {
        let (rule, level) = (text(&finding["rule"]), text(&finding["level"]));
        let by_rule = rubric["rules"].get(rule).is_some();
        let part = match &finding["accepted"] {
            Value::String(_) => vec!["licences"],
            _ if by_rule => vec!["rules", rule],
            _ => vec!["levels", level],
        };
        *counts.entry(part).or_default() += 1;
    }
    counts.insert(vec!["unfinished"], length(&answer["open_bars"]));
    for departure in list(&answer["not_as_set"]) {
        counts.insert(vec!["as-set", text(&departure["aspect"])], 1);
    }
    let off: i64 = counts.iter().map(|(part, times)| off(rubric, part, *times)).sum();
    let is_complete = list(&answer["open_bars"]).is_empty();
    let merits = list(&answer["merits"]).iter().filter(|_| is_complete);
    let bonus =
        merits.map(|merit| number(rubric, &["bonus", text(&merit["kind"]), "points"]).unwrap_or(0));
    (worth - off).max(0) + bonus.sum::<i64>()
}

#[test]
fn every_finding_and_every_point_follows_from_check() {
    let (marks, rubric) = (marks(), rubric());
    let mut answers = 0;
    for student in list(&marks["students"]) {
        let sheet = text(&student["sheet"]);
        let by = ["ropewalk", "modal"].map(|rulebook| (rulebook, checked(sheet, rulebook)));
        let mut sum = 0;
        for (answer, task) in list(&student["answers"]).iter().zip(list(&marks["exercises"])) {
            if answer.is_null() {
                continue;
            }
            answers += 1;
            let judged = by.iter().find(|(rulebook, _)| task["rulebook"] == *rulebook);
            let (_, all) = judged.expect("a rulebook of the class");
            let findings = found(all, answer);
            let told = list(&answer["findings"]);
            assert_eq!(told.len(), findings.len(), "{sheet}");
            for (told, found) in told.iter().zip(&findings) {
                for field in ["rule", "level", "message", "voice", "bar", "accepted"] {
                    assert_eq!(told[field], found[field], "{sheet}");
                }
            }
            let worth = points(&task["worth"]);
            let reckoned = reckoned(&rubric, worth, answer, &findings);
            assert_eq!(points(&answer["points"]), reckoned, "{sheet}: {answer:#}");
            let no_fault = list(&answer["merits"]).iter().any(|merit| merit["kind"] == "no-fault");
            let stands = |it: &&&Value| it["accepted"].is_null() && it["level"] != "advice";
            let is_flawless = findings.iter().filter(stands).count() == 0
                && list(&answer["not_as_set"]).is_empty();
            assert_eq!(no_fault, is_flawless, "{sheet}: {answer:#}");
            sum += reckoned;
        }
        assert_eq!(points(&student["points"]), sum, "{sheet}");
    }
    assert!(answers > 50, "{answers}");
}

#[test]
fn the_rules_are_counted_as_check_finds_them() {
    let marks = marks();
    let mut counts: BTreeMap<String, Vec<u64>> = BTreeMap::new();
    let students = list(&marks["students"]);
    for (index, student) in students.iter().enumerate() {
        let sheet = text(&student["sheet"]);
        let by = ["ropewalk", "modal"].map(|rulebook| (rulebook, checked(sheet, rulebook)));
        let tasks = list(&student["answers"]).iter().zip(list(&marks["exercises"]));
        let chosen: BTreeMap<u64, &str> = tasks
            .filter_map(|(answer, task)| {
                Some((answer["exercise"].as_u64()?, text(&task["rulebook"])))
            })
            .collect();
        for (rulebook, all) in &by {
            for finding in all {
                // What answers nothing that was set is judged by the rulebook of the first exercise.
                let number = finding["exercise"].as_u64();
                let meant = number.and_then(|number| chosen.get(&number)).unwrap_or(&"ropewalk");
                let level = text(&finding["level"]);
                let counts_here = meant == rulebook
                    && finding["accepted"].is_null()
                    && ["notation", "fault", "caution"].contains(&level);
                if counts_here {
                    let rule = text(&finding["rule"]).to_owned();
                    counts.entry(rule).or_insert_with(|| vec![0; students.len()])[index] += 1;
                }
            }
        }
    }
    let told = list(&marks["rules"]).iter().map(|rule| {
        let row = list(&rule["by_student"]).iter().filter_map(Value::as_u64).collect();
        (text(&rule["rule"]).to_owned(), row)
    });
    assert_eq!(told.collect::<BTreeMap<_, _>>(), counts);
    assert!(counts.len() > 10);
}

#[test]
fn open_bars_are_those_that_hold_nothing_or_a_question_mark() {
    for student in list(&marks()["students"]) {
        let sheet = class().join(text(&student["sheet"]));
        let written = std::fs::read_to_string(sheet).expect("the sheet is there");
        let rows = written.lines().filter(|line| line.contains(" counter "));
        let rows: Vec<Vec<&str>> = rows.map(|row| row.split('|').skip(1).collect()).collect();
        // Where words are broken, or rows in other places, the row of an answer is not the one of its number.
        if rows.len() != 5 {
            continue;
        }
        for (answer, row) in list(&student["answers"]).iter().zip(&rows) {
            let bars = row[..row.len() - 1].iter().zip(1_u64..);
            let open = bars.filter(|(bar, _)| bar.trim().is_empty() || bar.contains('?'));
            let open: Vec<_> = open.map(|(_, number)| number).collect();
            assert_eq!(answer["open_bars"], serde_json::json!(open), "{}", student["sheet"]);
        }
    }
}

#[test]
fn what_was_handed_in_stays_as_it_is() {
    let folder = class().join("hand-ins");
    let read = || -> BTreeMap<_, _> {
        let entries = std::fs::read_dir(&folder).expect("the folder is there");
        let paths = entries.map(|entry| entry.expect("an entry").path());
        paths.map(|path| (path.clone(), std::fs::read(&path).expect("a sheet"))).collect()
    };
    let before = read();
    crate::run::mark(&["--format", "html"]);
    assert!(before.len() == 15 && before == read());
}
