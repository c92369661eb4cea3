//! VS Code in a browser, with the package as one command builds it and the server inside.

use std::path::PathBuf;

use bicinium_tests::tool;

use crate::feature::Feature;
use crate::stage::{Stage, editors, script};
use crate::story::Story;

/// What is seen in VS Code.
pub const VS_CODE: &[Feature] = &[
    Feature::Findings,
    Feature::Hover,
    Feature::Fixes,
    Feature::Layout,
    Feature::Completion,
    Feature::Colours,
];

/// The programs that it takes.
struct Tools {
    node: PathBuf,
    npm: PathBuf,
    chromium: PathBuf,
}

#[test]
fn vs_code() {
    let Some(tools) = tool::or_skip(tools(), "VS Code with `npm ci` in editors/vscode") else {
        return;
    };
    let stage = Stage::new();
    let package = editors().join("vscode");
    let mut pack = stage.command(&tools.npm);
    pack.args(["run", "package", "--"]).arg(stage.path("bin/bicinium")).current_dir(&package);
    stage.run(&mut pack);
    let mut command = stage.command(&tools.node);
    command.arg(script("vscode.mjs")).arg(package.join("bicinium.vsix"));
    command.env("CHROMIUM", tools.chromium);
    stage.run(&mut command);
    Story::of(&stage).holds(VS_CODE);
    stage.has_no_server_left();
}

fn tools() -> Option<Tools> {
    tool::that_says("code-server", &["--version"], |said| said.contains("with Code"))?;
    let driver = editors().join("vscode/node_modules/playwright-core");
    let found = Tools {
        node: tool::called("node")?,
        npm: tool::called("npm")?,
        chromium: tool::called("chromium")?,
    };
    driver.exists().then_some(found)
}
