//! The tour against the other commands: what it shows is what they find.

use serde_json::Value;

use crate::run::{Folder, assert_fits, flat, run};

/// The sheets that are shown whole: all rows from line 1 on.
fn sheets(out: &str) -> Vec<String> {
    let mut sheets: Vec<String> = Vec::new();
    let mut number = 0;
    for row in out.lines() {
        let text = row.split_once('|').filter(|(left, _)| left.trim() == (number + 1).to_string());
        match text {
            Some((_, text)) => {
                if number == 0 {
                    sheets.push(String::new());
                }
                number += 1;
                let sheet = sheets.last_mut().unwrap();
                sheet.push_str(text.strip_prefix(' ').unwrap_or(text));
                sheet.push('\n');
            }
            None => number = 0,
        }
    }
    sheets
}

#[test]
fn it_ends_with_a_sheet_in_which_nothing_is_found() {
    let ran = run(&["tour"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert_fits(&ran.out);
    let sheets = sheets(&ran.out);
    let [before, after] = sheets.as_slice() else { panic!("{sheets:?}") };
    assert_eq!(found(before).len(), 3, "three mistakes are made");
    assert_eq!(found(after), Vec::<Value>::new());
    assert_eq!(Folder::new().run_on(&["format", "--check", "-"], after).code, 0);
}

#[test]
fn it_shows_what_is_found_and_what_is_done() {
    let ran = run(&["tour"]);
    let flat = flat(&ran.out);
    for finding in found(&sheets(&ran.out)[0]) {
        let [rule, message] = ["rule", "message"].map(|field| finding[field].as_str().unwrap());
        assert!(flat.contains(&format!("fault: {rule} {message}")), "{flat}");
        assert!(flat.contains(&format!(" {rule}: Write ")), "{rule}: {flat}");
    }
    assert!(flat.contains(" interval: "), "{flat}");
}

fn found(sheet: &str) -> Vec<Value> {
    let ran = Folder::new().run_on(&["check", "--format", "json", "-"], sheet);
    serde_json::from_str(&ran.out).unwrap()
}
