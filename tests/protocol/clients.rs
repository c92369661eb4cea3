//! Real clients: each greets the server with what it announces, writes into a sheet, and gets what
//! it can use, in the form that it can use, and nothing else.

use std::path::Path;

use bicinium_tests::{Client, Delivery, Editor, Encoding};
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const SHEET: &str = "file:///home/pupil/sheets/sheet.bicinium";

/// What must work in a client.
struct Expected {
    /// The name of its file in `tests/clients`.
    client: &'static str,
    encoding: Encoding,
    delivery: Delivery,
    hover: &'static str,
    /// Where the edits of a code action are.
    edits: &'static str,
    /// What the server asks of it at the beginning.
    asked: &'static [&'static str],
}

const WATCH: &str = "client/registerCapability";
const SETTINGS: &str = "workspace/configuration";

const CLIENTS: [Expected; 8] = [
    // It counts bytes and says so in its options, though the protocol knows no such way.
    expected("ale-3.3", Encoding::Utf8, Delivery::Push, "plaintext", "changes", &[]),
    expected(
        "eglot-1.9",
        Encoding::Utf16,
        Delivery::Push,
        "markdown",
        "documentChanges",
        &[WATCH, SETTINGS],
    ),
    expected(
        "kak-lsp-22",
        Encoding::Utf8,
        Delivery::Push,
        "markdown",
        "documentChanges",
        &[SETTINGS],
    ),
    expected("kate-22.12", Encoding::Utf16, Delivery::Push, "markdown", "changes", &[]),
    expected(
        "lsp-mode-8.0",
        Encoding::Utf16,
        Delivery::Push,
        "markdown",
        "documentChanges",
        &[WATCH, SETTINGS],
    ),
    expected("neovim-0.7", Encoding::Utf16, Delivery::Push, "markdown", "changes", &[]),
    expected("neovim-0.11", Encoding::Utf8, Delivery::Pull, "markdown", "changes", &[SETTINGS]),
    expected(
        "vs-code-1.139",
        Encoding::Utf16,
        Delivery::Pull,
        "markdown",
        "documentChanges",
        &[WATCH, SETTINGS],
    ),
];

const fn expected(
    client: &'static str,
    encoding: Encoding,
    delivery: Delivery,
    hover: &'static str,
    edits: &'static str,
    asked: &'static [&'static str],
) -> Expected {
    Expected { client, encoding, delivery, hover, edits, asked }
}

fn announced(client: &str) -> Value {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("clients/{client}.json"));
    let text = std::fs::read_to_string(file).expect("the fixture is there");
    serde_json::from_str(&text).expect("it is JSON")
}

#[test]
fn every_fixture_is_tried() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("clients");
    let files = std::fs::read_dir(folder).expect("the fixtures are there").flatten();
    let names = files.map(|file| file.file_name().to_string_lossy().into_owned());
    let mut fixtures: Vec<_> =
        names.filter_map(|name| Some(name.strip_suffix(".json")?.to_owned())).collect();
    fixtures.sort();
    let mut tried: Vec<_> = CLIENTS.iter().map(|it| it.client).collect();
    tried.sort_unstable();
    assert_eq!(fixtures, tried);
}

#[test]
fn every_client_gets_what_it_can_use() {
    for expected in &CLIENTS {
        goes_through_a_sheet(expected);
    }
}

fn goes_through_a_sheet(expected: &Expected) {
    let name = expected.client;
    let params = announced(name);
    let mut client = Client::start();
    let offer = client.request("initialize", &params);
    client.notify("initialized", &json!({}));
    is_offered_what_it_understands(&offer["capabilities"], &params["capabilities"], expected);
    is_asked_what_it_can_answer(&mut client, expected);
    let mut editor = Editor::over(client, expected.encoding);
    editor.open(SHEET, BROKEN);
    let found = sees_findings(&mut editor, expected);
    let at = BROKEN.find("c3").expect("it is there");
    let slip = found.iter().find(|it| it["code"] == "letter-case").expect("it is found");
    assert_eq!(editor.screen(SHEET).bytes(&slip["range"]), at..at + 2, "{name}");
    hovers(&mut editor, expected);
    mends(&mut editor, at, expected);
    editor.end();
}

fn is_offered_what_it_understands(offer: &Value, announced: &Value, expected: &Expected) {
    let name = expected.client;
    let offered = announced["general"]["positionEncodings"].is_array();
    let encoding = offer["positionEncoding"].as_str();
    assert_eq!(encoding, offered.then_some(expected.encoding.name()), "{name}");
    let pulls = expected.delivery == Delivery::Pull;
    assert_eq!(offer["diagnosticProvider"].is_object(), pulls, "{name}");
    assert_eq!(offer["hoverProvider"], true, "{name}");
    assert_eq!(offer["documentFormattingProvider"], true, "{name}");
    // lsp-mode and Neovim 0.7 show lenses, and announce nothing of the kind.
    assert!(offer["codeLensProvider"].is_object(), "{name}");
    assert!(offer["completionProvider"].is_object(), "{name}");
    assert!(offer["codeActionProvider"].is_object(), "{name}");
}

/// The server asks nothing else: what nobody reads fails the test at the end.
fn is_asked_what_it_can_answer(client: &mut Client, expected: &Expected) {
    for method in expected.asked {
        let asked = client.wait_for(|it| it["method"] == *method);
        let answer = if *method == SETTINGS { json!([null]) } else { Value::Null };
        client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": answer}));
    }
}

fn sees_findings(editor: &mut Editor, expected: &Expected) -> Vec<Value> {
    let found = match expected.delivery {
        Delivery::Push => editor.next_push(SHEET)["diagnostics"].take(),
        Delivery::Pull => editor.pull(SHEET, None)["items"].take(),
    };
    found.as_array().expect("diagnostics are a list").clone()
}

fn hovers(editor: &mut Editor, expected: &Expected) {
    let question = editor.ask_hover(SHEET, BROKEN.find("C5").expect("it is there"));
    let hover = editor.client.answer(question)["result"].take();
    assert_eq!(hover["contents"]["kind"], expected.hover, "{}", expected.client);
}

/// What the client sends back of a finding has no `data`: many drop it.
fn mends(editor: &mut Editor, at: usize, expected: &Expected) {
    let name = expected.client;
    let actions = editor.actions(SHEET, &(at..at + 2), &json!({"diagnostics": []}));
    let fix = actions.iter().find(|it| it["isPreferred"] == true).expect("there is a fix");
    assert_eq!(fix.get("command"), None, "{name}");
    let edits = match expected.edits {
        "changes" => &fix["edit"]["changes"][SHEET],
        _ => &fix["edit"]["documentChanges"][0]["edits"],
    };
    let other = if expected.edits == "changes" { "documentChanges" } else { "changes" };
    assert_eq!(fix["edit"].get(other), None, "{name}");
    let mut screen = editor.screen(SHEET).clone();
    screen.apply(edits);
    assert_eq!(screen.text, BROKEN.replace("c3", "C3"), "{name}");
}
