//! Long sessions of typing: the server has to hold the same text as the editor, at every moment
//! at which it is asked.

use bicinium_tests::{Delivery, Editor, Encoding};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const SHEET: &str = "file:///sheet.bicinium";
const COPY: &str = "file:///copy.bicinium";
const EDITS: usize = 200;

/// What is typed: parts of the notation, mistakes, characters of every width, ends of lines.
const TYPED: [&str; 16] = [
    "C5 ",
    "H4",
    "c3",
    " | ",
    "𝄪",
    "♭",
    "é",
    "\n",
    "\n  bass | G3 |",
    "exercise\n",
    "(",
    ")",
    "\"",
    "// ",
    "?",
    "",
];

/// Where an edit begins and how much it takes away, as parts of 1000, and what is typed.
fn edits() -> Vec<(usize, usize, &'static str)> {
    let edit = (0..1000_usize, 0..30_usize, proptest::sample::select(&TYPED[..]));
    let mut runner = TestRunner::deterministic();
    proptest::collection::vec(edit, EDITS)
        .new_tree(&mut runner)
        .expect("edits can be made up")
        .current()
}

fn boundary(text: &str, part: usize) -> usize {
    let byte = text.len() * part / 1000;
    (0..=byte).rev().find(|&at| text.is_char_boundary(at)).expect("a text has a beginning")
}

/// Two questions about a document, not yet answered, and what they are about.
struct Asked {
    text: String,
    byte: usize,
    hover: i64,
    format: i64,
}

fn ask_at(editor: &mut Editor, uri: &str, byte: usize) -> Asked {
    let text = editor.screen(uri).text.clone();
    Asked { text, byte, hover: editor.ask_hover(uri, byte), format: editor.ask_format(uri) }
}

fn answers(editor: &mut Editor, asked: &Asked) -> (Value, Value) {
    let mut answer = |id| editor.client.answer(id)["result"].take();
    (answer(asked.hover), answer(asked.format))
}

#[test]
fn every_question_is_answered_for_the_text_it_is_about() {
    for encoding in Encoding::ALL {
        let mut editor = Editor::start(encoding, Delivery::Pull);
        editor.open(SHEET, BROKEN);
        let mut asked = Vec::new();
        for (number, (start, length, typed)) in edits().into_iter().enumerate() {
            let text = &editor.screen(SHEET).text;
            let bytes = boundary(text, start)..boundary(text, (start + length).min(1000));
            editor.edit(SHEET, &bytes, typed);
            if number % 10 == 0 {
                let byte = boundary(&editor.screen(SHEET).text, start);
                asked.push(ask_at(&mut editor, SHEET, byte));
            }
        }
        let given: Vec<_> = asked.iter().map(|asked| answers(&mut editor, asked)).collect();
        for (asked, given) in asked.iter().zip(given) {
            editor.open(COPY, &asked.text);
            let copied = ask_at(&mut editor, COPY, asked.byte);
            assert_eq!(given, answers(&mut editor, &copied), "in {:?}", asked.text);
            editor.close(COPY);
        }
        let found = editor.pull(SHEET, None);
        let text = editor.screen(SHEET).text.clone();
        editor.open(COPY, &text);
        assert_eq!(found, editor.pull(COPY, None));
        editor.end();
    }
}

#[test]
fn what_is_pushed_last_is_about_the_last_text() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Push);
    editor.open(SHEET, BROKEN);
    for (start, length, typed) in edits() {
        let text = &editor.screen(SHEET).text;
        let bytes = boundary(text, start)..boundary(text, (start + length).min(1000));
        editor.edit(SHEET, &bytes, typed);
    }
    let text = editor.screen(SHEET).text.clone();
    let found = editor.pushed(SHEET);
    editor.open(COPY, &text);
    let copied = editor.pushed(COPY);
    assert_eq!(found.to_string(), copied.to_string().replace(COPY, SHEET));
    editor.end();
}

#[test]
fn several_changes_in_one_message_follow_each_other() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, "exercise\n  soprano | H4 |\n");
    let position = |character: u32| json!({"line": 1, "character": character});
    let change = |from, to, text| json!({"range": {"start": position(from), "end": position(to)}, "text": text});
    let changes = [
        json!({"text": "exercise\n  soprano | |\n"}),
        change(12, 12, "𝄪H4 "),
        change(12, 14, "C5 | "),
        change(17, 18, "c"),
    ];
    let identifier = json!({"uri": SHEET, "version": 2});
    let params = json!({"textDocument": identifier, "contentChanges": changes});
    editor.client.notify("textDocument/didChange", &params);
    let found = editor.pull(SHEET, None);
    editor.open(COPY, "exercise\n  soprano | C5 | c4 |\n");
    assert_eq!(found, editor.pull(COPY, None));
    assert_ne!(found["items"], json!([]));
    editor.end();
}
