//! Who may look at the page: a browser on this machine that knows its address, and no other page in
//! it. Knows requests, not what is asked for.

use std::fmt::{self, Write};

use hyper::header::{HOST, HeaderMap, HeaderName, ORIGIN};
use hyper::{Method, Request, StatusCode};

/// The address of the page: the port, and a word that cannot be guessed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Address {
    port: u16,
    token: String,
}

/// A request that was let in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Admitted<'a> {
    /// Whether something is to be done, not only told.
    pub changes: bool,
    /// What is asked for, as a path below the page.
    pub path: &'a str,
    /// What follows a question mark.
    pub query: &'a str,
}

impl Address {
    /// An address with a fresh word of 128 random bits; none if the system has no randomness.
    pub fn new(port: u16) -> Option<Self> {
        let mut bytes = [0_u8; 16];
        getrandom::fill(&mut bytes).ok()?;
        let token = bytes.iter().fold(String::new(), |mut token, byte| {
            let _ = write!(token, "{byte:02x}");
            token
        });
        Some(Self { port, token })
    }

    /// A request that may be answered; or why it is refused. Who wants something done has to say which
    /// page asks for it, as browsers do.
    pub(super) fn admit<'a, B>(&self, request: &'a Request<B>) -> Result<Admitted<'a>, StatusCode> {
        let changes = match *request.method() {
            Method::GET => false,
            Method::POST => true,
            _ => return Err(StatusCode::METHOD_NOT_ALLOWED),
        };
        let host = only(request.headers(), &HOST).filter(|host| is_here(host));
        let Some(host) = host else { return Err(StatusCode::FORBIDDEN) };
        let is_ours = only(request.headers(), &ORIGIN) == Some(&format!("http://{host}"));
        if !is_ours && (changes || request.headers().contains_key(ORIGIN)) {
            return Err(StatusCode::FORBIDDEN);
        }
        let path = request.uri().path().strip_prefix('/').unwrap_or_default();
        let (token, path) = path.split_once('/').ok_or(StatusCode::NOT_FOUND)?;
        if !self.is_known(token) {
            return Err(StatusCode::NOT_FOUND);
        }
        Ok(Admitted { changes, path, query: request.uri().query().unwrap_or_default() })
    }

    /// Compares without telling by its time how much of the word is right.
    fn is_known(&self, token: &str) -> bool {
        let differs = |(a, b): (u8, u8)| a ^ b;
        let pairs = token.bytes().zip(self.token.bytes());
        token.len() == self.token.len() && pairs.map(differs).fold(0, |all, it| all | it) == 0
    }
}

impl fmt::Display for Address {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "http://127.0.0.1:{}/{}/", self.port, self.token)
    }
}

/// Whether a host is this machine. Its port may be another than ours: editors that run elsewhere hand
/// ports on. Names that somebody else may have led here are refused.
fn is_here(host: &str) -> bool {
    let port = host.rsplit_once(':').filter(|(name, _)| ["127.0.0.1", "localhost"].contains(name));
    port.is_some_and(|(_, port)| port.parse::<u16>().is_ok())
}

/// The value of a header that is there once.
fn only<'a>(headers: &'a HeaderMap, name: &HeaderName) -> Option<&'a str> {
    let mut values = headers.get_all(name).iter();
    let value = values.next().and_then(|value| value.to_str().ok());
    value.filter(|_| values.next().is_none())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(path: &str, headers: &[(&str, &str)]) -> Result<String, u16> {
        asked_by(Method::GET, path, headers)
    }

    fn asked_by(method: Method, path: &str, headers: &[(&str, &str)]) -> Result<String, u16> {
        let address = Address { port: 80, token: "abc".to_owned() };
        let mut request = Request::builder().method(method).uri(path);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let request = request.body(()).expect("a request");
        address.admit(&request).map(|it| it.path.to_owned()).map_err(|status| status.as_u16())
    }

    const HERE: (&str, &str) = ("host", "127.0.0.1:80");

    #[test]
    fn only_who_knows_the_address_is_let_in() {
        assert_eq!(asked("/abc/main.js", &[HERE]), Ok("main.js".to_owned()));
        assert_eq!(asked("/abc/", &[("host", "localhost:80")]), Ok(String::new()));
        for path in ["/", "/abc", "/abd/", "/ab/", "/abcd/", "//abc/"] {
            assert_eq!(asked(path, &[HERE]), Err(404), "{path}");
        }
    }

    #[test]
    fn other_hosts_and_origins_are_refused() {
        assert_eq!(asked("/abc/", &[]), Err(403));
        assert_eq!(asked("/abc/", &[("host", "example.org")]), Err(403));
        for host in ["127.0.0.1", "127.0.0.1:", "127.0.0.1:80.example.org", "127.0.0.1.example:80"]
        {
            assert_eq!(asked("/abc/", &[("host", host)]), Err(403), "{host}");
        }
        let forwarded = [("host", "localhost:81"), ("origin", "http://localhost:81")];
        assert_eq!(asked("/abc/", &forwarded), Ok(String::new()));
        assert_eq!(asked("/abc/", &[HERE, HERE]), Err(403));
        assert_eq!(asked("/abc/", &[HERE, ("origin", "http://127.0.0.1:80")]), Ok(String::new()));
        for origin in ["null", "http://example.org", "https://127.0.0.1:80", "http://127.0.0.1:81"]
        {
            assert_eq!(asked("/abc/", &[HERE, ("origin", origin)]), Err(403), "{origin}");
        }
    }

    #[test]
    fn who_wants_something_done_has_to_say_which_page_asks() {
        let asked = |headers: &[_]| asked_by(Method::POST, "/abc/write", headers);
        assert_eq!(asked(&[HERE, ("origin", "http://127.0.0.1:80")]), Ok("write".to_owned()));
        assert_eq!(asked(&[HERE]), Err(403));
        assert_eq!(asked(&[HERE, ("origin", "http://localhost:80")]), Err(403));
        assert_eq!(asked_by(Method::PUT, "/abc/write", &[HERE]), Err(405));
    }
}
