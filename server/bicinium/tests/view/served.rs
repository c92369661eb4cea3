//! A page that is served by the real binary for a file, and gone after the test.

use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};

use crate::guest::Page;

pub struct Served {
    pub page: Page,
    folder: tempfile::TempDir,
    server: Child,
    /// What the server says; if nobody listened any more, it would end.
    _voice: BufReader<ChildStdout>,
}

impl Served {
    /// The page of a sheet.
    pub fn with(text: &str) -> Self {
        Self::among(text, &[])
    }

    /// The page of a sheet that has other files beside it.
    pub fn among(text: &str, others: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in others.iter().chain(&[("sheet.bicinium", text)]) {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        let mut server = Command::new(env!("CARGO_BIN_EXE_bicinium"))
            .args(["view", "sheet.bicinium"])
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let mut voice = BufReader::new(server.stdout.take().unwrap());
        voice.read_line(&mut said).unwrap();
        let page = Page::at(said.strip_prefix("The score is at ").unwrap());
        Self { page, folder, server, _voice: voice }
    }

    /// A file beside the sheet, or the sheet itself.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn write(&self, name: &str, text: &str) {
        std::fs::write(self.path(name), text.to_owned() + "\n// changed\n").unwrap();
    }

    pub fn remove(&self, name: &str) {
        std::fs::remove_file(self.path(name)).unwrap();
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}
