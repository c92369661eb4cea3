//! The one binary. It must know nothing but which part of the library answers which command.

use std::process::ExitCode;

fn main() -> ExitCode {
    match std::env::args().nth(1).as_deref() {
        Some("lsp") => bicinium::lsp::run(),
        _ => ExitCode::from(2),
    }
}
