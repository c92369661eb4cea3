//! A client of another make, which reads every message of the server by the types of the protocol.

use std::path::Path;
use std::process::Command;

use bicinium_tests::{bicinium, tool};

#[test]
fn every_message_is_as_the_protocol_says() {
    let asking = ["-c", "import pytest_lsp, lsprotocol; print('yes')"];
    let python = tool::that_says("python3", &asking, |said| said.trim() == "yes");
    let Some(python) = tool::or_skip(python, "python3 with pytest-lsp") else { return };
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    let output = Command::new(python)
        .args(["-m", "pytest", "--quiet", "-p", "no:cacheprovider", "-W"])
        .arg("error::pytest_lsp.checks.LspSpecificationWarning")
        .arg(tests.join("strict/client.py"))
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .env("BICINIUM", bicinium())
        .env("BICINIUM_SHEET", tests.join("editors/mill.bicinium"))
        .output()
        .expect("python3 runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}");
    assert!(said.contains(" passed") && !said.contains("skipped"), "{said}");
}
