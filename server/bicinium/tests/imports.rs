//! Who may know what: types of the protocol stay in `lsp/`, tokens and trees in the grammar.

#![allow(clippy::unwrap_used)]

use std::path::{Path, PathBuf};

/// The sources below a folder of the workspace.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let below = entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] });
    below.filter(|path| path.extension().is_some_and(|end| end == "rs")).collect()
}

fn server() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").canonicalize().unwrap()
}

/// The sources that name any of the words, outside a folder.
fn naming(words: &[&str], outside: &str) -> Vec<PathBuf> {
    let crates = ["theory", "analysis", "realizer", "export", "coursework", "bicinium"]
        .map(|name| server().join(name).join("src"));
    let all = crates.iter().flat_map(|folder| sources(folder));
    let outside = server().join(outside);
    let others = all.filter(|path| !path.starts_with(&outside));
    let names = |path: &PathBuf| {
        let text = std::fs::read_to_string(path).unwrap();
        words.iter().any(|word| text.contains(word))
    };
    others.filter(names).collect()
}

#[test]
fn types_of_the_protocol_stay_in_their_folder() {
    assert_eq!(naming(&["tower_lsp", "lsp_types"], "bicinium/src/lsp"), Vec::<PathBuf>::new());
    assert!(!naming(&["tower_lsp"], "theory").is_empty());
}

#[test]
fn tokens_and_trees_stay_in_the_grammar() {
    let words = ["SyntaxKind", "SyntaxToken", "SyntaxNode", "rowan::", "logos::"];
    assert_eq!(naming(&words, "nowhere"), Vec::<PathBuf>::new());
}
