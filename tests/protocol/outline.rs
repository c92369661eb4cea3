//! What a sheet is made of, as an editor shows it: in a tree or a row, across all sheets, and with links
//! that lead somewhere.

use std::path::Path;

use bicinium_tests::{Client, Delivery, Editor, Encoding, about, capabilities};
use serde_json::{Value, json};

const SHEET: &str = "file:///outline.bicinium";

const SONGS: &str = "\
cantus quay-song
  line | C4 | D4 | C4 |

exercise \"of the quay\"
  soprano cantus quay-song | C5 | D5 | C5 |
";

fn names(symbols: &Value) -> Vec<&str> {
    let all = symbols.as_array().expect("symbols are a list").iter();
    all.map(|symbol| symbol["name"].as_str().expect("a name")).collect()
}

#[test]
fn a_client_that_takes_no_tree_gets_a_row() {
    for (announced, top) in [
        (json!({"hierarchicalDocumentSymbolSupport": true}), vec!["quay-song", "of the quay"]),
        (json!({}), vec!["quay-song", "of the quay", "soprano"]),
    ] {
        let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
        capabilities["textDocument"]["documentSymbol"] = announced;
        let mut editor = Editor::with(Encoding::Utf8, &capabilities);
        editor.open(SHEET, SONGS);
        let symbols = editor.client.request("textDocument/documentSymbol", &about(SHEET));
        assert_eq!(names(&symbols), top);
        editor.end();
    }
}

fn address(path: &Path) -> String {
    format!("file://{}", path.display())
}

#[test]
fn names_are_found_in_all_sheets_of_the_workspace() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("closed.bicinium"), SONGS).expect("written");
    let mut client = Client::start();
    let folders = json!([{"uri": address(folder.path()), "name": "school"}]);
    let capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    client
        .request("initialize", &json!({"capabilities": capabilities, "workspaceFolders": folders}));
    client.notify("initialized", &json!({}));
    let mut editor = Editor::over(client, Encoding::Utf8);
    editor.open(SHEET, "cantus mill-song\n  line | C4 |\n");
    let mut search = |query: &str| {
        let found = editor.client.request("workspace/symbol", &json!({"query": query}));
        let mut names: Vec<_> = names(&found).into_iter().map(str::to_owned).collect();
        names.sort();
        names
    };
    assert_eq!(search(""), ["mill-song", "of the quay", "quay-song"]);
    assert_eq!(search("QUAY"), ["of the quay", "quay-song"]);
    assert_eq!(search("organ"), Vec::<String>::new());
    editor.end();
}

#[test]
fn links_lead_to_files_that_are_there_and_to_pages_that_can_be_shown() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("harbour.rulebook.toml"), "extends = \"tonal\"\n")
        .expect("written");
    let sheet = address(&folder.path().join("sheet.bicinium"));
    let text = "use \"../songs.bicinium\"\nrulebook harbour\n\nexercise\n  rulebook tonal\n  \
                allow crossing\n  allow nonsense\n";
    let mut capabilities = capabilities(Encoding::Utf8, Delivery::Pull);
    capabilities["textDocument"]["publishDiagnostics"]["codeDescriptionSupport"] = true.into();
    let mut editor = Editor::with(Encoding::Utf8, &capabilities);
    editor.open(&sheet, text);
    let links = editor.client.request("textDocument/documentLink", &about(&sheet));
    let links = links.as_array().expect("links are a list").iter();
    let led: Vec<_> = links
        .map(|link| {
            let bytes = editor.screen(&sheet).bytes(&link["range"]);
            (&text[bytes], link["target"].as_str().expect("a target").to_owned())
        })
        .collect();
    let songs = folder.path().parent().expect("a folder above").join("songs.bicinium");
    let school = address(&folder.path().join("harbour.rulebook.toml"));
    let expected = [
        ("\"../songs.bicinium\"", address(&songs)),
        ("harbour", school),
        ("crossing", "bicinium:/rules/crossing".to_owned()),
    ];
    assert_eq!(led, expected);
    editor.end();
}

#[test]
fn folds_are_lines_and_selections_hold_each_other() {
    let mut editor = Editor::start(Encoding::Utf16, Delivery::Pull);
    editor.open(SHEET, SONGS);
    let folds = editor.client.request("textDocument/foldingRange", &about(SHEET));
    let lines: Vec<_> = folds
        .as_array()
        .expect("folds are a list")
        .iter()
        .map(|fold| (fold["startLine"].as_u64(), fold["endLine"].as_u64()))
        .collect();
    assert_eq!(lines, [(Some(0), Some(1)), (Some(3), Some(4))]);
    let mut params = about(SHEET);
    params["positions"] =
        json!([editor.screen(SHEET).position(SONGS.find("D5").expect("it is there"))]);
    let chains = editor.client.request("textDocument/selectionRange", &params);
    let mut texts = Vec::new();
    let mut link = &chains[0];
    while link.is_object() {
        texts.push(&SONGS[editor.screen(SHEET).bytes(&link["range"])]);
        link = &link["parent"];
    }
    assert_eq!(texts[..2], ["D5", "soprano cantus quay-song | C5 | D5 | C5 |"]);
    assert_eq!(texts.last(), Some(&SONGS));
    editor.end();
}
