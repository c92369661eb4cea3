//! What helps a reader of a sheet without being asked for: lines above the exercises, words set apart.

use std::ops::Range;

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
    assert_eq!(offer.get("semanticTokensProvider"), None);
    client.end();
}

/// The tokens of the sheet as their words, with their kinds and modifiers, from numbers in groups of
/// five.
fn words(editor: &Editor, data: &[u64]) -> Vec<(String, u64, u64)> {
    let (mut line, mut start) = (0, 0);
    let mut word = |token: &[u64]| {
        let [down, along, length, kind, modifiers] = *token else { panic!("not five numbers") };
        line += down;
        start = if down > 0 { along } else { start + along };
        let range = json!({
            "start": {"line": line, "character": start},
            "end": {"line": line, "character": start + length}
        });
        let screen = editor.screen(SHEET);
        (screen.text[screen.bytes(&range)].to_owned(), kind, modifiers)
    };
    data.chunks(5).map(&mut word).collect()
}

fn numbers(data: &Value) -> Vec<u64> {
    let numbers = data.as_array().expect("tokens are a list").iter();
    numbers.map(|number| number.as_u64().expect("a number")).collect()
}

/// What an editor announces that takes tokens in every way.
fn tokens() -> Value {
    json!({
        "requests": {"full": {"delta": true}, "range": true},
        "tokenTypes": ["variable"],
        "tokenModifiers": ["readonly"],
        "formats": ["relative"]
    })
}

fn all_tokens(editor: &mut Editor) -> (String, Vec<u64>) {
    let whole = editor.client.request("textDocument/semanticTokens/full", &about(SHEET));
    let id = whole["resultId"].as_str().expect("a name for the next time");
    (id.to_owned(), numbers(&whole["data"]))
}

#[test]
fn words_are_told_apart_on_every_line() {
    let mut editor = editor("semanticTokens", tokens());
    editor.open(SHEET, SONG);
    let (_, data) = all_tokens(&mut editor);
    let words = words(&editor, &data);
    assert_eq!(words[0].0, "rulebook");
    let of = |word: &str| words.iter().filter(|it| it.0 == word).collect::<Vec<_>>();
    assert_eq!(of("\"♯ 𝄞\"").len(), 1);
    // The given notes are marked as such, the written ones are not.
    assert_eq!(of("F4")[0].2 & 2, 2);
    assert_eq!(of("A4")[0].2, 0);
    assert_eq!(of("A4")[0].1, of("F4")[0].1);
    assert_ne!(of("?")[0].1, of("A4")[0].1);
    editor.end();
}

#[test]
fn some_lines_have_the_tokens_that_the_whole_has_there() {
    let mut editor = editor("semanticTokens", tokens());
    editor.open(SHEET, SONG);
    let (_, data) = all_tokens(&mut editor);
    let last = SONG.lines().last().expect("there are lines");
    let from = SONG.find(last).expect("it is there");
    let mut params = about(SHEET);
    params["range"] = editor.screen(SHEET).range(&(from..SONG.len()));
    let part = editor.client.request("textDocument/semanticTokens/range", &params);
    let (all, part) = (words(&editor, &data), words(&editor, &numbers(&part["data"])));
    assert_eq!(part[0].0, "tenor");
    assert_eq!(all[all.len() - part.len()..], part);
    editor.end();
}

#[test]
fn after_an_edit_only_what_differs_is_sent() {
    let mut editor = editor("semanticTokens", tokens());
    let sheet = SONG.repeat(30).replace("rulebook modal\n", "");
    editor.open(SHEET, &sheet);
    let (mut id, mut data) = all_tokens(&mut editor);
    for (word, insert) in [
        ("?", "E5"),
        ("", "// one more line\n"),
        ("C#5 | D5 |\n  tenor", "rest ? | D5 |\n  tenor"),
        ("exercise", "\n\nexercise"),
    ] {
        let at = editor.screen(SHEET).text.rfind(word).expect("it is there");
        editor.edit(SHEET, &(at..at + word.len()), insert);
        let mut params = about(SHEET);
        params["previousResultId"] = id.into();
        let change = editor.client.request("textDocument/semanticTokens/full/delta", &params);
        for edit in change["edits"].as_array().expect("a change") {
            let number = |name: &str| usize::try_from(edit[name].as_u64().unwrap()).unwrap();
            let (start, gone) = (number("start"), number("deleteCount"));
            let come = numbers(&edit["data"]);
            assert!(come.len() < 100, "{insert}: {} numbers", come.len());
            data.splice(start..start + gone, come);
        }
        let (name, whole) = all_tokens(&mut editor);
        assert_eq!(data, whole, "{insert}");
        id = name;
    }
    editor.end();
}

fn hints(editor: &mut Editor) -> Vec<String> {
    let whole = 0..editor.screen(SHEET).text.len();
    hints_in(editor, &whole)
}

/// What the hints say that stand within some bytes.
fn hints_in(editor: &mut Editor, bytes: &Range<usize>) -> Vec<String> {
    let mut params = about(SHEET);
    params["range"] = editor.screen(SHEET).range(bytes);
    let hints = editor.client.request("textDocument/inlayHint", &params);
    let hints = hints.as_array().expect("hints are a list").iter();
    let mut texts: Vec<_> =
        hints.map(|it| it["label"].as_str().expect("a label").trim().to_owned()).collect();
    texts.retain(|text| !text.is_empty());
    texts
}

/// Which hints there are follows what is set, and a client that can is told to ask again.
#[test]
fn hints_are_those_that_are_set() {
    let mut capabilities = capabilities(Encoding::Utf16, Delivery::Pull);
    capabilities["workspace"] = json!({"inlayHint": {"refreshSupport": true}});
    let mut editor = Editor::with(Encoding::Utf16, &capabilities);
    editor.open(SHEET, SONG);
    assert_eq!(hints(&mut editor), ["5", "6", "8"]);
    let set = json!({"settings": {"bicinium": {"hints": {"intervals": false}}}});
    editor.client.notify("workspace/didChangeConfiguration", &set);
    let told = editor.client.wait_for(|it| it["method"] == "workspace/inlayHint/refresh");
    editor.client.send(&json!({"jsonrpc": "2.0", "id": told["id"], "result": null}));
    assert_eq!(hints(&mut editor), Vec::<String>::new());
    editor.end();
}

const SUSPENSION: &str = "key C major\n\nexercise\n  species 4\n  \
    soprano counter | rest C5 | - B4 | C5 |\n  tenor   cantus  | C4      | D4   | C4 |\n";

#[test]
fn every_kind_of_hint_is_switched_off_by_itself() {
    for (off, left) in [
        (json!({}), &["8", "7\u{2013}6", "8", "I", "vii°6", "I"][..]),
        (json!({"harmonies": false}), &["8", "7\u{2013}6", "8"]),
        (json!({"suspensions": false}), &["8", "7 6", "8", "I", "vii°6", "I"]),
        (json!({"intervals": false}), &["7\u{2013}6", "I", "vii°6", "I"]),
        (json!({"intervals": false, "harmonies": false}), &["7\u{2013}6"]),
    ] {
        let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
        editor.open(SHEET, SUSPENSION);
        let set = json!({"settings": {"bicinium": {"hints": off}}});
        editor.client.notify("workspace/didChangeConfiguration", &set);
        assert_eq!(hints(&mut editor), left, "without {off}");
        editor.end();
    }
}

#[test]
fn hints_are_those_of_the_place_that_is_seen_wherever_it_has_moved() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, SUSPENSION);
    for comment in ["", "// a song\n", "// of the quay\n"] {
        editor.edit(SHEET, &(0..0), comment);
        let start = editor.screen(SHEET).text.find("tenor").expect("the row is there");
        let row = start..editor.screen(SHEET).text.len();
        assert_eq!(hints_in(&mut editor, &row), ["I", "vii°6", "I"]);
    }
    editor.end();
}
