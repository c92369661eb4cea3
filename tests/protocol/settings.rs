//! What the user sets: with the greeting, by notice, or when the server asks. It holds at once, and a
//! bad value is told.

use bicinium_tests::{Client, Delivery, Editor, Encoding, capabilities};
use serde_json::{Value, json};

const SHEET: &str = "untitled:sheet.bicinium";

/// Of a rulebook that there is not, it is told which one holds instead: the default.
const TEXT: &str = "rulebook nowhere\nexercise\n  soprano | C5 |\n  tenor | C4 |\n";

fn start(delivery: Delivery, workspace: &Value, options: &Value, root: Option<&str>) -> Editor {
    let mut announced = capabilities(Encoding::Utf8, delivery);
    announced["workspace"] = workspace.clone();
    announced["textDocument"]["publishDiagnostics"]["codeDescriptionSupport"] = true.into();
    let mut client = Client::start();
    client.request(
        "initialize",
        &json!({"processId": null, "rootUri": root, "capabilities": announced,
                "initializationOptions": options}),
    );
    client.notify("initialized", &json!({}));
    Editor::over(client, Encoding::Utf8)
}

fn answer(editor: &mut Editor, settings: &Value) {
    let asked = editor.client.wait_for(|it| it["method"] == "workspace/configuration");
    assert_eq!(asked["params"]["items"][0]["section"], "bicinium");
    editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": [settings]}));
}

fn tell(editor: &mut Editor, settings: &Value) {
    let params = json!({"settings": settings});
    editor.client.notify("workspace/didChangeConfiguration", &params);
}

fn warning(editor: &mut Editor) -> String {
    let shown = editor.client.notification("window/showMessage");
    assert_eq!(shown["type"], 2);
    shown["message"].as_str().expect("a message").to_owned()
}

/// The rulebook that holds where a sheet names none.
fn default_in(found: &Value) -> String {
    let found = found.as_array().expect("diagnostics are a list");
    let told = found.iter().find(|it| it["code"] == "rulebook").expect("it is told");
    let message = told["message"].as_str().expect("a message");
    let (_, rest) = message.split_once("Until then ").expect("what holds is told");
    rest.split(' ').next().expect("a name").to_owned()
}

fn default_of(editor: &mut Editor) -> String {
    default_in(&editor.pull(SHEET, None)["items"])
}

#[test]
fn the_rulebook_of_sheets_that_name_none_is_set_with_the_greeting() {
    for (options, holds) in [
        (json!({}), "tonal"),
        (json!({"rulebook": "modal"}), "modal"),
        (json!({"bicinium": {"rulebook": "modal"}}), "modal"),
        (Value::Null, "tonal"),
    ] {
        let mut editor = start(Delivery::Pull, &json!({}), &options, None);
        editor.open(SHEET, TEXT);
        assert_eq!(default_of(&mut editor), holds, "{options}");
        editor.end();
    }
}

#[test]
fn a_change_holds_at_once_for_sheets_that_are_open() {
    let mut editor = start(Delivery::Push, &json!({}), &json!({}), None);
    editor.open(SHEET, TEXT);
    assert_eq!(default_in(&editor.pushed(SHEET)), "tonal");
    tell(&mut editor, &json!({"bicinium": {"rulebook": "modal"}}));
    assert_eq!(default_in(&editor.next_push(SHEET)["diagnostics"]), "modal");
    tell(&mut editor, &json!({"bicinium": {"rulebook": null}}));
    assert_eq!(default_in(&editor.next_push(SHEET)["diagnostics"]), "tonal");
    editor.end();
}

#[test]
fn the_links_to_the_rules_lead_elsewhere_at_once() {
    let mut editor = start(Delivery::Pull, &json!({}), &json!({}), None);
    editor.open(SHEET, TEXT);
    let link = |editor: &mut Editor| {
        let found = editor.pull(SHEET, None)["items"].take();
        let found = found.as_array().expect("diagnostics are a list").clone();
        found.iter().find_map(|it| Some(it["codeDescription"]["href"].as_str()?.to_owned()))
    };
    assert_eq!(link(&mut editor).as_deref(), Some("bicinium:/rules/shared-high-point"));
    tell(&mut editor, &json!({"rulePages": "https://school.example"}));
    assert_eq!(link(&mut editor).as_deref(), Some("https://school.example/shared-high-point.html"));
    editor.end();
}

#[test]
fn a_client_that_can_be_asked_is_asked_at_the_beginning_and_after_a_change() {
    let mut editor = start(Delivery::Push, &json!({"configuration": true}), &json!({}), None);
    editor.open(SHEET, TEXT);
    assert_eq!(default_in(&editor.pushed(SHEET)), "tonal");
    answer(&mut editor, &json!({"rulebook": "modal"}));
    assert_eq!(default_in(&editor.pushed(SHEET)), "modal");
    tell(&mut editor, &Value::Null);
    answer(&mut editor, &json!({"rulebook": "tonal", "hints": {"intervals": false}}));
    assert_eq!(default_in(&editor.pushed(SHEET)), "tonal");
    editor.end();
}

#[test]
fn a_reply_that_comes_again_or_for_nothing_is_forgotten() {
    let mut editor = start(Delivery::Push, &json!({"configuration": true}), &json!({}), None);
    editor.open(SHEET, TEXT);
    assert_eq!(default_in(&editor.pushed(SHEET)), "tonal");
    let asked = editor.client.wait_for(|it| it["method"] == "workspace/configuration");
    for _ in 0..3 {
        let reply = json!({"jsonrpc": "2.0", "id": asked["id"], "result": [{"rulebook": "modal"}]});
        editor.client.send(&reply);
    }
    assert_eq!(default_in(&editor.pushed(SHEET)), "modal");
    editor.end();
}

#[test]
fn a_client_is_asked_to_tell_about_changes_where_it_can_be() {
    let workspace = json!({"didChangeConfiguration": {"dynamicRegistration": true}});
    let mut editor = start(Delivery::Pull, &workspace, &json!({}), None);
    let asked = editor.client.wait_for(|it| it["method"] == "client/registerCapability");
    let wanted = asked["params"]["registrations"].as_array().expect("registrations are a list");
    assert_eq!(wanted.len(), 1);
    assert_eq!(wanted[0]["method"], "workspace/didChangeConfiguration");
    editor.client.send(&json!({"jsonrpc": "2.0", "id": asked["id"], "result": null}));
    editor.end();
}

#[test]
fn a_bad_value_is_told_in_words_and_the_old_one_kept() {
    let options = json!({"rulebook": "modal", "hints": {"chords": true}});
    let mut editor = start(Delivery::Pull, &json!({}), &options, None);
    assert!(warning(&mut editor).contains("no hints called `chords`"));
    editor.open(SHEET, TEXT);
    for (settings, words) in [
        (json!({"rulebook": 3}), "`rulebook`"),
        (json!({"hints": {"intervals": "perhaps"}}), "`hints.intervals`"),
        (json!({"rulePages": "pages"}), "`rulePages`"),
    ] {
        tell(&mut editor, &settings);
        let told = warning(&mut editor);
        assert!(told.contains(words) && told.contains("still holds"), "{told}");
        assert_eq!(default_of(&mut editor), "modal");
    }
    editor.end();
}

#[test]
fn a_rulebook_of_the_school_may_be_the_default_and_a_missing_one_is_told() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let book = folder.path().join("harbour.rulebook.toml");
    std::fs::write(book, "name = \"harbour\"\nextends = \"modal\"\n").expect("it can be written");
    let root = format!("file://{}", folder.path().display());
    let sheet = format!("{root}/sheet.bicinium");
    let options = json!({"rulebook": "harbour"});
    let mut editor = start(Delivery::Pull, &json!({}), &options, Some(&root));
    editor.open(&sheet, TEXT);
    assert_eq!(default_in(&editor.pull(&sheet, None)["items"]), "harbour");
    tell(&mut editor, &json!({"rulebook": "quay"}));
    assert!(warning(&mut editor).contains("no rulebook quay"));
    assert_eq!(default_in(&editor.pull(&sheet, None)["items"]), "harbour");
    editor.end();
}

#[test]
fn a_folder_that_is_added_has_its_rulebooks() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let book = folder.path().join("harbour.rulebook.toml");
    std::fs::write(book, "name = \"harbour\"\nextends = \"modal\"\n").expect("it can be written");
    let added = json!({"uri": format!("file://{}", folder.path().display()), "name": "added"});
    let mut editor =
        start(Delivery::Pull, &json!({}), &json!({}), Some("file:///home/nobody/sheets"));
    tell(&mut editor, &json!({"rulebook": "harbour"}));
    assert!(warning(&mut editor).contains("no rulebook harbour"));
    let event = json!({"event": {"added": [added], "removed": []}});
    editor.client.notify("workspace/didChangeWorkspaceFolders", &event);
    tell(&mut editor, &json!({"rulebook": "harbour"}));
    let uri = format!("file://{}/a.bicinium", folder.path().display());
    editor.open(&uri, TEXT);
    assert_eq!(default_in(&editor.pull(&uri, None)["items"]), "harbour");
    editor.end();
}
