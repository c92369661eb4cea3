//! A session with the server, as an editor holds it: real messages over a pair of pipes in this
//! process. It must not know what they are about.

use std::fmt;
use std::io;

use serde_json::{Value, json};
use tokio::io::{AsyncBufReadExt, AsyncReadExt, AsyncWriteExt, BufReader, DuplexStream};

/// How many bytes fit into a pipe.
const PIPE: usize = 1 << 16;
const LENGTH: &str = "Content-Length:";

/// Why a session ended before its time, as the end of a sentence.
#[derive(Debug)]
pub(super) struct Interrupted(String);

impl fmt::Display for Interrupted {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}

impl From<io::Error> for Interrupted {
    fn from(error: io::Error) -> Self {
        Self(error.to_string())
    }
}

/// The client's end of the line.
pub(super) struct Session {
    to_server: DuplexStream,
    from_server: BufReader<DuplexStream>,
    requests: u32,
}

impl Session {
    /// A line, and the server's two ends of it: where it reads and where it writes.
    pub(super) fn new() -> (Self, DuplexStream, DuplexStream) {
        let (to_server, input) = tokio::io::duplex(PIPE);
        let (output, from_server) = tokio::io::duplex(PIPE);
        let session = Self { to_server, from_server: BufReader::new(from_server), requests: 0 };
        (session, input, output)
    }

    /// Asks, and waits for the answer.
    pub(super) async fn request(
        &mut self,
        method: &str,
        params: Value,
    ) -> Result<Value, Interrupted> {
        self.requests += 1;
        let id = self.requests;
        let message = json!({"jsonrpc": "2.0", "id": id, "method": method, "params": params});
        self.send(&message).await?;
        loop {
            let mut answer = self.receive().await?;
            if answer["id"] != id {
                continue;
            }
            return match answer.get("error") {
                Some(error) => Err(Interrupted(format!("{method} was refused: {error}"))),
                None => Ok(answer["result"].take()),
            };
        }
    }

    /// Tells something that is not answered.
    pub(super) async fn notify(&mut self, method: &str, params: Value) -> Result<(), Interrupted> {
        self.send(&json!({"jsonrpc": "2.0", "method": method, "params": params})).await
    }

    async fn send(&mut self, message: &Value) -> Result<(), Interrupted> {
        let body = message.to_string();
        let frame = format!("{LENGTH} {}\r\n\r\n{body}", body.len());
        Ok(self.to_server.write_all(frame.as_bytes()).await?)
    }

    async fn receive(&mut self) -> Result<Value, Interrupted> {
        let mut body = vec![0; self.length().await?];
        self.from_server.read_exact(&mut body).await?;
        serde_json::from_slice(&body).map_err(|error| Interrupted(error.to_string()))
    }

    /// Reads the head of a message for the length of its body, in bytes.
    async fn length(&mut self) -> Result<usize, Interrupted> {
        let mut length = None;
        loop {
            let mut line = String::new();
            if self.from_server.read_line(&mut line).await? == 0 {
                return Err(Interrupted("the server has hung up".to_owned()));
            }
            match (line.trim(), length) {
                ("", Some(length)) => return Ok(length),
                (header, _) => length = length_in(header).or(length),
            }
        }
    }
}

fn length_in(header: &str) -> Option<usize> {
    header.strip_prefix(LENGTH)?.trim().parse().ok()
}
