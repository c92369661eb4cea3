//! A real editor and a real browser side by side: what is typed in Neovim is drawn on the page, the cursor
//! and the chosen note lead to each other, and a choice is written by the editor, not into the file.

use std::path::{Path, PathBuf};
use std::process::Command;

use bicinium_tests::{bicinium, tool};
use serde_json::{Value, json};

use crate::browser::Browser;

const SHEET: &str = "exercise \"Quay\"\n  species 1\n  key C major\n  soprano counter | G4 | ? | C5 | B4 | ? | C5 |\n  \
                     tenor cantus | C4 | E4 | F4 | G4 | D4 | C4 |\n";

fn editor() -> Option<PathBuf> {
    tool::that_says("nvim", &["--version"], |said| said.starts_with("NVIM v0.11"))
}

fn seen(browser: &Browser, editor: &Path) -> Value {
    let home = tempfile::tempdir().unwrap();
    let at = |name: &str| home.path().join(name);
    std::fs::create_dir(at("bin")).unwrap();
    std::os::unix::fs::symlink(bicinium(), at("bin/bicinium")).unwrap();
    std::fs::write(at("sheet.bicinium"), SHEET).unwrap();
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = [at("bin")].into_iter().chain(std::env::split_paths(&path));
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    let packages = ["vim", "neovim"].map(|it| own.join("../../editors").join(it));
    let packages = packages.map(|it| it.display().to_string()).join(",");
    let mut command = Command::new(&browser.node);
    command
        .arg(own.join("tests/view/neovim.mjs"))
        .args([&browser.driver, &browser.chromium, editor])
        .arg(own.join("tests/view/neovim.lua"))
        .arg(at("sheet.bicinium"))
        .arg(packages)
        .env("PATH", std::env::join_paths(path).unwrap())
        .env("HOME", home.path())
        .env("XDG_STATE_HOME", at("state"))
        .env("BICINIUM_ADDRESS", at("address"))
        .env("BICINIUM_SOCKET", at("socket"))
        .current_dir(home.path());
    let output = command.output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn neovim_and_the_page_follow_each_other() {
    let name = "chromium with `npm ci` in editors/vscode, and Neovim 0.11";
    let Some((browser, editor)) = tool::or_skip(Browser::found().zip(editor()), name) else {
        return;
    };
    let seen = seen(&browser, &editor);
    eprintln!("from key to page, in milliseconds: {}", seen["milliseconds"]);
    assert_eq!(seen["errors"], json!([]));
    assert_eq!(seen["milliseconds"].as_array().unwrap().len(), 5);
    assert_eq!(seen["saved"], SHEET, "the page shows what is not saved");
    let pointed = seen["pointed"].as_str().unwrap();
    assert!(pointed.starts_with("D4, whole note, lower voice, bar 5"), "{pointed}");
    assert_eq!(seen["cursor"], "F4");
    assert!(seen["choices"].as_array().unwrap().len() > 1, "{seen}");
    let second = seen["second"].as_str().unwrap();
    let written = SHEET.replacen('?', second, 1);
    assert_eq!(seen["written"].as_str().unwrap().trim_end(), written.trim_end());
    assert_eq!(seen["left"], SHEET, "nothing is written into the file");
}
