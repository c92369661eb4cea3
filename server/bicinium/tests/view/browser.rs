//! The page in a real browser: notes are chosen by hand and by key, played, repeated; findings lead to
//! their notes; the score follows the file; the sound has the right pitch.

use std::path::{Path, PathBuf};
use std::process::Command;

use bicinium_tests::tool;
use serde_json::{Value, json};

use crate::served::Served;

const SHEET: &str = "exercise \"Quay\"\n  species 2\n  key C major\n  soprano cantus | C5 | D5 | C5 |\n  \
                     alto counter | E4 A4 | F4 G4 | C4 |\n";

const HOLES: &str = "exercise \"Holes\"\n  species 1\n  key C major\n  soprano counter | G4 | ? | C5 | B4 | ? |  |\n  \
                     tenor cantus | C4 | E4 | F4 | G4 | D4 | C4 |\n";

/// The programs that it takes.
pub struct Browser {
    pub node: PathBuf,
    pub chromium: PathBuf,
    pub driver: PathBuf,
}

impl Browser {
    pub fn found() -> Option<Self> {
        let editors = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../editors");
        let driver = editors.join("vscode/node_modules/playwright-core/package.json");
        let (node, chromium) = (tool::called("node")?, tool::called("chromium")?);
        driver.exists().then_some(Self { node, chromium, driver })
    }

    /// What a script tells that is given an address and more.
    fn run(&self, script: &str, served: &Served, more: &[&str]) -> Value {
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/view").join(script);
        let output = Command::new(&self.node)
            .arg(script)
            .args([&self.driver, &self.chromium])
            .arg(served.page.address())
            .args(more)
            .output()
            .unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        serde_json::from_slice(&output.stdout).unwrap()
    }
}

fn found() -> Option<Browser> {
    tool::or_skip(Browser::found(), "chromium with `npm ci` in editors/vscode")
}

#[test]
fn the_page_in_a_browser() {
    let Some(browser) = found() else { return };
    let served = Served::with(SHEET);
    let sheet = served.path("sheet.bicinium").display().to_string();
    let seen = browser.run("browser.mjs", &served, &[&sheet, &SHEET.replace("Quay", "Mill")]);
    eprintln!("from file to page, in milliseconds: {}", seen["milliseconds"]);
    assert_eq!(seen["errors"], json!([]));
    assert_eq!(seen["clicked"], "F4, half note, lower voice, bar 2. ii6; could also be V.");
    assert_eq!(seen["right"], "G4, half note, lower voice, bar 2, beat 2. ii6; could also be V.");
    assert_eq!(seen["up"], "D5, whole note, upper voice, bar 2. ii6; could also be V.");
    assert_eq!(seen["playing"], json!(["x1-upper-128", "x1-lower-128"]));
    assert_eq!(seen["button"], "Play");
    assert_eq!(seen["loop"], json!(["x1-lower-0", "x1-lower-32", "x1-upper-0"]));
    assert!(seen["finding"].as_str().unwrap().contains("voice, bar"), "{seen}");
    assert!(seen["words"].as_str().unwrap().starts_with("Mill\nSecond species in C major"));
    assert_eq!(seen["overflow"], false);
    is_in_tune(&seen["sound"]);
}

/// Every note within a cent of equal temperament at 440 Hz, from the first bar to the last, no louder than can be.
fn is_in_tune(sound: &Value) {
    let numbers = |name: &str| -> Vec<f64> {
        sound[name].as_array().unwrap().iter().map(|it| it.as_f64().unwrap()).collect()
    };
    let number = |name: &str| sound[name].as_f64().unwrap();
    let (heard, midi) = (numbers("notes"), numbers("midi"));
    assert_eq!((heard.len(), midi.len()), (8, 8));
    for (hertz, number) in heard.iter().zip(midi) {
        let cents = 1200.0 * (hertz / 440.0).log2() - 100.0 * (number - 69.0);
        assert!(cents.abs() < 1.0, "{number}: {hertz} Hz is {cents} cents off");
    }
    assert!((0.0..0.01).contains(&number("from")), "{sound}");
    // The last note has come to rest when its bar ends, or just after.
    assert!((-0.02..0.08).contains(&(number("to") - number("lasts"))), "{sound}");
    assert!((0.2..0.7).contains(&number("loudest")), "{sound}");
    assert!(number("steepest") < 0.1, "{sound}");
}

#[test]
fn what_is_tried_is_heard_and_not_written() {
    let Some(browser) = found() else { return };
    let served = Served::with(HOLES);
    let seen = browser.run("trying.mjs", &served, &[]);
    assert_eq!(seen["errors"], json!([]));
    let open =
        ["Bar 2, upper voice: hole", "Bar 5, upper voice: hole", "Bar 6, upper voice: blank bar"];
    assert_eq!(seen["open"], json!(open));
    assert!(seen["hole"].as_array().unwrap().len() > 1, "{seen}");
    assert_eq!(seen["ghosts"], json!(["x1-upper-64"]));
    assert_eq!(seen["heard"], json!(["x1-upper-64"]));
    assert!(seen["alone"].as_str().unwrap().starts_with("This page follows a file"), "{seen}");
    assert_eq!(seen["blank"], json!(["x1-upper-320"]));
    assert_eq!(seen["after"], "to be chosen, whole note, upper voice, bar 2");
    assert_eq!(seen["harmonies"], json!(["Bar 5", "vii°6", "ii"]));
    assert_eq!(seen["called"], "Listen to bar 5 with ii");
    // D4 of the tenor, and D3, F3 and A3 under it.
    assert_eq!(seen["tones"], json!([294, 147, 175, 220]));
    assert_eq!(std::fs::read_to_string(served.path("sheet.bicinium")).unwrap(), HOLES);
}

/// With `BICINIUM_PICTURES=FOLDER` the page is drawn there at three widths, in light and dark.
#[test]
fn the_page_can_be_used_by_everybody_and_printed() {
    let Some(browser) = found() else { return };
    let text = format!("{HOLES}\n{SHEET}");
    let served = Served::with(&text);
    let packages = browser.driver.ancestors().nth(2).unwrap();
    let rules = packages.join("axe-core/axe.min.js").display().to_string();
    let seen = browser.run("everybody.mjs", &served, &[&rules]);
    assert_eq!(seen["violations"], json!([]), "{seen:#}");
    assert!(seen["passes"].as_u64().unwrap() > 20, "{seen}");
    assert_eq!(seen["overflowing"], json!([]));
    assert_eq!(seen["moving"], false, "somebody wants nothing to move");
    assert!(seen["pdf"].as_u64().unwrap() > 5_000, "{seen}");
    assert_eq!(seen["printed"], json!(["score"]));
}
