//! Names, titles, comments and reasons that would like to be something else.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use crate::page;
use crate::run::{list, run_in, text};

const TRICKS: [&str; 6] = [
    "</pre><script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "' onmouseover='alert(1)",
    "</title></style><h1>Full marks</h1>",
    "&lt;b&gt; &#60;i&#62; <!-- ",
    "=HYPERLINK(1)",
];

fn exercise(trick: &str) -> String {
    format!(
        "// {trick}\nby \"{trick}\"\n\nexercise \"{trick}\" // {trick}\n  key C major\n  species 1\n  \
         soprano counter | C5 | D5 | E5 | C5 |\n  tenor cantus | C4 | G3 | A3 | C4 |\n  \
         allow consecutive-perfects because \"{trick}\"\n  allow {trick}\n  bass {trick} | {trick} |\n"
    )
}

/// What stands on the page of a class in which everybody says the same.
fn marked(trick: &str, format: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    let tame = exercise("x").replace("  allow x\n", "").replace("  bass x | x |\n", "");
    let set = tame.replace("  allow consecutive-perfects because \"x\"\n", "");
    let set = set.replace("exercise \"x\"", &format!("exercise \"{trick}\""));
    fs::write(path.join("set.bicinium"), format!("deadline \"{trick}\"\n{set}")).expect("a sheet");
    fs::create_dir(path.join("in")).expect("a folder");
    fs::write(path.join("in/a.bicinium"), exercise(trick)).expect("a sheet");
    fs::write(path.join("in/<b>b.bicinium"), [0xFF, 0xFE]).expect("a sheet");
    fs::write(path.join("r.toml"), format!("title = '''{trick}'''\n")).expect("a rubric");
    let arguments =
        ["mark", "in", "--against", "set.bicinium", "--rubric", "r.toml", "--format", format];
    let ran = run_in(path, &arguments);
    assert!(!ran.out.is_empty(), "{}", ran.err);
    ran.out
}

fn shapes(page: &Value) -> BTreeSet<String> {
    list(&page["elements"]).iter().map(ToString::to_string).collect()
}

#[test]
fn nothing_that_is_handed_in_becomes_part_of_the_page() {
    let Some(tame) = page::read(&marked("plain words", "html")) else { return };
    for trick in TRICKS {
        let Some(page) = page::read(&marked(trick, "html")) else { return };
        let extra: Vec<_> = shapes(&page).difference(&shapes(&tame)).cloned().collect();
        // Text that cannot be read may be found in more places, but never in another form.
        assert_eq!(extra, [""; 0], "{trick}");
        let headings = list(&page["headings"]).len();
        assert_eq!(headings, list(&tame["headings"]).len(), "{trick}");
        assert!(text(&page["said"]).contains(trick), "{trick} is not shown as it was written");
    }
}

#[test]
fn nothing_that_is_handed_in_becomes_a_formula_or_a_command() {
    for trick in TRICKS.into_iter().chain(["@SUM(1)", "-1+1", "+1"]) {
        let sheet = marked(trick, "csv");
        let first = sheet.lines().nth(1).expect("a line").trim_start_matches('"');
        assert!(!first.starts_with(['=', '+', '-', '@']), "{first}");
    }
    let table = marked("\u{1b}[2J", "table");
    assert!(!table.contains('\u{1b}'), "{table:?}");
}
