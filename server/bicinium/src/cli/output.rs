//! The one writer: what goes to standard output, and what has to be said beside it on standard
//! error. Colours are left out where they would not be seen. It must not know what is said.

use std::io::{self, StdoutLock, Write};

use anstream::AutoStream;

use super::words::shown;

/// Where the command line prints.
pub(super) struct Output {
    out: AutoStream<StdoutLock<'static>>,
}

impl Output {
    /// Standard output, for this process alone.
    pub(super) fn new() -> Self {
        Output { out: anstream::stdout().lock() }
    }

    /// Writes text as it is.
    pub(super) fn write(&mut self, text: &str) -> io::Result<()> {
        self.out.write_all(text.as_bytes())
    }

    /// Writes a line.
    pub(super) fn line(&mut self, text: &str) -> io::Result<()> {
        writeln!(self.out, "{text}")
    }

    /// Hands on what has been written so far.
    pub(super) fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }

    /// Says on standard error what could not be done.
    pub(super) fn complain(&mut self, message: &str) {
        // What was found before comes first; if that fails, the next write tells.
        let _ = self.flush();
        // There is no other place to say that this failed.
        let _ = writeln!(anstream::stderr(), "bicinium: {}", shown(message));
    }
}
