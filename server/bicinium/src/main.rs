//! The one binary. It must know nothing but where the command line begins.

use std::process::ExitCode;

fn main() -> ExitCode {
    bicinium::cli::run()
}
