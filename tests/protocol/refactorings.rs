//! What can be done with a sheet as a whole, as code actions: other keys, a system more, everything
//! mended at once.

use bicinium_tests::{Delivery, Editor, Encoding};
use serde_json::{Value, json};

const SHEET: &str = "file:///sheet.bicinium";

const SONG: &str = "\
// Quay School ♯
exercise \"No. 1 – 𝄞\" // begun
  key C major
  species 1
  soprano cantus  | C5 | D5 | C5 | // the song
  tenor   counter | C4 | b3 | C4 |
";

fn editor(text: &str) -> Editor {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, text);
    editor
}

fn asked(editor: &mut Editor, at: &str, only: &str) -> Vec<Value> {
    let at = editor.screen(SHEET).text.find(at).expect("it is there");
    editor.actions(SHEET, &(at..at), &json!({"diagnostics": [], "only": [only]}))
}

fn take(editor: &mut Editor, action: &Value) {
    let mut screen = editor.screen(SHEET).clone();
    let before = screen.text.len();
    screen.apply(&action["edit"]["changes"][SHEET]);
    editor.edit(SHEET, &(0..before), &screen.text);
}

fn found(editor: &mut Editor) -> Vec<Value> {
    editor.pull(SHEET, None)["items"].as_array().expect("diagnostics are a list").clone()
}

#[test]
fn everything_is_mended_by_either_name() {
    for kind in ["source.fixAll", "source.fixAll.bicinium", "source"] {
        let mut editor = editor(SONG);
        let actions = asked(&mut editor, "exercise", kind);
        assert_eq!(actions.len(), 1, "{actions:?}");
        assert_eq!(actions[0]["kind"], "source.fixAll.bicinium");
        take(&mut editor, &actions[0]);
        let text = editor.screen(SHEET).text.clone();
        assert!(text.contains("// the song") && text.starts_with("// Quay School ♯"), "{text}");
        let left = found(&mut editor);
        assert!(left.iter().all(|it| it["severity"] != 1), "{left:?} in {text}");
        assert_eq!(asked(&mut editor, "exercise", kind), Vec::<Value>::new());
        editor.end();
    }
}

#[test]
fn everything_is_mended_in_a_selected_sheet_where_no_kind_is_named() {
    let mut editor = editor(SONG);
    let all = editor.actions(SHEET, &(0..SONG.len()), &json!({"diagnostics": []}));
    assert!(all.iter().any(|it| it["kind"] == "source.fixAll.bicinium"));
    let here = editor.actions(SHEET, &(0..0), &json!({"diagnostics": []}));
    assert!(here.iter().all(|it| it["kind"] != "source.fixAll.bicinium"));
    editor.end();
}

#[test]
fn refactorings_are_offered_at_the_head_by_kind() {
    let clean = SONG.replace("b3", "B3");
    let mut editor = editor(&clean);
    let mut kinds: Vec<_> = asked(&mut editor, "exercise", "refactor")
        .iter()
        .map(|it| it["kind"].as_str().expect("a kind").to_owned())
        .collect();
    kinds.dedup();
    assert_eq!(
        kinds,
        ["refactor.rewrite.system", "refactor.rewrite.exchange", "refactor.rewrite.transpose"]
    );
    let only = asked(&mut editor, "exercise", "refactor.rewrite.transpose");
    assert!(only.iter().all(|it| it["kind"] == "refactor.rewrite.transpose") && !only.is_empty());
    assert_eq!(asked(&mut editor, "D5", "refactor"), Vec::<Value>::new());
    editor.end();
}

#[test]
fn another_key_leaves_the_same_findings() {
    let clean = SONG.replace("b3", "B3");
    let mut editor = editor(&clean);
    let rules =
        |found: Vec<Value>| found.into_iter().map(|it| it["code"].clone()).collect::<Vec<_>>();
    let before = rules(found(&mut editor));
    let transpositions = asked(&mut editor, "exercise", "refactor.rewrite.transpose");
    for action in transpositions {
        let text = editor.screen(SHEET).text.clone();
        take(&mut editor, &action);
        assert_eq!(rules(found(&mut editor)), before, "{}", editor.screen(SHEET).text);
        let changed = editor.screen(SHEET).text.len();
        editor.edit(SHEET, &(0..changed), &text);
    }
    editor.end();
}
