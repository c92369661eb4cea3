//! A recorded session: every message in and out with its time, one JSON object a line, the first of
//! which says what the file is. It is written line by line, so that a session that ends badly leaves
//! a recording all the same. It must not know what the messages mean.

use std::fs::File;
use std::io::{self, Write};
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;

use serde::{Deserialize, Serialize};
use serde_json::Value;

/// The only form of recordings so far.
const FORM: u32 = 1;

/// The first line.
#[derive(Debug, Serialize, Deserialize)]
struct Title {
    bicinium_recording: u32,
    version: String,
}

/// Who sent a message.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sender {
    /// The editor.
    Client,
    /// This program.
    Server,
}

/// One message.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// When it was read or written, in milliseconds since the recording began.
    pub ms: u64,
    /// Who sent it.
    pub from: Sender,
    /// What was said; a string if it was no JSON.
    pub message: Value,
}

/// Takes down a session. Copies write into the same file; the default takes down nothing.
#[derive(Clone, Debug, Default)]
pub struct Recorder {
    tape: Option<Arc<Tape>>,
}

#[derive(Debug)]
struct Tape {
    file: Mutex<File>,
    start: Instant,
}

/// What is done about a file that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Existing {
    /// It is kept, and nothing is recorded.
    Keep,
    /// It is replaced.
    Replace,
}

impl Recorder {
    /// A recorder into a new file.
    pub fn into_file(path: &Path, existing: Existing) -> io::Result<Self> {
        let mut options = File::options();
        match existing {
            Existing::Keep => options.write(true).create_new(true),
            Existing::Replace => options.write(true).create(true).truncate(true),
        };
        let mut file = options.open(path)?;
        let version = env!("CARGO_PKG_VERSION").to_owned();
        write_line(&mut file, &Title { bicinium_recording: FORM, version })?;
        let tape = Tape { file: Mutex::new(file), start: Instant::now() };
        Ok(Self { tape: Some(Arc::new(tape)) })
    }

    /// Takes down the body of a message. A recording that can no longer be written is given up:
    /// the session matters more.
    pub fn take_down(&self, from: Sender, body: &[u8]) {
        let Some(tape) = &self.tape else { return };
        let text = || Value::from(String::from_utf8_lossy(body));
        let message = serde_json::from_slice(body).unwrap_or_else(|_| text());
        let mut file = tape.file.lock().unwrap_or_else(PoisonError::into_inner);
        let ms = u64::try_from(tape.start.elapsed().as_millis()).unwrap_or(u64::MAX);
        let _ = write_line(&mut file, &Entry { ms, from, message });
    }
}

/// Hands a whole line to the system at once.
fn write_line(file: &mut File, line: &impl Serialize) -> io::Result<()> {
    let mut text = serde_json::to_vec(line)?;
    text.push(b'\n');
    file.write_all(&text)
}

/// Reads a recording, or says why it is none, as the end of a sentence. A last line that is torn
/// off is left out.
pub fn read(text: &str) -> Result<Vec<Entry>, String> {
    let mut lines = text.split_inclusive('\n').zip(1..);
    let title = lines.next().and_then(|(line, _)| serde_json::from_str::<Title>(line).ok());
    match title.map(|title| title.bicinium_recording) {
        Some(FORM) => {}
        Some(_) => return Err("it was recorded by a later version of this program".to_owned()),
        None => return Err("it is not a recorded session".to_owned()),
    }
    let whole = lines.filter(|(line, _)| line.ends_with('\n') && !line.trim().is_empty());
    let entry = |(line, number): (&str, u32)| {
        serde_json::from_str(line).map_err(|_| format!("its line {number} cannot be read"))
    };
    whole.map(entry).collect()
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use serde_json::json;

    use super::{Entry, Existing, Recorder, Sender, read};

    fn place() -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("session.jsonl");
        (folder, path)
    }

    #[test]
    fn what_is_taken_down_can_be_read() {
        let (_folder, path) = place();
        let recorder = Recorder::into_file(&path, Existing::Keep).unwrap();
        recorder.take_down(Sender::Client, br#"{"id":1}"#);
        recorder.take_down(Sender::Server, b"no {json");
        let entries = read(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let said: Vec<_> = entries.into_iter().map(|it| (it.from, it.message)).collect();
        assert_eq!(said, [(Sender::Client, json!({"id": 1})), (Sender::Server, json!("no {json"))]);
    }

    #[test]
    fn a_file_that_is_there_is_replaced_only_if_that_is_meant() {
        let (_folder, path) = place();
        std::fs::write(&path, "a diary").unwrap();
        assert!(Recorder::into_file(&path, Existing::Keep).is_err());
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "a diary");
        assert!(Recorder::into_file(&path, Existing::Replace).is_ok());
        assert_eq!(read(&std::fs::read_to_string(&path).unwrap()), Ok(Vec::<Entry>::new()));
    }

    #[test]
    fn a_torn_last_line_is_left_out_and_a_broken_one_is_named() {
        let title = "{\"bicinium_recording\":1,\"version\":\"0.1.0\"}\n";
        let line = "{\"ms\":1,\"from\":\"client\",\"message\":{}}\n";
        assert_eq!(read(&format!("{title}{line}{{\"ms\":2")).unwrap().len(), 1);
        let broken = read(&format!("{title}nonsense\n{line}"));
        assert_eq!(broken, Err("its line 2 cannot be read".to_owned()));
        assert_eq!(read("G4 A4"), Err("it is not a recorded session".to_owned()));
    }
}
