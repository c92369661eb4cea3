//! An exercise with mistakes of three kinds, mended by nothing but the fixes that are offered.

use bicinium_tests::{Delivery, Editor, Encoding};
use serde_json::{Value, json};

const SHEET: &str = "file:///mill.bicinium";

/// A dissonance left by leap in bar 3, a leap of a seventh into bar 5, fifths into bar 7.
const MILL_SONG: &str = "\
// Windmill School, strict counterpoint, sheet 3
rulebook tonal
key F major
meter 2/2

cantus mill-song
  line | F4 | G4 | A4 | C5 | Bb4 | A4 | G4 | F4 |

exercise \"No. 1: second species, below\"
  species 2
  soprano cantus mill-song | F4      | G4    | A4    | C5    |
  bass    counter          | rest F3 | E3 C3 | F3 E3 | A3 C4 |

  soprano                  | Bb4   | A4    | G4    | F4 |
  bass                     | D3 E3 | F3 D3 | C3 E3 | F3 |
";

const FAULT: i64 = 1;
const CAUTION: i64 = 2;

/// What is found that is as grave as this.
fn found(editor: &mut Editor, mildest: i64) -> Vec<Value> {
    let mut items = editor.pull(SHEET, None)["items"].take();
    let items = items.as_array_mut().expect("diagnostics are a list");
    items.retain(|item| item["severity"].as_i64().is_some_and(|severity| severity <= mildest));
    std::mem::take(items)
}

/// Takes the fix that is offered first for a finding.
fn mend(editor: &mut Editor, finding: &Value) {
    let bytes = editor.screen(SHEET).bytes(&finding["range"]);
    let actions = editor.actions(SHEET, &bytes, &json!({"diagnostics": [finding]}));
    let is_meant = |action: &&Value| {
        let mended = action["diagnostics"].as_array().expect("a fix names what it mends");
        action["isPreferred"] == true && mended.contains(finding)
    };
    let fix = actions.iter().find(is_meant);
    let fix = fix.unwrap_or_else(|| panic!("nothing is offered for {finding}"));
    let mut screen = editor.screen(SHEET).clone();
    let whole = 0..screen.text.len();
    screen.apply(&fix["edit"]["changes"][SHEET]);
    editor.edit(SHEET, &whole, &screen.text);
}

fn cantus(text: &str) -> Vec<&str> {
    let rows = text.lines().filter(|line| line.trim_start().starts_with("soprano"));
    rows.flat_map(|row| row.split_whitespace()).collect()
}

#[test]
fn three_mistakes_are_mended_by_the_fixes_alone() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, MILL_SONG);
    let faults = found(&mut editor, FAULT);
    let rules: Vec<_> = faults.iter().map(|fault| fault["code"].as_str().unwrap()).collect();
    assert_eq!(rules, ["weak-dissonance", "wide-leap", "consecutive-perfects"]);
    for left in (0..faults.len()).rev() {
        let first = found(&mut editor, FAULT).swap_remove(0);
        mend(&mut editor, &first);
        assert!(found(&mut editor, FAULT).len() <= left, "{}", editor.screen(SHEET).text);
    }
    assert_eq!(cantus(&editor.screen(SHEET).text), cantus(MILL_SONG));
    editor.end();
}

#[test]
fn the_cautions_can_be_mended_in_their_turn() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, MILL_SONG);
    let mut rounds = 0;
    while let Some(first) = found(&mut editor, CAUTION).first() {
        mend(&mut editor, first);
        rounds += 1;
        assert!(rounds <= 8, "no end: {}", editor.screen(SHEET).text);
    }
    assert_eq!(cantus(&editor.screen(SHEET).text), cantus(MILL_SONG));
    editor.end();
}
