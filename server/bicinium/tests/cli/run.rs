//! Runs the binary in a folder with sheets. It must not know what is expected.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use tempfile::TempDir;

/// An exercise in which nothing is found.
pub const CLEAN: &str = "\
key G major

exercise
  species 2
  soprano cantus  | G4      | A4     | B4    | G4    | C5    | B4    | A4     | G4 |
  bass    counter | rest G2 | F#2 D3 | G2 B2 | E3 D3 | E3 C3 | D3 C3 | D3 F#3 | G3 |
";

/// The middle of an exercise, with one fault: octaves from bar 2 to bar 3.
pub const OCTAVES: &str = "\
key C major

exercise
  species 1
  soprano cantus  | | E4 | F4 | E4 | |
  tenor   counter | | E3 | F3 | C4 | |
";

/// The licence that it takes.
pub const LICENCE: &str = "  allow consecutive-perfects at 3 because \"the school does\"\n";

/// A folder that is gone after the test.
pub struct Folder {
    disk: TempDir,
}

/// What the binary did.
#[derive(Debug)]
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Folder {
    pub fn new() -> Self {
        Folder { disk: TempDir::new().unwrap() }
    }

    /// A folder with one sheet.
    pub fn with(name: &str, text: impl AsRef<[u8]>) -> Self {
        let folder = Folder::new();
        folder.save(name, text);
        folder
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.disk.path().join(name)
    }

    pub fn save(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// The binary, about to run in this folder.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_bicinium"));
        command.current_dir(self.disk.path()).args(arguments);
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"] {
            command.env_remove(name);
        }
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        self.run_on(arguments, "")
    }

    /// Runs with something on standard input.
    pub fn run_on(&self, arguments: &[&str], input: impl AsRef<[u8]>) -> Ran {
        let mut command = self.command(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        // A command that does not read its input may be gone before all is written.
        let _ = child.stdin.take().unwrap().write_all(input.as_ref());
        let output = child.wait_with_output().unwrap();
        Ran {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

/// Runs in an empty folder.
pub fn run(arguments: &[&str]) -> Ran {
    Folder::new().run(arguments)
}

/// Text without the way in which it is broken into lines.
pub fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Fails for lines that do not fit on a screen.
pub fn assert_fits(text: &str) {
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "too wide: {line}");
        assert_eq!(line, line.trim_end(), "blanks at the end");
    }
}
