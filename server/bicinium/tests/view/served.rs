//! A page that is served by the real binary, and gone after the test.

use std::io::{BufRead, BufReader, Write};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};

use crate::guest::{Answer, Guest, News, asked, try_asked};

pub struct Served {
    pub port: u16,
    pub token: String,
    folder: tempfile::TempDir,
    server: Child,
    /// What the server says; if nobody listened any more, it would end.
    _voice: BufReader<ChildStdout>,
}

impl Served {
    /// The page of a sheet.
    pub fn with(text: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("sheet.bicinium"), text).unwrap();
        let mut server = Command::new(env!("CARGO_BIN_EXE_bicinium"))
            .args(["view", "sheet.bicinium"])
            .current_dir(folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut said = String::new();
        let mut voice = BufReader::new(server.stdout.take().unwrap());
        voice.read_line(&mut said).unwrap();
        let address = said.trim().strip_prefix("The score is at http://127.0.0.1:").unwrap();
        let (port, token) = address.trim_end_matches('/').split_once('/').unwrap();
        let (port, token) = (port.parse().unwrap(), token.to_owned());
        Self { port, token, folder, server, _voice: voice }
    }

    fn head(&self, path: &str) -> String {
        format!("GET /{}/{path} HTTP/1.1\r\nHost: 127.0.0.1:{}", self.token, self.port)
    }

    pub fn ask(&self, path: &str) -> Answer {
        asked(self.port, &self.head(path))
    }

    pub fn try_ask(&self, path: &str) -> Option<Answer> {
        try_asked(self.port, &self.head(path))
    }

    /// Waits for new editions.
    pub fn listen(&self) -> News {
        let mut guest = Guest::at(self.port);
        write!(guest.stream, "{}\r\n\r\n", self.head("events")).unwrap();
        News(BufReader::new(guest.stream))
    }

    /// The sheet.
    pub fn path(&self) -> PathBuf {
        self.folder.path().join("sheet.bicinium")
    }

    pub fn write(&self, text: &str) {
        std::fs::write(self.path(), text.to_owned() + "\n// changed\n").unwrap();
    }

    pub fn remove(&self) {
        std::fs::remove_file(self.path()).unwrap();
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}
