//! The list for other programs.

use serde_json::{Value, json};

use crate::run::{CLEAN, Folder, LICENCE, OCTAVES};

fn findings(sheet: &str, arguments: &[&str]) -> Vec<Value> {
    let all = [&["check", "--format", "json", "-"], arguments].concat();
    let ran = Folder::new().run_on(&all, sheet);
    assert_eq!(ran.err, "");
    serde_json::from_str(&ran.out).unwrap()
}

/// What the text says in a range, read the way the list counts: lines from 0, UTF-16 code units.
fn at<'t>(text: &'t str, range: &Value) -> Option<&'t str> {
    let number = |value: &Value| usize::try_from(value.as_u64()?).ok();
    assert_eq!(range["start"]["line"], range["end"]["line"]);
    let line = text.split('\n').nth(number(&range["start"]["line"])?)?;
    let offset = |units: usize| {
        let mut passed = 0;
        line.char_indices().find_map(|(at, character)| {
            let found = (passed == units).then_some(at);
            passed += character.len_utf16();
            found
        })
    };
    line.get(
        offset(number(&range["start"]["character"])?)?
            ..offset(number(&range["end"]["character"])?)?,
    )
}

#[test]
fn a_finding_has_these_fields() {
    let found = findings(OCTAVES, &["--level", "fault"]);
    let [fault] = found.as_slice() else { panic!("{found:?}") };
    let mut fields: Vec<_> = fault.as_object().unwrap().keys().map(String::as_str).collect();
    fields.sort_unstable();
    let all = [
        "accepted", "bar", "beat", "exercise", "level", "message", "path", "range", "related",
        "rule", "voice",
    ];
    assert_eq!(fields, all);
    let [path, exercise, rule, level] = ["path", "exercise", "rule", "level"].map(|it| &fault[it]);
    assert_eq!((path, exercise), (&json!("-"), &json!(1)));
    assert_eq!((rule, level), (&json!("consecutive-perfects"), &json!("fault")));
    assert_eq!((&fault["bar"], &fault["beat"]), (&json!(3), &json!(1)));
    assert_eq!((&fault["voice"], &fault["accepted"]), (&Value::Null, &Value::Null));
    assert_eq!(at(OCTAVES, &fault["range"]), Some("F3"));
    let related = fault["related"].as_array().unwrap();
    assert!(!related.is_empty());
    for other in related {
        assert!(!other["message"].as_str().unwrap().is_empty());
        assert!(at(OCTAVES, &other["range"]).is_some());
    }
}

#[test]
fn nothing_found_is_an_empty_list() {
    assert_eq!(findings(CLEAN, &[]), Vec::<Value>::new());
}

#[test]
fn what_concerns_the_text_alone_has_no_place_in_the_music() {
    let found = findings("key H major\n", &[]);
    assert_eq!(found[0]["level"], "notation");
    for field in ["exercise", "voice", "bar", "beat", "accepted"] {
        assert_eq!(found[0][field], Value::Null, "{field}");
    }
}

#[test]
fn one_voice_is_named() {
    let found = findings(&CLEAN.replace("E3 D3", "E3 D#3"), &["--level", "fault"]);
    assert!(found.iter().any(|it| it["voice"] == "lower" && it["rule"] == "foreign-note"));
}

/// A sheet without the settings before its exercise.
fn exercise(sheet: &str) -> &str {
    &sheet[sheet.find("exercise").unwrap()..]
}

#[test]
fn exercises_are_counted_from_one() {
    let found = findings(&format!("{CLEAN}\n{}", exercise(OCTAVES)), &["--level", "fault"]);
    assert_eq!(found[0]["exercise"], 2);
}

#[test]
fn a_licence_is_told_with_its_reason() {
    let accepted = |licence: &str| {
        let found = findings(&format!("{OCTAVES}{licence}"), &["--level", "fault"]);
        found[0]["accepted"].clone()
    };
    assert_eq!(accepted(LICENCE), json!("the school does"));
    assert_eq!(accepted("  allow consecutive-perfects\n"), json!(""));
}

#[test]
fn between_beats_stands_a_fraction() {
    let sheet = "\
meter 2/2
key C major

exercise
  soprano counter | | C5          | |
  alto    counter | | E4 F#4 - G4 | |
";
    let found = findings(sheet, &[]);
    let foreign = found.iter().find(|it| it["rule"] == "foreign-note").unwrap();
    assert_eq!((&foreign["bar"], &foreign["beat"]), (&json!(2), &json!(1.5)));
}

#[test]
fn columns_are_utf_16_code_units() {
    let sheet = "key C major\n\nexercise\n  species 1\n  bass | C3 | 𝄞 | é |\n";
    let found = findings(sheet, &["--level", "notation"]);
    let marked: Vec<_> = found.iter().filter_map(|it| at(sheet, &it["range"])).collect();
    assert!(marked.contains(&"𝄞") && marked.contains(&"é"), "{found:?}");
}

#[test]
fn lines_ended_in_another_way_count_the_same() {
    let crlf = findings(&OCTAVES.replace('\n', "\r\n"), &[]);
    assert_eq!(crlf, findings(OCTAVES, &[]));
}
