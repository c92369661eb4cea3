//! Somebody who speaks HTTP by hand.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

/// A connection.
pub struct Guest {
    pub stream: TcpStream,
}

/// What was answered.
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: String,
}

impl Guest {
    pub fn at(port: u16) -> Self {
        let stream = TcpStream::connect(("127.0.0.1", port)).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        Self { stream }
    }
}

/// Asks with a head, to which only its end is added.
pub fn asked(port: u16, head: &str) -> Answer {
    try_asked(port, head).unwrap()
}

/// The same, or nothing if the server does not answer.
pub fn try_asked(port: u16, head: &str) -> Option<Answer> {
    let mut guest = Guest::at(port);
    write!(guest.stream, "{head}\r\nConnection: close\r\n\r\n").ok()?;
    let mut bytes = Vec::new();
    guest.stream.read_to_end(&mut bytes).ok()?;
    let text = String::from_utf8(bytes).ok()?;
    let (head, body) = text.split_once("\r\n\r\n")?;
    let status = head.split(' ').nth(1)?.parse().ok()?;
    Some(Answer { status, head: head.to_owned(), body: body.to_owned() })
}

/// Somebody who waits for new editions.
pub struct News(pub BufReader<TcpStream>);

impl News {
    /// The number of the next edition.
    pub fn next(&mut self) -> String {
        loop {
            let mut line = String::new();
            assert!(self.0.read_line(&mut line).unwrap() > 0, "the server has closed");
            if let Some(number) = line.strip_prefix("data: ") {
                return number.trim().to_owned();
            }
        }
    }
}
