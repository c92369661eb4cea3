//! Whether a program that a test needs is there. A missing one fails the test under `CI=true` and
//! skips it elsewhere.

use std::env;
use std::path::PathBuf;
use std::process::Command;

/// The tool, or nothing if the test is to be skipped.
///
/// # Panics
/// When it is missing under `CI=true`.
#[expect(clippy::print_stderr, reason = "whoever runs the tests is to see what was skipped")]
pub fn or_skip<T>(tool: Option<T>, name: &str) -> Option<T> {
    assert!(tool.is_some() || env::var_os("CI").is_none_or(|ci| ci != "true"), "{name} is missing");
    if tool.is_none() {
        eprintln!("skipped: {name} is not installed");
    }
    tool
}

/// The first program of this name on the path that answers `arguments` with something that suits.
pub fn that_says(name: &str, arguments: &[&str], suits: impl Fn(&str) -> bool) -> Option<PathBuf> {
    let says = |program: &PathBuf| {
        let output = Command::new(program).args(arguments).output().ok()?;
        String::from_utf8(output.stdout).ok()
    };
    on_path(name).find(|program| says(program).is_some_and(|said| suits(&said)))
}

/// The first program of this name on the path.
pub fn called(name: &str) -> Option<PathBuf> {
    on_path(name).next()
}

fn on_path(name: &str) -> impl Iterator<Item = PathBuf> {
    let path = env::var_os("PATH").unwrap_or_default();
    let folders: Vec<_> = env::split_paths(&path).collect();
    folders.into_iter().map(move |folder| folder.join(name)).filter(|program| program.is_file())
}
