//! A line to a server in a process of its own: whole messages go out and come in. It must not know
//! what they say.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use serde_json::Value;

const LENGTH: &str = "content-length:";
/// How long the server may take to end once the line is closed.
const GRACE: Duration = Duration::from_secs(5);

/// The client's end of the line.
pub(super) struct Line {
    server: Child,
    to_server: Option<ChildStdin>,
    from_server: Receiver<Value>,
}

impl Line {
    /// Starts this program as a server.
    pub(super) fn to(program: &Path) -> io::Result<Self> {
        let mut server = Command::new(program)
            .args(["lsp", "--stdio"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()?;
        let to_server = server.stdin.take();
        let output = server.stdout.take().ok_or(io::ErrorKind::BrokenPipe)?;
        let (sender, from_server) = channel();
        std::thread::spawn(move || {
            let mut output = BufReader::new(output);
            while let Some(message) = receive(&mut output) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        Ok(Self { server, to_server, from_server })
    }

    /// Says something. Once the server has hung up, it is lost, and the next answer does not come.
    pub(super) fn send(&mut self, body: &str) {
        if let Some(to_server) = &mut self.to_server {
            let frame = format!("Content-Length: {}\r\n\r\n{body}", body.len());
            let _ = to_server.write_all(frame.as_bytes()).and_then(|()| to_server.flush());
        }
    }

    /// The next message, if one comes within this time.
    pub(super) fn receive(&self, patience: Duration) -> Option<Value> {
        self.from_server.recv_timeout(patience).ok()
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        self.to_server = None;
        while self.from_server.recv_timeout(GRACE).is_ok() {}
        // Fails only for a server that has ended by itself.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

fn receive(output: &mut BufReader<ChildStdout>) -> Option<Value> {
    let mut length = None;
    loop {
        let mut header = String::new();
        if output.read_line(&mut header).ok()? == 0 {
            return None;
        }
        let header = header.trim().to_ascii_lowercase();
        if let Some(value) = header.strip_prefix(LENGTH) {
            length = value.trim().parse().ok();
        } else if header.is_empty() {
            break;
        }
    }
    let mut body = vec![0; length?];
    output.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}
