//! Emacs, with each of its two clients.

use bicinium_tests::tool;

use crate::feature::{Claims, Feature};
use crate::stage::{Stage, editors, script};
use crate::story::Story;

/// What is seen in Emacs with eglot.
pub const EGLOT: Claims = Claims {
    name: "Emacs, eglot",
    seen: &[
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Completion,
        Feature::Colours,
        Feature::Outline,
        Feature::Definitions,
    ],
    lacks: &[(
        &[Feature::Hints, Feature::States, Feature::Tokens],
        "eglot 1.9 has no hints, lenses or tokens.",
    )],
};

/// What is seen in Emacs with lsp-mode.
pub const LSP_MODE: Claims = Claims {
    name: "Emacs, lsp-mode",
    seen: &[
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Completion,
        Feature::Colours,
        Feature::States,
        Feature::Tokens,
        Feature::Outline,
        Feature::Definitions,
    ],
    lacks: &[(&[Feature::Hints], "lsp-mode 8.0 has no hints.")],
};

#[test]
fn emacs_with_eglot() {
    goes_through_the_sheet("eglot", &EGLOT);
}

#[test]
fn emacs_with_lsp_mode() {
    goes_through_the_sheet("lsp-mode", &LSP_MODE);
}

fn goes_through_the_sheet(client: &str, claims: &Claims) {
    let has_client = format!("(princ (if (locate-library \"{client}\") \"yes\" \"no\"))");
    let asking = ["-q", "--batch", "-l", "package", "-f", "package-initialize"];
    let asking: Vec<_> = asking.into_iter().chain(["--eval", has_client.as_str()]).collect();
    let found = tool::that_says("emacs", &asking, |said| said == "yes");
    let Some(emacs) = tool::or_skip(found, &format!("Emacs with {client}")) else { return };
    let stage = Stage::new();
    let mut command = stage.command(&emacs);
    command.args(["-q", "--batch", "-l", "package", "-f", "package-initialize", "-l"]);
    command.arg(editors().join("emacs/bicinium-mode.el"));
    command.arg("-L").arg(script(""));
    command.arg("-l").arg(script(&format!("with-{client}.el")));
    stage.run(&mut command);
    Story::of(&stage).holds(claims);
    stage.has_no_server_left();
}
