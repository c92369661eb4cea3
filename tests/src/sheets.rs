//! Every sheet that the repository holds: the files, and the examples of the reference.

use std::fs;
use std::path::{Path, PathBuf};

/// A sheet and where it stands.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// The file, and the line of the example in it.
    pub place: String,
    /// What is written.
    pub text: String,
}

/// All sheets, the broken ones among them.
///
/// # Panics
/// When a file cannot be read, or when the sheets are not where they were.
pub fn all() -> Vec<Sheet> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    for folder in ["grammar", "server", "tests", "editors"] {
        collect(&root.join(folder), &mut files);
    }
    files.sort();
    let mut sheets: Vec<_> = files.iter().map(|file| whole(file)).collect();
    sheets.extend(examples(&root.join("grammar/REFERENCE.md")));
    assert!(sheets.len() > 100, "the sheets are not where they were");
    sheets
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder can be read").flatten() {
        let path = entry.path();
        if path.is_dir() && !path.ends_with("node_modules") {
            collect(&path, files);
        } else if path.extension().is_some_and(|extension| extension == "bicinium") {
            files.push(path);
        }
    }
}

fn whole(file: &Path) -> Sheet {
    // Some sheets are there because they are no plain text.
    let bytes = fs::read(file).expect("a sheet can be read");
    let text = String::from_utf8_lossy(&bytes);
    // An editor takes the byte order mark away before its grammar sees the text.
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(&text).to_owned();
    Sheet { place: file.display().to_string(), text }
}

fn examples(file: &Path) -> Vec<Sheet> {
    let mut examples = Vec::new();
    let mut open: Option<Sheet> = None;
    let text = fs::read_to_string(file).expect("the reference is text");
    for (number, line) in text.lines().enumerate() {
        match &mut open {
            Some(_) if line == "```" => examples.extend(open.take()),
            Some(sheet) => sheet.text.extend([line, "\n"]),
            None if line.starts_with("```bicinium") => {
                open = Some(Sheet { place: format!("REFERENCE.md:{number}"), text: String::new() });
            }
            None => {}
        }
    }
    examples
}
