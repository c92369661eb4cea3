//! The `TextMate` grammar of the VS Code package, in the engine that VS Code has.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use bicinium_tests::tool;

use crate::held::{Stretch, differences};
use bicinium_tests::sheets;

#[test]
fn every_token_has_its_scope() {
    let package = Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors/vscode");
    let engine = Some(package.join("node_modules/vscode-textmate")).filter(|it| it.exists());
    if tool::or_skip(engine, "`npm ci` in editors/vscode").is_none() {
        return;
    }
    let sheets = sheets::all();
    let texts: Vec<_> = sheets.iter().map(|sheet| &sheet.text).collect();
    let asked = serde_json::to_vec(&texts).expect("texts can be written");
    let driver = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammars/drivers/textmate.mjs");
    let mut child = Command::new("node")
        .arg(driver)
        .arg(&package)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node runs where npm does");
    child.stdin.take().expect("a pipe").write_all(&asked).expect("the driver reads");
    let answer = child.wait_with_output().expect("the driver ends");
    assert!(answer.status.success());
    let stretches: Vec<Vec<Stretch>> = serde_json::from_slice(&answer.stdout).expect("stretches");
    let wrong: Vec<_> =
        sheets.iter().zip(&stretches).flat_map(|(sheet, it)| differences(sheet, it)).collect();
    assert!(wrong.is_empty(), "{} tokens:\n{}", wrong.len(), wrong.join("\n"));
}
