//! The tree-sitter parser for sheets, built from what the repository holds.
//!
//! It must not know what the parser is for.

use std::path::{Path, PathBuf};
use std::process::Command;

/// Builds the parser into a folder, under the name by which editors look for it.
///
/// # Panics
/// When it does not compile without a warning.
pub fn tree_sitter_parser(folder: &Path) -> PathBuf {
    let library = folder.join("bicinium.so");
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors/tree-sitter/src");
    let status = Command::new("cc")
        .args(["-shared", "-fPIC", "-Werror", "-I"])
        .arg(&source)
        .arg(source.join("parser.c"))
        .arg("-o")
        .arg(&library)
        .status()
        .expect("there is a C compiler where there is Rust");
    assert!(status.success());
    library
}
