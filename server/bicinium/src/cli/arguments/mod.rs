//! The arguments of the command line, with their help. It must not know what is done with them.

mod check;
mod compare;
mod compose_cantus;
mod export;
mod format;
mod import;
mod lsp;
mod mark;
mod new;
mod reach;
mod realize;
mod rules;
mod sound;
mod view;
mod which;
mod within;

use clap::{Parser, Subcommand};

pub(super) use check::{Check, Report};
pub(super) use compare::Compare;
pub(super) use compose_cantus::ComposeCantus;
pub(super) use export::{ClefsIn, Export, PaperIn, Shown};
pub(super) use format::Format;
pub(super) use import::Import;
pub(super) use lsp::{Lsp, Replay};
pub(super) use mark::{Mark, Marks};
pub(super) use new::New;
pub(super) use reach::Reach;
pub(super) use realize::{Realize, Telling};
pub(super) use rules::{Explain, Rules};
pub(super) use sound::Sound;
pub(super) use view::View;
pub(super) use which::Which;

/// Reads two-voice exercises in strict counterpoint and says what is wrong in them, where, why,
/// and what would mend it
#[derive(Debug, Parser)]
#[command(name = "bicinium", version, max_term_width = 80, after_help = FIRST_STEPS)]
#[command(disable_help_subcommand = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) command: Command,
}

const FIRST_STEPS: &str = "\
New here? `bicinium tour` marks a short exercise before your eyes and mends it. \
`bicinium COMMAND --help` tells more about a command.";

/// What can be asked for.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Mark exercises: say what is wrong, in which bar, and why
    ///
    /// Every finding is shown with its reason below the line it is written in. A fault is wrong
    /// in the school in force, a caution is wrong unless there is a reason, advice is a matter of
    /// taste. What a licence in the sheet accepts is shown with its reason and not counted.
    #[command(after_long_help = check::EXIT)]
    Check(Check),
    /// Lay out sheets: barlines and simultaneous notes below each other
    ///
    /// The music, the comments and the blank lines stay as they are. A sheet is written only if
    /// its layout changes.
    #[command(after_long_help = format::EXIT)]
    Format(Format),
    /// Find what can still be written: fill holes and blank bars, and count the ways
    ///
    /// Every way that is told leaves no fault under the rulebook in force; the best are those of
    /// least resistance. Blank bars take the rhythm of their species. Without options the ways are
    /// counted and the best one is shown. Nothing is written into the sheet unless --write is given.
    #[command(after_long_help = realize::EXIT)]
    Realize(Realize),
    /// Say in words what changed between two versions of a sheet
    ///
    /// Bar by bar: which notes became which, and which findings are gone or new. Layout and comments
    /// are no change. Fit for git, as a driver for differences, as a tool to look at them, and, with one
    /// version, as what turns a sheet into text.
    #[command(after_long_help = compare::EXIT)]
    Compare(Compare),
    /// Mark what was handed in for an assignment: points, faults, and what was done well
    ///
    /// Every exercise is marked by the rulebook that the assignment sets, whatever the hand-in names.
    /// Nothing is written into the sheets. A sheet that cannot be read is told, and all others are
    /// marked.
    #[command(after_long_help = mark::EXIT)]
    Mark(Mark),
    /// Begin a sheet: a cantus with blank bars against it, or what an assignment sets
    ///
    /// From an assignment, the sheet is a copy under your name, with every cantus written out and
    /// blank bars where nothing stands yet. Without --output it is printed.
    #[command(after_long_help = new::EXIT)]
    New(New),
    /// Compose a cantus firmus and say how hard it is to write against
    ///
    /// The cantus keeps all rules for one: it begins and ends on the tonic, closes by step, has one
    /// high point, and so on (`bicinium rules` lists them under `cantus` and `line`). It is
    /// written as a sheet, with the number of counterpoints that it has without a fault, species by
    /// species, above it and below. The same options give the same cantus.
    #[command(after_long_help = compose_cantus::EXIT)]
    ComposeCantus(ComposeCantus),
    /// Explain a rule: what it finds, why it matters, an example and the same example mended
    Explain(Explain),
    /// Write exercises as pages, pictures, scores, MIDI files, sound or words
    ///
    /// The ending of the file's name says which: .pdf pages to print, .svg and .png a picture, .musicxml
    /// a score for notation programs, .mid a MIDI file, .wav sound, .txt the music in words. A hole is
    /// drawn as an open mark with its length above, and is a rest with a question mark in a score for
    /// other programs; a bar that is not yet written is an empty one.
    #[command(after_long_help = export::EXIT)]
    Export(Export),
    /// Show a sheet as a score in a browser, to look at, to listen to and to print
    ///
    /// An address is printed; open it in a browser on this machine. The page follows the file, so that
    /// the score changes whenever the sheet is saved. Nobody else can see it, and it is gone when the
    /// command is ended.
    View(View),
    /// Write a two-part score of another program (.musicxml, .mxl) as a sheet
    ///
    /// The first two parts become the voices. Whatever a sheet cannot say is told with its part and
    /// bar; a bar whose rhythm it cannot say is left blank.
    #[command(after_long_help = import::EXIT)]
    Import(Import),
    /// List the rules, their levels, and the questions on which schools disagree
    ///
    /// Without options: every rule, with its level in each rulebook. A school's own rulebook can
    /// be set beside those that are built in, with what it changes told in sentences; and all of
    /// it can be written as pages, to print or to put on a server.
    Rules(Rules),
    /// See the whole work once: a short exercise is marked, explained and mended
    Tour,
    /// Serve an editor over standard input and output
    Lsp(Lsp),
    /// Play a recorded session again and say whether the answers are the same
    ///
    /// A session is recorded by `bicinium lsp --record FILE`. What the editor said is said again
    /// to a new server, in the same order; what the server answers is held against what it answered
    /// then, and what it showed of each sheet against what it showed then. Sheets and rulebooks that
    /// were not open in the editor are not in the recording: they are read from disk as they are now.
    #[command(after_long_help = lsp::EXIT)]
    Replay(Replay),
}
