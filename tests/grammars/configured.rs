//! The files for editors that no test starts: each can be read, and copies are copies.

use std::fs;
use std::path::Path;

use serde_json::Value;

fn file(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors").join(name);
    fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()))
}

#[test]
fn the_queries_of_zed_and_helix_are_those_of_the_grammar() {
    let queries = file("tree-sitter/queries/bicinium/highlights.scm");
    assert_eq!(file("zed/languages/bicinium/highlights.scm"), queries);
    let named_otherwise = [("@number", "@constant.numeric"), ("@constant.macro", "@special")];
    let queries = named_otherwise.iter().fold(queries, |it, (from, to)| it.replace(from, to));
    assert_eq!(file("helix/queries/bicinium/highlights.scm"), queries);
}

#[test]
fn every_configuration_starts_the_server() {
    for (name, place) in [
        ("kate/settings.json", "/servers/bicinium/command"),
        ("sublime/LSP.sublime-settings", "/clients/bicinium/command"),
    ] {
        let settings: Value = serde_json::from_str(&file(name)).expect("settings are JSON");
        assert_eq!(
            settings.pointer(place),
            Some(&serde_json::json!(["bicinium", "lsp"])),
            "{name}"
        );
    }
    let helix: toml::Table = file("helix/languages.toml").parse().expect("languages are TOML");
    let server = &helix["language-server"]["bicinium"];
    assert_eq!(server["command"].as_str(), Some("bicinium"));
    assert_eq!(server["args"][0].as_str(), Some("lsp"));
    for name in ["zed/extension.toml", "zed/languages/bicinium/config.toml"] {
        file(name).parse::<toml::Table>().unwrap_or_else(|why| panic!("{name}: {why}"));
    }
}
