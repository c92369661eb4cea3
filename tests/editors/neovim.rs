//! Neovim, in the way of 0.7 and in that of 0.11.

use std::fs;

use bicinium_tests::{tool, tree_sitter_parser};

use crate::feature::{Claims, Feature};
use crate::stage::{Stage, editors, script};
use crate::story::Story;

/// What is seen in Neovim 0.7.
pub const OLD: Claims = Claims {
    name: "Neovim 0.7",
    seen: &[
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Completion,
        Feature::Colours,
        Feature::States,
        Feature::Outline,
        Feature::Definitions,
    ],
    lacks: &[(
        &[Feature::Hints, Feature::Tokens],
        "its own client knows hints from 0.10 on, and tokens from 0.9 on.",
    )],
};

/// What is seen in Neovim 0.11.
pub const NEW: Claims = Claims { name: "Neovim 0.11", seen: &Feature::ALL, lacks: &[] };

#[test]
fn neovim_0_7() {
    let is_old = |said: &str| said.starts_with("NVIM v0.7");
    goes_through_the_sheet("Neovim 0.7", is_old, &OLD);
}

#[test]
fn neovim_0_11() {
    let is_new = |said: &str| said.starts_with("NVIM v0.11");
    goes_through_the_sheet("Neovim 0.11", is_new, &NEW);
}

fn goes_through_the_sheet(name: &str, suits: impl Fn(&str) -> bool, claims: &Claims) {
    let found = tool::that_says("nvim", &["--version"], suits);
    let Some(neovim) = tool::or_skip(found, name) else { return };
    let stage = Stage::new();
    fs::create_dir_all(stage.path("built/parser")).expect("a new folder is empty");
    tree_sitter_parser(&stage.path("built/parser"));
    let [vim, plugin, grammar] = ["vim", "neovim", "tree-sitter"].map(|it| editors().join(it));
    let paths = [vim, plugin, grammar, stage.path("built")];
    let paths = paths.map(|it| it.display().to_string()).join(",");
    let mut command = stage.command(&neovim);
    command.args(["--headless", "--clean", "-n", "-i", "NONE"]);
    command.args(["--cmd", &format!("set runtimepath^={paths}")]);
    command.arg(stage.sheet()).arg("-c");
    command.arg(format!("luafile {}", script("neovim.lua").display()));
    stage.run(&mut command);
    Story::of(&stage).holds(claims);
    stage.has_no_server_left();
}
