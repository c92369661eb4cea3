//! The same numbers in every form: table, spreadsheet and page against the JSON.

use serde_json::Value;

use crate::page;
use crate::run::{list, mark, marks, text};

fn standing(student: &Value, level: &str) -> usize {
    let answers = list(&student["answers"]).iter();
    let findings = answers.flat_map(|answer| list(&answer["findings"]));
    findings.filter(|it| it["level"] == level && it["accepted"].is_null()).count()
}

/// Points as they are written.
fn written(value: &Value) -> String {
    value.to_string()
}

#[test]
fn the_table_says_what_the_marks_say() {
    let (ran, marks) = (mark(&[]), marks());
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    for student in list(&marks["students"]) {
        let name: String = text(&student["name"]).chars().take(16).collect();
        let line = ran.out.lines().find(|line| line.starts_with(&name)).expect("a line");
        let cells: Vec<_> = line
            .chars()
            .skip(17)
            .collect::<String>()
            .split_whitespace()
            .map(str::to_owned)
            .collect();
        let answers = list(&student["answers"]);
        for (cell, answer) in cells.iter().zip(answers) {
            let bare = cell.trim_end_matches(['*', '?']);
            let told = if answer.is_null() { "-".to_owned() } else { written(&answer["points"]) };
            assert_eq!(bare, told, "{line}");
            let begun = answer["begun"] == true;
            assert_eq!(cell.ends_with('*'), begun && !list(&answer["not_as_set"]).is_empty());
        }
        let faults = standing(student, "fault").to_string();
        let cautions = standing(student, "caution").to_string();
        assert_eq!(cells[5], written(&student["points"]), "{line}");
        assert_eq!(cells[7..], [faults, cautions], "{line}");
    }
    for rule in list(&marks["rules"]).iter().take(8) {
        let row = list(&rule["by_student"]).iter().filter_map(Value::as_u64);
        let times: u64 = row.clone().sum();
        let students = row.filter(|number| *number > 0).count();
        let line = ran.out.lines().find(|line| line.trim().starts_with(text(&rule["rule"])));
        let numbers: Vec<_> = line.expect("a line").split_whitespace().collect();
        assert_eq!((numbers[1], numbers[3]), (&*students.to_string(), &*times.to_string()));
    }
}

#[test]
fn the_spreadsheet_says_what_the_marks_say() {
    let (ran, marks) = (mark(&["--format", "csv"]), marks());
    let mut lines = ran.out.lines();
    let head: Vec<_> = lines.next().expect("a head").split(',').collect();
    let column = |name| head.iter().position(|own| *own == name).expect("a column");
    for student in list(&marks["students"]) {
        for (answer, number) in list(&student["answers"]).iter().zip(1..) {
            let cells: Vec<_> = lines.next().expect("a line").split(',').collect();
            assert_eq!(cells[column("student")], text(&student["name"]));
            assert_eq!(cells[column("exercise")], number.to_string());
            let points = if answer.is_null() { "0".to_owned() } else { written(&answer["points"]) };
            assert_eq!(cells[column("points")], points);
            let level = |level| {
                let found = list(&answer["findings"]).iter();
                found.filter(|it| it["level"] == level && it["accepted"].is_null()).count()
            };
            if !answer.is_null() {
                assert_eq!(cells[column("faults")], level("fault").to_string());
                assert_eq!(cells[column("notation")], level("notation").to_string());
            }
        }
    }
    assert_eq!(lines.next(), None);
}

#[test]
fn the_page_says_what_the_marks_say() {
    let Some(page) = page::read(&mark(&["--format", "html"]).out) else { return };
    let marks = marks();
    let (students, tables) = (list(&marks["students"]), list(&page["tables"]));
    let cell = |row: &Value, at: usize| text(&row[at][0]).to_owned();
    for (student, row) in students.iter().zip(&list(&tables[0])[1..]) {
        assert_eq!(cell(row, 0), text(&student["name"]));
        for (answer, at) in list(&student["answers"]).iter().zip(1..) {
            let points = if answer.is_null() {
                "not handed in".to_owned()
            } else {
                written(&answer["points"])
            };
            assert!(cell(row, at).starts_with(&points), "{row}");
        }
        assert_eq!(cell(row, 6), written(&student["points"]));
        assert_eq!(cell(row, 8), standing(student, "fault").to_string());
        assert_eq!(cell(row, 9), standing(student, "caution").to_string());
    }
    for (rule, row) in list(&marks["rules"]).iter().zip(&list(&tables[1])[1..]) {
        assert_eq!(cell(row, 0), text(&rule["rule"]));
        for (number, at) in list(&rule["by_student"]).iter().zip(3..) {
            let told = if *number == 0 { String::new() } else { number.to_string() };
            assert_eq!(cell(row, at), told, "{row}");
        }
    }
    let said = text(&page["said"]);
    for student in students {
        for answer in list(&student["answers"]) {
            for found in list(&answer["findings"]).iter().filter(|it| it["level"] != "unfinished") {
                let message = text(&found["message"]).replace('`', "");
                assert!(said.contains(&message), "{message}");
            }
        }
    }
}

#[test]
fn numbers_stand_in_the_place_of_names() {
    for format in ["table", "html", "csv", "json"] {
        let ran = mark(&["--format", format, "--anonymous"]);
        assert!(ran.out.contains("Student 7"), "{}", ran.out);
        for name in ["Tilda", "Marrow", "Kester", "tilda", "odd-name", "Lürin", "mira-latin1"] {
            assert!(!ran.out.contains(name), "{format}: {name}");
        }
    }
}

#[test]
fn what_cannot_be_read_is_told_and_loses_nobody() {
    let ran = mark(&[]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains("13 sheets marked and 2 could not be. 1 licence is for you to judge."),
        "{}",
        ran.out
    );
    let told: Vec<_> = ran.err.lines().collect();
    assert_eq!(
        told,
        [
            "bicinium: hand-ins/mira-latin1.bicinium: it is not plain text; open it in an editor and save it as UTF-8.",
            "bicinium: hand-ins/nils-utf16.bicinium: it is not plain text; open it in an editor and save it as UTF-8."
        ]
    );
    assert_eq!(list(&marks()["unread"]).len(), 2);
}
