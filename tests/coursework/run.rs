//! Runs the binary among the sheets of the class. It must not know what is expected.

use std::path::{Path, PathBuf};
use std::process::Command;

use bicinium_tests::bicinium;
use serde_json::Value;

/// What the binary did.
#[derive(Debug)]
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// The folder of the class.
pub fn class() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("coursework")
}

/// Runs the binary in a folder.
pub fn run_in(folder: &Path, arguments: &[&str]) -> Ran {
    let output =
        Command::new(bicinium()).current_dir(folder).args(arguments).output().expect("it runs");
    Ran {
        code: output.status.code().expect("it ends by itself"),
        out: String::from_utf8(output.stdout).expect("it prints text"),
        err: String::from_utf8(output.stderr).expect("it complains in text"),
    }
}

/// Marks the class by the rubric of its school.
pub fn mark(options: &[&str]) -> Ran {
    let arguments = [
        "mark",
        "hand-ins",
        "--against",
        "assignment.bicinium",
        "--rubric",
        "ropewalk.rubric.toml",
    ];
    run_in(&class(), &[&arguments[..], options].concat())
}

/// All marks of the class.
pub fn marks() -> Value {
    serde_json::from_str(&mark(&["--format", "json"]).out).expect("marks are JSON")
}

/// The items of a list.
pub fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// A text.
pub fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}
