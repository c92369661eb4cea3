//! The same program, but for one thing: a comment in a sheet can have it break, so that what this costs can be tried. It
//! is built for a test and for nobody else.

use std::process::ExitCode;

fn main() -> ExitCode {
    bicinium::cli::run()
}
