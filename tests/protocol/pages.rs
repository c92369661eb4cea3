//! Where the rule behind a diagnostic is explained: by a link, behind an address of the server's
//! own, in the message, and in the hover.

use bicinium_tests::{Client, Delivery, Editor, Encoding, capabilities};
use serde_json::{Value, json};

use crate::sheets::BROKEN;

const SHEET: &str = "file:///sheet.bicinium";
const CONTENT: &str = "workspace/textDocumentContent";
const INVALID_PARAMS: i64 = -32602;

/// Fifths from bar 2 to bar 3, and a licence for something else.
const FIFTHS: &str = "\
key C major

exercise
  species 1
  soprano cantus  | | C5 | D5 | |
  tenor   counter | | F3 | G3 | |
  allow crossing at 2
";

/// What an editor announces that shows links to rules.
fn with_links(delivery: Delivery) -> Value {
    let mut capabilities = capabilities(Encoding::Utf8, delivery);
    capabilities["textDocument"]["publishDiagnostics"]["codeDescriptionSupport"] = true.into();
    capabilities
}

fn named<'d>(found: &'d Value, code: &str) -> &'d Value {
    let found = found.as_array().expect("diagnostics are a list");
    found.iter().find(|it| it["code"] == code).unwrap_or_else(|| panic!("{code}: {found:?}"))
}

fn hover(editor: &mut Editor, byte: usize) -> String {
    let question = editor.ask_hover(SHEET, byte);
    let answer = editor.client.answer(question);
    let said = answer["result"]["contents"]["value"].as_str();
    said.expect("there is something to say").to_owned()
}

#[test]
fn a_link_leads_to_a_text_that_the_server_gives() {
    for delivery in [Delivery::Push, Delivery::Pull] {
        let mut editor = Editor::with(Encoding::Utf8, &with_links(delivery));
        editor.open(SHEET, FIFTHS);
        let found = match delivery {
            Delivery::Push => editor.pushed(SHEET),
            Delivery::Pull => editor.pull(SHEET, None)["items"].take(),
        };
        let fifths = named(&found, "consecutive-perfects");
        let address = fifths["codeDescription"]["href"].as_str().unwrap();
        assert_eq!(address, "bicinium:/rules/consecutive-perfects");
        let page = editor.client.request(CONTENT, &json!({"uri": address}));
        let text = page["text"].as_str().unwrap();
        assert_eq!(page.as_object().unwrap().len(), 1);
        assert_eq!(text.matches("```bicinium\n").count(), 2, "{text}");
        assert!(text.contains("| F3 | G3 |") && text.contains("sources:"), "{text}");
        editor.end();
    }
}

#[test]
fn the_scheme_of_these_addresses_is_offered() {
    let mut client = Client::start();
    let offer = client.initialize(&json!({}));
    let offered = &offer["capabilities"]["workspace"]["textDocumentContent"];
    assert_eq!(*offered, json!({"schemes": ["bicinium"]}));
    assert_eq!(offer["capabilities"]["hoverProvider"], true);
    client.end();
}

#[test]
fn an_address_without_a_text_is_refused() {
    let mut client = Client::initialized(&json!({}));
    for address in ["bicinium:/rules/harbour", "bicinium:/rules/", "file:///rules/crossing"] {
        assert_eq!(client.refusal(CONTENT, &json!({"uri": address})), INVALID_PARAMS, "{address}");
    }
    for params in [json!({}), json!({"uri": 3}), json!({"uri": "no address"})] {
        assert_eq!(client.refusal(CONTENT, &params), INVALID_PARAMS, "{params}");
    }
    client.end();
}

#[test]
fn the_link_leads_to_the_folder_that_the_options_name() {
    let mut client = Client::start();
    let params = json!({
        "processId": null,
        "rootUri": null,
        "capabilities": with_links(Delivery::Push),
        "initializationOptions": {"rulePages": "https://school.example/rules"}
    });
    client.request("initialize", &params);
    client.notify("initialized", &json!({}));
    let document = json!({"uri": SHEET, "languageId": "bicinium", "version": 1, "text": FIFTHS});
    client.notify("textDocument/didOpen", &json!({"textDocument": document}));
    let shown = client.notification("textDocument/publishDiagnostics");
    let fifths = named(&shown["diagnostics"], "consecutive-perfects");
    let address = "https://school.example/rules/consecutive-perfects.html";
    assert_eq!(fifths["codeDescription"], json!({"href": address}));
    client.end();
}

#[test]
fn whoever_shows_no_links_reads_what_the_rule_is_for() {
    let mut links = Editor::with(Encoding::Utf8, &with_links(Delivery::Push));
    let mut none = Editor::start(Encoding::Utf8, Delivery::Push);
    links.open(SHEET, FIFTHS);
    none.open(SHEET, FIFTHS);
    let (with, without) = (links.pushed(SHEET), none.pushed(SHEET));
    let short = named(&with, "consecutive-perfects")["message"].as_str().unwrap();
    let long = named(&without, "consecutive-perfects");
    assert_eq!(long.get("codeDescription"), None);
    let (message, purpose) = long["message"].as_str().unwrap().split_once("\n\n").unwrap();
    assert_eq!(message, short);
    assert!(purpose.contains("Sources: ") && !purpose.contains('\n'), "{purpose}");
    links.end();
    none.end();
}

#[test]
fn what_is_no_rule_has_neither_link_nor_purpose() {
    for capabilities in [with_links(Delivery::Push), capabilities(Encoding::Utf8, Delivery::Push)] {
        let mut editor = Editor::with(Encoding::Utf8, &capabilities);
        editor.open(SHEET, BROKEN);
        let found = editor.pushed(SHEET);
        let case = named(&found, "letter-case");
        assert_eq!(case.get("codeDescription"), None);
        assert!(!case["message"].as_str().unwrap().contains('\n'));
        editor.end();
    }
}

#[test]
fn the_hover_on_a_finding_says_why_and_shows_what_is_right() {
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Push);
    editor.open(SHEET, FIFTHS);
    editor.pushed(SHEET);
    let said = hover(&mut editor, FIFTHS.find("G3").unwrap());
    for part in ["fault (consecutive-perfects)", "*sources:*", "*schools:*", "```bicinium\n"] {
        assert_eq!(said.matches(part).count(), 1, "{part}: {said}");
    }
    assert!(said.lines().count() < 40, "{said}");
    editor.end();
}

#[test]
fn only_the_gravest_of_several_findings_is_explained() {
    let sheet = "\
key C major

exercise
  species 1
  soprano cantus  | | C5 | D5  | C5 | |
  tenor   counter | | F3 | G#3 | A3 | |
";
    let several = sheet.replace("D5 ", "D#5");
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Push);
    editor.open(SHEET, &several);
    let found = editor.pushed(SHEET);
    let at = several.find("G#3").unwrap();
    let range = editor.screen(SHEET).range(&(at..at + 3));
    let here = found.as_array().unwrap().iter().filter(|it| it["range"] == range).count();
    assert!(here > 1, "{found}");
    let said = hover(&mut editor, at);
    assert_eq!(said.matches("```bicinium\n").count(), 1, "{said}");
    let told = ["fault (", "caution (", "advice ("].map(|level| said.matches(level).count());
    assert_eq!(told.iter().sum::<usize>(), here, "{said}");
    editor.end();
}

#[test]
fn the_hover_on_the_name_of_a_rule_is_its_page() {
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Push);
    editor.open(SHEET, FIFTHS);
    editor.pushed(SHEET);
    let said = hover(&mut editor, FIFTHS.find("crossing").unwrap());
    for part in ["**crossing**", "Broken:", "Mended:", "*levels:*", "`at-most`", "- `0`: "] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert_eq!(said.matches("```bicinium\n").count(), 2, "{said}");
    editor.end();
}

#[test]
fn a_finding_on_a_rest_is_told_where_it_is_pointed_at() {
    let sheet = "\
key C major

exercise
  species 2
  soprano cantus  | | C5      | D5    | |
  tenor   counter | | C4 rest | B3 G3 | |
";
    let mut editor = Editor::start(Encoding::Utf8, Delivery::Push);
    editor.open(SHEET, sheet);
    let found = editor.pushed(SHEET);
    named(&found, "opening-rest");
    let said = hover(&mut editor, sheet.find("rest").unwrap());
    assert!(said.contains("fault (opening-rest)"), "{said}");
    editor.end();
}
