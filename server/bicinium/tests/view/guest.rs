//! Somebody who speaks HTTP by hand, and knows the address of a page.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

use serde_json::Value;

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

/// A page that is served somewhere.
#[derive(Clone)]
pub struct Page {
    pub port: u16,
    pub token: String,
}

impl Page {
    /// The page at an address that a server has told.
    pub fn at(address: &str) -> Self {
        let address = address.trim().strip_prefix("http://127.0.0.1:").unwrap();
        let (port, token) = address.trim_end_matches('/').split_once('/').unwrap();
        Self { port: port.parse().unwrap(), token: token.to_owned() }
    }

    /// Its address.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/{}/", self.port, self.token)
    }

    fn head(&self, method: &str, path: &str) -> String {
        format!("{method} /{}/{path} HTTP/1.1\r\nHost: 127.0.0.1:{}", self.token, self.port)
    }

    pub fn ask(&self, path: &str) -> Answer {
        asked(self.port, &self.head("GET", path))
    }

    pub fn try_ask(&self, path: &str) -> Option<Answer> {
        try_asked(self.port, &self.head("GET", path))
    }

    /// The data behind a path.
    pub fn data(&self, path: &str) -> Value {
        serde_json::from_str(&self.ask(path).body).unwrap()
    }

    /// Wants something done, as the page itself does.
    pub fn post(&self, path: &str) -> Answer {
        let origin = format!("Origin: http://127.0.0.1:{}", self.port);
        asked(self.port, &format!("{}\r\n{origin}", self.head("POST", path)))
    }

    /// Waits for news.
    pub fn listen(&self) -> News {
        let mut guest = Guest::at(self.port);
        write!(guest.stream, "{}\r\n\r\n", self.head("GET", "events")).unwrap();
        News(BufReader::new(guest.stream))
    }
}

/// Somebody who waits for news.
pub struct News(BufReader<TcpStream>);

impl News {
    /// What is told next: the number of an edition, or a place as data.
    pub fn next(&mut self) -> String {
        loop {
            let mut line = String::new();
            assert!(self.0.read_line(&mut line).unwrap() > 0, "the server has closed");
            if let Some(told) = line.strip_prefix("data: ") {
                return told.trim().to_owned();
            }
        }
    }
}
