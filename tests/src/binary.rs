//! The binary under test, built the way the tests were.
//!
//! It must not know what the binary does.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::LazyLock;

use serde_json::Value;

/// The path of the binary, brought up to date on first use.
pub fn bicinium() -> &'static Path {
    static BINARY: LazyLock<PathBuf> = LazyLock::new(|| build("bicinium", &[]));
    &BINARY
}

/// The path of the binary that breaks where a sheet asks for it; otherwise it is the same.
pub fn rehearsal() -> &'static Path {
    static BINARY: LazyLock<PathBuf> =
        LazyLock::new(|| build("bicinium-rehearsal", &["--features", "rehearsal"]));
    &BINARY
}

/// Builds into the directory and with the profile of the running test, which lies in
/// `TARGET/PROFILE/deps`. What is built is the workspace in which cargo runs the test, not the one
/// in which it was compiled: a target directory may outlive a checkout.
fn build(name: &str, features: &[&str]) -> PathBuf {
    let test = std::env::current_exe().expect("a running test has a path");
    let profile = test.ancestors().nth(2).expect("tests lie two levels below the target directory");
    let built = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
        .args(["build", "--package", "bicinium", "--bin", name])
        .args(features)
        .args(["--message-format", "json-render-diagnostics", "--profile", profile_name(profile)])
        .arg("--target-dir")
        .arg(profile.parent().expect("a profile lies in a target directory"))
        .stderr(Stdio::inherit())
        .output()
        .expect("cargo runs");
    assert!(built.status.success(), "the binary does not build");
    executable(&built.stdout).expect("cargo tells where the binary is")
}

/// The profile that is built into a directory of this name.
fn profile_name(directory: &Path) -> &str {
    match directory.file_name().and_then(|name| name.to_str()) {
        Some("debug") | None => "dev",
        Some(name) => name,
    }
}

fn executable(messages: &[u8]) -> Option<PathBuf> {
    let messages = serde_json::Deserializer::from_slice(messages).into_iter::<Value>();
    let executable = |message: Value| Some(PathBuf::from(message.get("executable")?.as_str()?));
    messages.filter_map(|message| executable(message.ok()?)).last()
}
