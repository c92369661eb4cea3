//! Holes: what the server offers there is what the judge lets stand.

use bicinium_tests::{Delivery, Editor, Encoding, about};
use serde_json::{Value, json};

const SHEET: &str = "file:///holes.bicinium";

const HOLES: &str = "rulebook tonal
key C major

exercise
  species 1
  soprano counter | G4 | ? | C5 | B4 | ? | C5 |
  tenor   cantus  | C4 | E4 | F4 | G4 | D4 | C4 |
";

fn completions(editor: &mut Editor, byte: usize) -> Value {
    let mut params = about(SHEET);
    params["position"] = editor.screen(SHEET).position(byte);
    editor.client.request("textDocument/completion", &params)
}

/// The faults of the sheet as it stands.
fn faults(editor: &mut Editor) -> usize {
    let report = editor.pull(SHEET, None);
    let items = report["items"].as_array().expect("a report has items");
    items.iter().filter(|item| item["severity"] == 1).count()
}

#[test]
fn a_hole_offers_the_pitches_from_which_the_end_is_reached() {
    let text = HOLES.replacen("| ? |", "| C5 |", 1);
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
    editor.open(SHEET, &text);
    let hole = text.find('?').unwrap();
    let offered = completions(&mut editor, hole);
    let items = offered["items"].as_array().unwrap().clone();
    assert!(!items.is_empty());
    for item in items {
        let pitch = item["textEdit"]["newText"].as_str().unwrap();
        assert_eq!(item["label"], pitch);
        let detail = item["detail"].as_str().unwrap();
        assert!(detail.contains(" over D4, the "), "{item}");
        editor.edit(SHEET, &(hole..hole + 1), pitch);
        assert_eq!(faults(&mut editor), 0, "{pitch}");
        editor.edit(SHEET, &(hole..hole + pitch.len()), "?");
    }
    editor.end();
}

#[test]
fn a_blank_bar_offers_whole_bars_that_reach_the_end() {
    let text = "rulebook modal
key D dorian

exercise
  species 2
  soprano counter | rest A4 |   | B4 C#5 | D5 |
  tenor   cantus  | D4      | F4 | E4     | D4 |
";
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
    editor.open(SHEET, text);
    let blank = text.find("|   |").expect("a bar is blank") + 2;
    let offered = completions(&mut editor, blank);
    let items = offered["items"].as_array().expect("bars are offered").clone();
    assert!(items.len() > 1, "{items:?}");
    for item in items {
        let bar = item["textEdit"]["newText"].as_str().expect("an edit");
        assert_eq!(bar.split(' ').count(), 2, "{item}");
        assert!(item["detail"].as_str().expect("a detail").contains(" F4"), "{item}");
        editor.edit(SHEET, &(blank..blank), bar);
        assert_eq!(faults(&mut editor), 0, "{bar}");
        editor.edit(SHEET, &(blank..blank + bar.len()), "");
    }
    editor.end();
}

#[test]
fn elsewhere_nothing_is_offered() {
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
    editor.open(SHEET, HOLES);
    let note = HOLES.find("G4").unwrap();
    assert_eq!(completions(&mut editor, note), Value::Null);
    editor.end();
}

#[test]
fn what_is_open_is_filled_here_in_this_bar_to_the_end_or_all_at_once() {
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
    editor.open(SHEET, HOLES);
    let hole = HOLES.find('?').unwrap();
    let context = json!({"diagnostics": [], "only": ["refactor.rewrite"]});
    let actions = editor.actions(SHEET, &(hole..hole), &context);
    let titles: Vec<_> = actions.iter().map(|it| it["title"].as_str().unwrap()).collect();
    assert!(titles[0].starts_with("Fill this hole: "), "{titles:?}");
    assert!(titles[1..].iter().all(|title| title.starts_with("Fill ")), "{titles:?}");
    for (action, title) in actions.iter().zip(titles) {
        let mut screen = editor.screen(SHEET).clone();
        screen.apply(&action["edit"]["changes"][SHEET]);
        let filled = screen.text.clone();
        let left = usize::from(title.starts_with("Fill this"));
        assert_eq!(filled.matches('?').count(), left, "{title}: {filled}");
        let mut other = Editor::start(Encoding::Utf8, Delivery::Pull);
        other.open(SHEET, &filled);
        assert_eq!(faults(&mut other), 0, "{filled}");
        other.end();
    }
    editor.end();
}

#[test]
fn a_bar_that_is_written_can_be_written_another_way_until_the_first_comes_again() {
    let text = HOLES.replacen("| ? |", "| C5 |", 1).replace("| ? |", "| B4 |");
    let bar = text.find("C5").unwrap();
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Pull);
    editor.open(SHEET, &text);
    let context = json!({"diagnostics": [], "only": ["refactor.rewrite"]});
    let mut seen = vec![text.clone()];
    loop {
        let actions = editor.actions(SHEET, &(bar..bar), &context);
        let another =
            |it: &&Value| it["title"].as_str().unwrap().starts_with("Write bar 2 another");
        let action = actions.iter().find(another).expect("there is another way").clone();
        let mut screen = editor.screen(SHEET).clone();
        screen.apply(&action["edit"]["changes"][SHEET]);
        editor.edit(SHEET, &(0..editor.screen(SHEET).text.len()), &screen.text);
        assert_eq!(faults(&mut editor), 0, "{}", screen.text);
        if seen.contains(&screen.text) {
            break;
        }
        seen.push(screen.text);
    }
    assert!(seen.len() > 1, "{seen:?}");
    editor.end();
}
