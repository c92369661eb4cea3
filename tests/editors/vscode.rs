//! VS Code in a browser, with the package as one command builds it and the server inside.

use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use bicinium_tests::tool;
use serde_json::{Value, json};

use crate::expected;
use crate::feature::{Claims, Feature};
use crate::stage::{Stage, editors, script};
use crate::story::Story;

/// What is seen in VS Code.
pub const VS_CODE: Claims = Claims { name: "VS Code", seen: &Feature::ALL, lacks: &[] };

/// There is one place in which the package is packed, and one window is enough to look at.
static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());

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
    tools.run("vscode.mjs", &stage);
    Story::of(&stage).holds(&VS_CODE);
    stage.has_no_server_left();
}

#[test]
fn the_score_in_a_panel_of_vs_code() {
    let Some(tools) = tool::or_skip(tools(), "VS Code with `npm ci` in editors/vscode") else {
        return;
    };
    let stage = Stage::new();
    tools.run("vscode-score.mjs", &stage);
    let story: Value = serde_json::from_str(&stage.told()).expect("the script tells a story");
    assert_eq!(story["title"], "mill.bicinium");
    assert_eq!(story["pointed"], "E3, half note, lower voice, bar 2");
    assert_eq!(story["clicked"], "F4, whole note, upper voice, bar 1");
    assert_eq!(story["selected"], "Ln 11, Col 32 (2 selected)");
    assert_eq!(story["groups"], 2, "the sheet and its score stay side by side");
    assert_eq!(story["hole"], "to be chosen, half note, lower voice, bar 2");
    stage.has_no_server_left();
}

#[test]
fn what_the_package_brings_to_vs_code() {
    let Some(tools) = tool::or_skip(tools(), "VS Code with `npm ci` in editors/vscode") else {
        return;
    };
    let stage = Stage::new();
    tools.run("vscode-package.mjs", &stage);
    let story: Value = serde_json::from_str(&stage.told()).expect("the script tells a story");
    assert_eq!((&story["hintsGo"], &story["hintsCome"]), (&true.into(), &true.into()), "{story}");
    assert!(story["fault"].as_str().is_some_and(|it| it.starts_with("Fifths in a row")), "{story}");
    assert_eq!(story["rule"], "consecutive-perfects");
    let begun = ["exercise \"title\"", "key C", "species 1", "soprano cantus", "bass counter"];
    assert_eq!(story["snippet"], json!(begun));
    assert_eq!((&story["findings"], &story["log"]), (&true.into(), &true.into()), "{story}");
    let steps =
        ["Open a sheet", "Read what is found", "Mend it", "Set the barlines under each other"];
    assert_eq!(story["steps"], json!(steps));
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

impl Tools {
    /// Packs the extension with the server inside, and lets a script use it.
    fn run(&self, name: &str, stage: &Stage) {
        let package = editors().join("vscode");
        let built = stage.path("bicinium.vsix");
        let _alone = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
        let mut pack = stage.command(&self.npm);
        pack.args(["run", "package", "--"]).arg(stage.path("bin/bicinium")).current_dir(&package);
        stage.run(&mut pack);
        std::fs::copy(package.join("bicinium.vsix"), &built).expect("the package is there");
        let mut command = stage.command(&self.node);
        command.arg(script(name)).arg(built).env("CHROMIUM", &self.chromium);
        stage.run(&mut command);
    }
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
