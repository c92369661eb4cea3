//! The tree-sitter grammar, built with the C compiler and read by Neovim with its own queries.

use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

use bicinium_grammar::{BlockKind, BlockTree, SheetTree};
use serde::Deserialize;
use tempfile::TempDir;

use bicinium_tests::{tool, tree_sitter_parser};

use crate::held::{Stretch, differences};
use bicinium_tests::sheets;

#[derive(Deserialize)]
struct Answer {
    #[serde(deserialize_with = "list")]
    stretches: Vec<Stretch>,
    folds: usize,
}

/// An empty table of Lua is written like an object.
fn list<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Vec<Stretch>, D::Error> {
    let value = serde_json::Value::deserialize(from)?;
    let is_list = value.is_array();
    let stretches = is_list.then(|| serde_json::from_value(value)).transpose();
    stretches.map(Option::unwrap_or_default).map_err(serde::de::Error::custom)
}

#[test]
fn every_token_is_captured_and_every_block_folds() {
    let is_new = |said: &str| said.starts_with("NVIM v0.11");
    let neovim = tool::that_says("nvim", &["--version"], is_new);
    let Some(neovim) = tool::or_skip(neovim, "Neovim 0.11") else { return };
    let sheets = sheets::all();
    let texts: Vec<_> = sheets.iter().map(|sheet| sheet.text.as_str()).collect();
    let answers = ask(&neovim, &texts);
    assert_eq!(answers.len(), sheets.len());
    let mut wrong = Vec::new();
    for (sheet, answer) in sheets.iter().zip(&answers) {
        wrong.extend(differences(sheet, &answer.stretches));
        let blocks = blocks(&sheet.text);
        if answer.folds != blocks {
            wrong.push(format!("{}: {} of {blocks} blocks fold", sheet.place, answer.folds));
        }
    }
    assert!(wrong.is_empty(), "{} differences:\n{}", wrong.len(), wrong.join("\n"));
}

/// How many blocks are opened by a word of the notation, not by a misspelt one.
fn blocks(text: &str) -> usize {
    let is_opened = |block: &&Arc<BlockTree>| {
        let text = block.text();
        let word = text.split_whitespace().next().unwrap_or_default().to_lowercase();
        block.kind != BlockKind::Preamble && ["cantus", "exercise"].contains(&word.as_str())
    };
    SheetTree::parse(text).blocks().iter().filter(is_opened).count()
}

fn ask(neovim: &Path, texts: &[&str]) -> Vec<Answer> {
    let folder = TempDir::new().expect("there is room for a folder");
    let (asked, told) = (folder.path().join("texts"), folder.path().join("answers"));
    fs::write(&asked, serde_json::to_vec(texts).expect("texts")).expect("it can be written");
    let parser = tree_sitter_parser(folder.path());
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let grammar = root.join("../editors/tree-sitter");
    let status = Command::new(neovim)
        .args(["--headless", "--clean", "-n", "-i", "NONE", "--cmd"])
        .arg(format!("set runtimepath^={}", grammar.display()))
        .arg("-c")
        .arg(format!("luafile {}", root.join("grammars/drivers/tree-sitter.lua").display()))
        .env("BICINIUM_PARSER", parser)
        .env("BICINIUM_TEXTS", asked)
        .env("BICINIUM_ANSWERS", &told)
        .status()
        .expect("Neovim runs");
    assert!(status.success());
    serde_json::from_slice(&fs::read(told).expect("it has answered")).expect("answers")
}
