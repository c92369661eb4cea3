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

#[test]
fn what_a_configuration_points_to_is_there() {
    let grammar = file("tree-sitter/grammar.js");
    assert!(grammar.contains("name: \"bicinium\""), "the grammar is named otherwise");
    let helix: toml::Table = file("helix/languages.toml").parse().expect("languages are TOML");
    let [language] = helix["language"].as_array().expect("a list").as_slice() else {
        panic!("one")
    };
    let [parser] = helix["grammar"].as_array().expect("a list").as_slice() else { panic!("one") };
    assert_eq!(language["grammar"], parser["name"]);
    assert!(
        helix["language-server"]
            .get(language["language-servers"][0].as_str().expect("a name"))
            .is_some()
    );
    lies_in_the_checkout(parser["source"]["path"].as_str().expect("a path"));
    let zed: toml::Table = file("zed/extension.toml").parse().expect("an extension is TOML");
    let parser = &zed["grammars"]["bicinium"];
    let [repository, path] = ["repository", "path"].map(|it| parser[it].as_str().expect("a path"));
    lies_in_the_checkout(&format!("{repository}/{path}"));
    let language: toml::Table = file("zed/languages/bicinium/config.toml").parse().expect("TOML");
    assert_eq!(language["grammar"].as_str(), Some("bicinium"));
    assert_eq!(zed["language_servers"]["bicinium"]["languages"][0], language["name"]);
    let sublime: Value = serde_json::from_str(&file("sublime/LSP.sublime-settings")).expect("JSON");
    let scope = sublime["clients"]["bicinium"]["selector"].as_str().expect("a scope");
    assert!(file("sublime/bicinium.sublime-syntax").contains(&format!("\nscope: {scope}\n")));
    let kate: Value = serde_json::from_str(&file("kate/settings.json")).expect("JSON");
    let mode = kate["servers"]["bicinium"]["highlightingModeRegex"].as_str().expect("a name");
    let named = format!("<language name=\"{}\"", mode.trim_matches(['^', '$']));
    assert!(file("kate/bicinium.xml").contains(&named));
}

/// A path of somebody else's checkout, with what belongs to a grammar in it.
fn lies_in_the_checkout(path: &str) {
    let (_, path) =
        path.split_once("/where/bicinium/lies/").expect("the page says what to put there");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(path);
    for name in ["grammar.js", "src/parser.c", "queries/bicinium/highlights.scm"] {
        assert!(folder.join(name).exists(), "{}", folder.join(name).display());
    }
}
