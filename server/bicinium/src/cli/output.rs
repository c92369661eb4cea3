//! The one writer: what goes to standard output, and what has to be said beside it on standard
//! error. Colours are left out where they would not be seen. It must not know what is said.

use std::io::{self, BufWriter, IsTerminal, StdoutLock, Write};

use anstream::adapter::strip_str;
use anstream::{AutoStream, ColorChoice};

use super::words::shown;

/// So many bytes are handed on at once where nobody watches.
const TOGETHER: usize = 64 * 1024;

/// Where the command line prints.
pub(super) enum Output {
    /// Every line as it comes, with colours if they are seen.
    Watched(AutoStream<StdoutLock<'static>>),
    /// Many lines at once, without.
    Plain(BufWriter<StdoutLock<'static>>),
}

impl Output {
    /// Standard output, for this process alone.
    pub(super) fn new() -> Self {
        let has_colours = AutoStream::choice(&io::stdout()) != ColorChoice::Never;
        if has_colours || io::stdout().is_terminal() {
            return Self::Watched(anstream::stdout().lock());
        }
        Self::Plain(BufWriter::with_capacity(TOGETHER, io::stdout().lock()))
    }

    /// Writes text as it is.
    pub(super) fn write(&mut self, text: &str) -> io::Result<()> {
        match self {
            Self::Watched(out) => out.write_all(text.as_bytes()),
            Self::Plain(out) => write!(out, "{}", strip_str(text)),
        }
    }

    /// Writes a line.
    pub(super) fn line(&mut self, text: &str) -> io::Result<()> {
        self.write(text)?;
        self.write("\n")
    }

    /// Hands on what has been written so far.
    pub(super) fn flush(&mut self) -> io::Result<()> {
        match self {
            Self::Watched(out) => out.flush(),
            Self::Plain(out) => out.flush(),
        }
    }

    /// Says on standard error what could not be done.
    pub(super) fn complain(&mut self, message: &str) {
        // What was found before comes first; if that fails, the next write tells.
        let _ = self.flush();
        // There is no other place to say that this failed.
        let _ = writeln!(anstream::stderr(), "bicinium: {}", shown(message));
    }
}
