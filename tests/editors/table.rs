//! The table of features and editors in `editors/README.md`: a column for each editor whose test
//! holds what it claims, and below it why something is not there. `BICINIUM_DRAW=1` writes it anew.
//!
//! It must not claim anything itself.

use std::{env, fs};

use crate::feature::{Claims, Feature};
use crate::stage::editors;
use crate::{emacs, kakoune, neovim, vim, vscode};

const BEGIN: &str = "<!-- written by tests/editors/table.rs -->\n";
const END: &str = "<!-- end -->\n";

/// The editors, and what their tests hold that is seen in them.
const TRIED: [Claims; 7] = [
    vscode::VS_CODE,
    neovim::NEW,
    neovim::OLD,
    vim::ALE,
    emacs::EGLOT,
    emacs::LSP_MODE,
    kakoune::KAK_LSP,
];

/// Editors for which there is a configuration that no test has tried with the server.
const CONFIGURED: [&str; 4] = ["Kate", "Helix", "Sublime Text", "Zed"];

#[test]
fn the_table_in_the_readme_says_what_the_tests_hold() {
    let path = editors().join("README.md");
    let page = fs::read_to_string(&path).expect("the page is there");
    let (before, rest) = page.split_once(BEGIN).expect("the table has a beginning");
    let (_, after) = rest.split_once(END).expect("the table has an end");
    let written = format!("{before}{BEGIN}{}\n{}{END}{after}", table(), reasons());
    if env::var_os("BICINIUM_DRAW").is_some() {
        fs::write(&path, &written).expect("the page can be written");
    }
    assert_eq!(page, written, "BICINIUM_DRAW=1 writes it anew");
}

#[test]
fn every_feature_is_seen_or_there_is_a_reason() {
    for claims in &TRIED {
        let mut claimed: Vec<_> = claims.seen.iter().copied().chain(claims.lacking()).collect();
        claimed.sort();
        assert_eq!(claimed, Feature::ALL, "{}", claims.name);
    }
}

fn table() -> String {
    let names = TRIED.iter().map(|claims| claims.name).chain(CONFIGURED);
    let head = row("", names);
    let rule = row("---", TRIED.iter().map(|_| "---").chain(CONFIGURED.iter().map(|_| "---")));
    let rows = Feature::ALL.iter().map(|feature| {
        let tried =
            TRIED.iter().map(|claims| if claims.seen.contains(feature) { "yes" } else { "no" });
        row(feature.words(), tried.chain(CONFIGURED.iter().map(|_| "set up")))
    });
    [head, rule].into_iter().chain(rows).collect()
}

fn row<'a>(first: &'a str, cells: impl Iterator<Item = &'a str>) -> String {
    let cells: Vec<_> = [first].into_iter().chain(cells).collect();
    format!("| {} |\n", cells.join(" | "))
}

/// Why something is not there, editor by editor.
fn reasons() -> String {
    let of_editor = |claims: &Claims| {
        let reasons: Vec<_> = claims.lacks.iter().map(|(_, why)| *why).collect();
        format!("- {}: {}\n", claims.name, reasons.join(" "))
    };
    TRIED.iter().filter(|claims| !claims.lacks.is_empty()).map(of_editor).collect()
}
