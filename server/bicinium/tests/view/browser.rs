//! The page in a real browser: notes are chosen by hand and by key, played, repeated; findings lead to
//! their notes; the score follows the file; the sound has the right pitch.

use std::path::{Path, PathBuf};
use std::process::Command;

use bicinium_tests::tool;
use serde_json::{Value, json};

use crate::served::Served;

const SHEET: &str = "exercise \"Quay\"\n  species 2\n  key C major\n  soprano cantus | C5 | D5 | C5 |\n  \
                     alto counter | E4 A4 | F4 G4 | C4 |\n";

struct Tools {
    node: PathBuf,
    chromium: PathBuf,
    driver: PathBuf,
}

fn tools() -> Option<Tools> {
    let editors = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../editors");
    let driver = editors.join("vscode/node_modules/playwright-core/package.json");
    let (node, chromium) = (tool::called("node")?, tool::called("chromium")?);
    driver.exists().then_some(Tools { node, chromium, driver })
}

fn seen(tools: &Tools, served: &Served) -> Value {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/view/browser.mjs");
    let address = format!("http://127.0.0.1:{}/{}/", served.port, served.token);
    let output = Command::new(&tools.node)
        .arg(script)
        .args([&tools.driver, &tools.chromium])
        .arg(address)
        .arg(served.path())
        .arg(SHEET.replace("Quay", "Mill"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn the_page_in_a_browser() {
    let Some(tools) = tool::or_skip(tools(), "chromium with `npm ci` in editors/vscode") else {
        return;
    };
    let served = Served::with(SHEET);
    let seen = seen(&tools, &served);
    assert_eq!(seen["errors"], json!([]));
    assert_eq!(seen["clicked"], "F4, half note, lower voice, bar 2");
    assert_eq!(seen["right"], "G4, half note, lower voice, bar 2, beat 2");
    assert_eq!(seen["up"], "D5, whole note, upper voice, bar 2");
    assert_eq!(seen["playing"], json!(["x1-upper-128", "x1-lower-128"]));
    assert_eq!(seen["button"], "Play");
    assert_eq!(seen["loop"], json!(["x1-lower-0", "x1-lower-32", "x1-upper-0"]));
    assert!(seen["finding"].as_str().unwrap().contains("voice, bar"), "{seen}");
    assert!(seen["words"].as_str().unwrap().starts_with("Mill\nSecond species in C major"));
    assert_eq!(seen["overflow"], false);
    let cents = 1200.0 * (seen["sound"]["hertz"].as_f64().unwrap() / 220.0).log2();
    assert!(cents.abs() < 1.0, "{cents} cents off");
    assert!(seen["sound"]["loudest"].as_f64().unwrap() < 0.5, "{seen}");
}
