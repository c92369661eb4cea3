//! The command line: what the binary does when a person starts it.
//!
//! The only place that prints, and through one writer. It must not judge music itself, and it
//! must not know the protocol of editors beyond starting the server.

mod arguments;
mod broken;
mod check;
mod compare;
mod compose_cantus;
mod crew;
mod desk;
mod explain;
mod export;
mod files;
mod format;
mod import;
mod lines;
mod mark;
mod marked;
mod new;
mod output;
mod picture;
mod progress;
mod realize;
mod recorded;
mod replay;
mod rules;
mod school;
mod sources;
mod style;
mod switches;
mod telling;
mod tour;
mod view;
mod words;

use std::io;
use std::process::ExitCode;

use clap::Parser;

use self::arguments::{Arguments, Command};
use self::output::Output;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Outcome {
    /// It ran, and nothing is wrong.
    Clean,
    /// It ran, and something is wrong.
    Faults,
    /// It could not do all that it was asked to.
    Failed,
}

/// Does what the arguments of the process ask for. Returns 0 if nothing is wrong, 1 if something
/// is, 2 if it could not be done.
pub fn run() -> ExitCode {
    match Arguments::try_parse() {
        Ok(Arguments { command: Command::Lsp(options) }) => recorded::serve(&options),
        Ok(arguments) => obey(arguments.command),
        Err(error) => refuse(&error),
    }
}

/// Prints the help that was asked for, or what is wrong with the arguments.
fn refuse(error: &clap::Error) -> ExitCode {
    // Nobody is left to be told that nothing can be told.
    let _ = error.print();
    u8::try_from(error.exit_code()).map_or(ExitCode::FAILURE, ExitCode::from)
}

fn obey(command: Command) -> ExitCode {
    let mut output = Output::new();
    let done = carry_out(command, &mut output).and_then(|outcome| {
        output.flush()?;
        Ok(outcome)
    });
    match done {
        Ok(outcome) => exit_code(outcome),
        // The reader has seen enough.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(error) => {
            output.complain(&format!("What was found cannot be written: {error}."));
            exit_code(Outcome::Failed)
        }
    }
}

fn carry_out(command: Command, output: &mut Output) -> io::Result<Outcome> {
    match command {
        Command::Check(options) => check::run(&options, output),
        Command::Format(options) => format::run(&options, output),
        Command::Explain(options) => explain::run(&options, output),
        Command::ComposeCantus(options) => compose_cantus::run(&options, output),
        Command::Realize(options) => realize::run(&options, output),
        Command::Compare(options) => compare::run(&options, output),
        Command::Mark(options) => mark::run(&options, output),
        Command::New(options) => new::run(&options, output),
        Command::Import(options) => import::run(&options, output),
        Command::Export(options) => export::run(&options, output),
        Command::View(options) => view::run(&options, output),
        Command::Rules(options) => rules::run(&options, output),
        Command::Tour => tour::run(output),
        Command::Replay(options) => replay::run(&options, output),
        Command::Lsp(_) => Ok(Outcome::Clean),
    }
}

fn exit_code(outcome: Outcome) -> ExitCode {
    ExitCode::from(match outcome {
        Outcome::Clean => 0,
        Outcome::Faults => 1,
        Outcome::Failed => 2,
    })
}
