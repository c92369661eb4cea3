//! A line to a server, as raw as can be: messages are told apart by a few bytes in them, so that
//! reading a long answer costs the server's time and not the reader's.
//!
//! It must not know what is measured.

use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use serde_json::{Value, json};

/// A line to a server that runs.
pub(crate) struct Line {
    server: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
    last_id: u64,
}

/// The body of a message.
pub(crate) struct Body(pub(crate) String);

impl Body {
    /// Whether these bytes are near the beginning or the end, where a message says what it is.
    fn says(&self, mark: &str) -> bool {
        let bytes = self.0.as_bytes();
        let near = bytes.len().min(400);
        let is_in = |part: &[u8]| part.windows(mark.len()).any(|it| it == mark.as_bytes());
        is_in(&bytes[..near]) || is_in(&bytes[bytes.len() - near..])
    }

    fn answers(&self, id: u64) -> bool {
        !self.says("\"method\":")
            && (self.says(&format!("\"id\":{id},")) || self.says(&format!("\"id\":{id}}}")))
    }
}

impl Line {
    /// Starts a server and goes through the handshake.
    pub(crate) fn start(mut command: Command, capabilities: &Value) -> Self {
        let mut server = command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the server runs");
        let input = server.stdin.take().expect("the input is a pipe");
        let output = BufReader::with_capacity(1 << 16, server.stdout.take().expect("a pipe"));
        let mut line = Line { server, input, output, last_id: 0 };
        let params = json!({"processId": null, "rootUri": null, "capabilities": capabilities});
        line.request("initialize", &params);
        line.notify("initialized", &json!({}));
        line
    }

    pub(crate) fn notify(&mut self, method: &str, params: &Value) {
        self.send(&notification(method, params));
    }

    /// Asks and waits for the answer.
    pub(crate) fn request(&mut self, method: &str, params: &Value) -> Body {
        self.last_id += 1;
        let id = self.last_id;
        self.send(&json!({"jsonrpc": "2.0", "id": id, "method": method, "params": params}));
        self.wait(|body| body.answers(id))
    }

    /// Waits for a notification that says this.
    pub(crate) fn notification(&mut self, method: &str, mark: &str) -> Body {
        let method = format!("\"method\":\"{method}\"");
        self.wait(|body| body.says(&method) && body.says(mark))
    }

    /// Sends notifications without waiting, and counts what is notified until one says this.
    pub(crate) fn flood(
        &mut self,
        method: &str,
        all: &[Value],
        awaited: &str,
        mark: &str,
    ) -> usize {
        let frames: String =
            all.iter().map(|params| frame(&notification(method, params))).collect();
        let awaited = format!("\"method\":\"{awaited}\"");
        let (input, output) = (&mut self.input, &mut self.output);
        std::thread::scope(|scope| {
            scope.spawn(move || input.write_all(frames.as_bytes()).expect("the server reads"));
            let bodies = std::iter::from_fn(|| read(output)).filter(|body| body.says(&awaited));
            let mut count = 0;
            for body in bodies {
                count += 1;
                if body.says(mark) {
                    break;
                }
            }
            count
        })
    }

    /// The most memory that the server has held so far, in MB; 0 where the system does not tell.
    pub(crate) fn peak_memory(&self) -> f64 {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.server.id()));
        let status = status.unwrap_or_default();
        let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let kilobytes = peak.and_then(|peak| peak.trim().strip_suffix("kB"));
        kilobytes.and_then(|it| it.trim().parse::<f64>().ok()).unwrap_or(0.0) / 1024.0
    }

    fn send(&mut self, message: &Value) {
        self.input.write_all(frame(message).as_bytes()).expect("the server reads");
    }

    fn wait(&mut self, mut is_meant: impl FnMut(&Body) -> bool) -> Body {
        loop {
            let body = read(&mut self.output).expect("the server writes messages");
            if is_meant(&body) {
                return body;
            }
        }
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        // Fails only for a server that has ended already.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

fn notification(method: &str, params: &Value) -> Value {
    json!({"jsonrpc": "2.0", "method": method, "params": params})
}

fn frame(message: &Value) -> String {
    let body = message.to_string();
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

/// Reads one message; `None` at the end or where there is none.
pub(crate) fn read(input: &mut impl BufRead) -> Option<Body> {
    let mut length = None;
    loop {
        let mut header = String::new();
        input.read_line(&mut header).ok().filter(|read| *read > 0)?;
        if header.trim().is_empty() {
            break;
        }
        let value = header.to_ascii_lowercase();
        let value = value.strip_prefix("content-length:").map(str::trim);
        length = value.and_then(|value| value.parse::<usize>().ok()).or(length);
    }
    let mut body = vec![0; length?];
    input.read_exact(&mut body).ok()?;
    String::from_utf8(body).ok().map(Body)
}
