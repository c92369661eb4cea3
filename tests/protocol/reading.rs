//! What helps a reader of a sheet without being asked for: lines above the exercises.

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

const SHEET: &str = "file:///reading.bicinium";

const SONG: &str = "rulebook modal
key D dorian

exercise \"♯ 𝄞\"
  species 1
  soprano counter | A4 | ? | C#5 | D5 |
  tenor   cantus  | D4 | F4 | E4 | D4 |
";

/// An editor that announces one more thing about documents.
fn editor(name: &str, announced: Value) -> Editor {
    let mut capabilities = capabilities(Encoding::Utf16, Delivery::Pull);
    capabilities["textDocument"][name] = announced;
    Editor::with(Encoding::Utf16, &capabilities)
}

#[test]
fn the_state_of_an_exercise_stands_above_it_and_follows_every_edit() {
    let mut editor = editor("codeLens", json!({}));
    editor.open(SHEET, SONG);
    let hole = SONG.find('?').expect("it is there");
    let above = |editor: &mut Editor| {
        let lenses = editor.client.request("textDocument/codeLens", &about(SHEET));
        let lens = lenses[0].clone();
        let bytes = editor.screen(SHEET).bytes(&lens["range"]);
        assert_eq!(&editor.screen(SHEET).text[bytes], "exercise \"♯ 𝄞\"");
        lens["command"]["title"].clone()
    };
    assert_eq!(above(&mut editor), "nothing wrong so far · 1 hole");
    editor.edit(SHEET, &(hole..hole + 1), "A4");
    assert_eq!(above(&mut editor), "clean");
    editor.edit(SHEET, &(hole..hole + 2), "C5");
    assert_eq!(above(&mut editor), "2 faults");
    editor.end();
}

#[test]
fn whoever_does_not_show_it_is_not_offered_it() {
    let mut client = Client::start();
    let offer = client.initialize(&json!({}))["capabilities"].take();
    assert_eq!(offer.get("codeLensProvider"), None);
    client.end();
}
