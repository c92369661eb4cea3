//! Vim with ALE.

use bicinium_tests::tool;

use crate::feature::{Claims, Feature};
use crate::stage::{Stage, script};
use crate::story::Story;

/// What is seen in Vim.
pub const ALE: Claims = Claims {
    name: "Vim, ALE",
    seen: &[
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Colours,
        Feature::Definitions,
    ],
    lacks: &[
        (&[Feature::Completion], "ALE completes words only, and `?` is none."),
        (
            &[Feature::Hints, Feature::States, Feature::Tokens, Feature::Outline],
            "It has no hints, lenses, tokens or outline.",
        ),
    ],
};

#[test]
fn vim_with_ale() {
    let has_ale = [
        "--not-a-term",
        "-es",
        "-N",
        "-c",
        "packadd ale | call writefile([exists(':ALEInfo')], '/dev/stdout') | q",
    ];
    let found = tool::that_says("vim", &has_ale, |said| said.trim() == "2");
    let Some(vim) = tool::or_skip(found, "Vim with ALE") else { return };
    let stage = Stage::new();
    let mut command = stage.command(&vim);
    command.args(["--not-a-term", "-N", "-n", "-i", "NONE", "-u"]).arg(script("vimrc.vim"));
    command.arg("-S").arg(script("ale.vim")).arg(stage.sheet());
    stage.run(&mut command);
    Story::of(&stage).holds(&ALE);
    stage.has_no_server_left();
}
