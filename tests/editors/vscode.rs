//! VS Code in a browser, with the package as one command builds it and the server inside.

use std::path::PathBuf;

use bicinium_tests::tool;

use crate::expected;
use crate::feature::{Claims, Feature};
use crate::stage::{Stage, editors, script};
use crate::story::Story;

/// What is seen in VS Code.
pub const VS_CODE: Claims = Claims { name: "VS Code", seen: &Feature::ALL, lacks: &[] };

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
    Story::of(&stage).holds(&VS_CODE);
    stage.has_no_server_left();
}

/// Whoever has just installed the extension is to see what it finds.
#[test]
fn the_sheet_to_begin_with_has_one_fault() {
    let source = editors().join("vscode/src/newSheet.ts");
    let source = std::fs::read_to_string(source).expect("the source is there");
    let sheet = source.split('`').nth(1).expect("the sheet stands between backquotes");
    let found = expected::findings(sheet, expected::HINT);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].message.starts_with("Fifths in a row"), "{found:?}");
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
