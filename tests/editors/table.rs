//! The table of features and editors in `editors/README.md`: a column for each editor whose test
//! holds what it claims. `BICINIUM_DRAW=1` writes it anew.
//!
//! It must not claim anything itself.

use std::{env, fs};

use crate::feature::Feature;
use crate::stage::editors;
use crate::{emacs, kakoune, neovim, vim, vscode};

const BEGIN: &str = "<!-- written by tests/editors/table.rs -->\n";
const END: &str = "<!-- end -->\n";

/// The editors, and what their tests hold that is seen in them.
const TRIED: [(&str, &[Feature]); 7] = [
    ("VS Code", vscode::VS_CODE),
    ("Neovim 0.11", neovim::NEW),
    ("Neovim 0.7", neovim::OLD),
    ("Vim, ALE", vim::ALE),
    ("Emacs, eglot", emacs::EGLOT),
    ("Emacs, lsp-mode", emacs::LSP_MODE),
    ("Kakoune", kakoune::KAK_LSP),
];

/// Editors for which there is a configuration that no test has tried with the server.
const CONFIGURED: [&str; 4] = ["Kate", "Helix", "Sublime Text", "Zed"];

#[test]
fn the_table_in_the_readme_says_what_the_tests_hold() {
    let path = editors().join("README.md");
    let page = fs::read_to_string(&path).expect("the page is there");
    let (before, rest) = page.split_once(BEGIN).expect("the table has a beginning");
    let (_, after) = rest.split_once(END).expect("the table has an end");
    let written = format!("{before}{BEGIN}{}{END}{after}", table());
    if env::var_os("BICINIUM_DRAW").is_some() {
        fs::write(&path, &written).expect("the page can be written");
    }
    assert_eq!(page, written, "BICINIUM_DRAW=1 writes it anew");
}

fn table() -> String {
    let names = TRIED.iter().map(|(name, _)| *name).chain(CONFIGURED);
    let head = row("", names);
    let rule = row("---", TRIED.iter().map(|_| "---").chain(CONFIGURED.iter().map(|_| "---")));
    let rows = Feature::ALL.iter().map(|feature| {
        let tried = TRIED.iter().map(|(_, seen)| {
            match (seen.contains(feature), feature.is_tried_everywhere()) {
                (true, _) => "yes",
                (false, true) => "no",
                (false, false) => "not tried",
            }
        });
        row(feature.words(), tried.chain(CONFIGURED.iter().map(|_| "set up")))
    });
    [head, rule].into_iter().chain(rows).collect()
}

fn row<'a>(first: &'a str, cells: impl Iterator<Item = &'a str>) -> String {
    let cells: Vec<_> = [first].into_iter().chain(cells).collect();
    format!("| {} |\n", cells.join(" | "))
}
