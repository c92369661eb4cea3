//! Kakoune with kak-lsp, without a screen.

use bicinium_tests::tool;

use crate::feature::{Claims, Feature};
use crate::stage::{Stage, script};
use crate::story::Story;

/// What is seen in Kakoune.
pub const KAK_LSP: Claims = Claims {
    name: "Kakoune",
    seen: &[
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Colours,
        Feature::Hints,
        Feature::States,
        Feature::Tokens,
        Feature::Outline,
        Feature::Definitions,
    ],
    lacks: &[(
        &[Feature::Completion],
        "it offers only what begins with what stands there, and no pitch begins with `?`.",
    )],
};

#[test]
fn kakoune_with_kak_lsp() {
    let found = tool::called("kak").and(tool::called("kak-lsp")).and(tool::called("python3"));
    let Some(python) = tool::or_skip(found, "Kakoune with kak-lsp") else { return };
    let stage = Stage::new();
    stage.run(stage.command(&python).arg(script("kakoune.py")));
    Story::of(&stage).holds(&KAK_LSP);
    stage.has_no_server_left();
}
