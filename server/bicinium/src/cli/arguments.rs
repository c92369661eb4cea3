//! The arguments of the command line, with their help. It must not know what is done with them.

use std::path::PathBuf;

use bicinium_analysis::Level;
use bicinium_theory::{Mode, Pitch, PitchClass, Register};
use clap::{Args, Parser, Subcommand, ValueEnum};

use super::words::list;

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
    #[command(after_long_help = CHECK_EXIT)]
    Check(Check),
    /// Lay out sheets: barlines and simultaneous notes below each other
    ///
    /// The music, the comments and the blank lines stay as they are. A sheet is written only if
    /// its layout changes.
    #[command(after_long_help = FORMAT_EXIT)]
    Format(Format),
    /// Find what can still be written: fill holes and blank bars, and count the ways
    ///
    /// Every way that is told leaves no fault under the rulebook in force; the best are those of
    /// least resistance. Blank bars take the rhythm of their species. Without options the ways are
    /// counted and the best one is shown. Nothing is written into the sheet unless --write is given.
    #[command(after_long_help = REALIZE_EXIT)]
    Realize(Realize),
    /// Say in words what changed between two versions of a sheet
    ///
    /// Bar by bar: which notes became which, and which findings are gone or new. Layout and comments
    /// are no change. Fit for git, as a driver for differences and as a tool to look at them.
    #[command(after_long_help = COMPARE_EXIT)]
    Compare(Compare),
    /// Mark what was handed in for an assignment: points, faults, and what was done well
    ///
    /// Every exercise is marked by the rulebook that the assignment sets, whatever the hand-in names.
    /// Nothing is written into the sheets. A sheet that cannot be read is told, and all others are
    /// marked.
    #[command(after_long_help = MARK_EXIT)]
    Mark(Mark),
    /// Begin a sheet: a cantus with blank bars against it, or what an assignment sets
    ///
    /// From an assignment, the sheet is a copy under your name, with every cantus written out and
    /// blank bars where nothing stands yet. Without --output it is printed.
    #[command(after_long_help = NEW_EXIT)]
    New(New),
    /// Compose a cantus firmus and say how hard it is to write against
    ///
    /// The cantus keeps all rules for one: it begins and ends on the tonic, closes by step, has one
    /// high point, and so on (`bicinium rules` lists them under `cantus` and `line`). It is
    /// written as a sheet, with the number of counterpoints that it has without a fault, species by
    /// species, above it and below. The same options give the same cantus.
    #[command(after_long_help = COMPOSE_EXIT)]
    ComposeCantus(ComposeCantus),
    /// Explain a rule: what it finds, why it matters, an example and the same example mended
    Explain(Explain),
    /// Write exercises as pages, pictures, scores, MIDI files or words
    ///
    /// The ending of the file's name says which: .pdf pages to print, .svg and .png a picture, .musicxml
    /// a score for notation programs, .mid a MIDI file, .txt the music in words. A hole is drawn as an
    /// open mark with its length above, and is a rest with a question mark in a score for other
    /// programs; a bar that is not yet written is an empty one.
    #[command(after_long_help = EXPORT_EXIT)]
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
    #[command(after_long_help = IMPORT_EXIT)]
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
    #[command(after_long_help = REPLAY_EXIT)]
    Replay(Replay),
}

const REPLAY_EXIT: &str = "\
Exit code: 0 if all answers are the same, 1 if some differ, 2 if the recording cannot be played.";

const COMPARE_EXIT: &str = "\
Exit code: 0 if both versions have been compared, whether or not they differ; 2 if one could not be \
read.";

const MARK_EXIT: &str = "\
Exit code: 0 if everything has been marked, 2 if something could not be, or if nothing could be \
written.";

const NEW_EXIT: &str = "\
Exit code: 0 if the sheet has been written, 2 if it has not.";

const EXPORT_EXIT: &str = "\
Exit code: 0 if the file has been written, 2 if it has not.";

const IMPORT_EXIT: &str = "\
Exit code: 0 if all of the score stands in the sheet, 1 if something is left out or changed, 2 if \
it could not be read or written.";

const CHECK_EXIT: &str = "\
Exit code: 0 if no fault was found, 1 if there are faults or notation that cannot be read, 2 if \
something could not be done, such as opening a sheet.";

const REALIZE_EXIT: &str = "\
Exit code: 0 if there is a way, 1 if there is none or the notation cannot be read, 2 if \
something could not be done, such as opening the sheet.";

const COMPOSE_EXIT: &str = "\
Exit code: 0 if the cantus has been written, 1 if there is none, 2 if something could not be done, \
such as writing the file.";

const FORMAT_EXIT: &str = "\
Exit code: 0 if all is done, 1 if --check finds a sheet with another layout, 2 if \
something could not be done, such as opening a sheet.";

#[derive(Debug, Args)]
pub(super) struct Check {
    /// Sheets, and folders that are searched for sheets
    ///
    /// A folder is searched with everything in it for files whose names end in `.bicinium`; hidden
    /// ones and those that a .gitignore file leaves out are passed over. `-` stands for standard
    /// input. If nothing is named, the folder you are in is searched.
    #[arg(value_name = "PATHS")]
    pub(super) paths: Vec<PathBuf>,
    /// Mark by this rulebook, whatever the sheets name: `tonal`, `modal`, a name or a file
    ///
    /// Everything is marked by this one school's rules: where a sheet names no rulebook, and also
    /// where it names another. The rulebook of a name is the file NAME.rulebook.toml in the
    /// current folder or the nearest one above it. If something is wrong in it, that is told, and
    /// nothing is marked.
    #[arg(long, value_name = "RULEBOOK")]
    pub(super) rulebook: Option<String>,
    /// Mark only what has changed since this revision, as git knows it
    ///
    /// That is what differs from the revision or is not in it, and what uses a sheet or a rulebook that
    /// does.
    #[arg(long, value_name = "REV")]
    pub(super) changed_since: Option<String>,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Report::Text, value_name = "FORMAT")]
    pub(super) format: Report,
    /// Show findings of this level and graver ones
    ///
    /// What is hidden by it is counted in the last line all the same.
    #[arg(long, value_enum, default_value_t = Threshold::Unfinished, value_name = "LEVEL")]
    pub(super) level: Threshold,
}

/// How findings are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Report {
    /// For people: each finding below the line it is written in
    Text,
    /// One list of all findings, for other programs
    Json,
    /// SARIF 2.1.0, for programs that collect findings
    Sarif,
}

/// The mildest level that is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Threshold {
    /// Text that cannot be read as music
    Notation,
    /// Wrong in the school in force
    Fault,
    /// Wrong unless there is a reason
    Caution,
    /// A matter of taste
    Advice,
    /// Not there yet
    Unfinished,
}

impl Threshold {
    /// The level itself.
    pub(super) fn level(self) -> Level {
        match self {
            Self::Notation => Level::Notation,
            Self::Fault => Level::Fault,
            Self::Caution => Level::Caution,
            Self::Advice => Level::Advice,
            Self::Unfinished => Level::Unfinished,
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct Format {
    /// Sheets, and folders that are searched for sheets
    ///
    /// `-` reads standard input and writes the result to standard output. If nothing is named, the
    /// folder you are in is searched.
    #[arg(value_name = "PATHS")]
    pub(super) paths: Vec<PathBuf>,
    /// Write nothing; name the sheets whose layout would change
    #[arg(long)]
    pub(super) check: bool,
}

#[derive(Debug, Args)]
pub(super) struct Realize {
    /// The sheet; `-` stands for standard input
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// Take this exercise only, counted from 1; otherwise every one in which something is open
    #[arg(long, value_name = "N")]
    pub(super) exercise: Option<usize>,
    /// Say how many ways there are
    #[arg(long, group = "question")]
    pub(super) count: bool,
    /// Show the K best ways
    #[arg(long, value_name = "K", group = "question")]
    pub(super) best: Option<usize>,
    /// Show N ways, drawn with equal chances from all
    #[arg(long, value_name = "N", group = "question")]
    pub(super) sample: Option<usize>,
    /// Draw the same ways whenever this number is given
    #[arg(long, value_name = "S", requires = "sample", default_value_t = 1)]
    pub(super) seed: u64,
    /// Show what every open place may still become
    #[arg(long, group = "question")]
    pub(super) viable: bool,
    /// Write the way into the sheet: the best one, or the one that is drawn
    #[arg(long, conflicts_with_all = ["count", "viable"])]
    pub(super) write: bool,
    /// Search no longer than this for each exercise
    #[arg(long, value_name = "SECONDS", default_value_t = 60)]
    pub(super) time: u64,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Telling::Text, value_name = "FORMAT")]
    pub(super) format: Telling,
}

/// How ways are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Telling {
    /// For people: rows as they would stand in the sheet
    Text,
    /// One value for other programs
    Json,
}

#[derive(Debug, Args)]
pub(super) struct Compare {
    /// The older version; `-` stands for standard input
    #[arg(value_name = "OLD")]
    pub(super) old: PathBuf,
    /// The newer version
    #[arg(value_name = "NEW")]
    pub(super) new: PathBuf,
    /// Where the sheet itself lies, if the versions lie elsewhere: what it uses is looked for there
    #[arg(long, value_name = "SHEET")]
    pub(super) name: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(super) struct Mark {
    /// Sheets that were handed in, and folders that are searched for such sheets
    #[arg(value_name = "HAND-INS", required = true)]
    pub(super) hand_ins: Vec<PathBuf>,
    /// The sheet that sets the exercises
    ///
    /// An exercise answers the one of its title, or else the one of its number.
    #[arg(long, value_name = "ASSIGNMENT")]
    pub(super) against: PathBuf,
    /// What is taken off and given; without it, a point for each fault and half a one for each
    /// caution
    #[arg(long, value_name = "RUBRIC.toml")]
    pub(super) rubric: Option<PathBuf>,
    /// How to tell the marks
    #[arg(long, value_enum, default_value_t = Marks::Table, value_name = "FORMAT")]
    pub(super) format: Marks,
    /// The file to write; without it, the marks are printed
    #[arg(short, long, value_name = "OUT")]
    pub(super) output: Option<PathBuf>,
    /// Put numbers in the place of names
    #[arg(long)]
    pub(super) anonymous: bool,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(super) force: bool,
}

/// How marks are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Marks {
    /// For people: a line for each student
    Table,
    /// One page with the class and every sheet, for a browser or a printer
    Html,
    /// A line for each student and exercise, for a spreadsheet
    Csv,
    /// All of it, for other programs
    Json,
}

#[derive(Debug, Args)]
pub(super) struct New {
    /// Take the exercises that this sheet sets; `-` reads standard input
    #[arg(long, value_name = "ASSIGNMENT", required_unless_present = "cantus")]
    pub(super) from: Option<PathBuf>,
    /// Take this cantus: fux-dorian, fux-phrygian, fux-lydian, fux-mixolydian, fux-aeolian,
    /// fux-ionian, lehmann-6, lehmann-17, lehmann-62 or lehmann-78
    #[arg(long, value_name = "NAME", conflicts_with = "from")]
    pub(super) cantus: Option<String>,
    /// The species, 1 to 5; left out, the exercise is free writing
    #[arg(long, value_name = "N", conflicts_with = "from")]
    #[arg(value_parser = clap::value_parser!(u8).range(1..=5))]
    pub(super) species: Option<u8>,
    /// Write above the cantus; this is so if nothing is said
    #[arg(long, conflicts_with_all = ["from", "below"])]
    pub(super) above: bool,
    /// Write below the cantus
    #[arg(long, conflicts_with = "from")]
    pub(super) below: bool,
    /// Who is going to write it
    #[arg(long, value_name = "NAME")]
    pub(super) by: Option<String>,
    /// The sheet to write
    #[arg(short, long, value_name = "FILE")]
    pub(super) output: Option<PathBuf>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(super) force: bool,
}

#[derive(Debug, Args)]
pub(super) struct ComposeCantus {
    /// The mode: major, minor, ionian, dorian, phrygian, lydian, mixolydian or aeolian
    #[arg(long, value_name = "MODE", value_parser = mode)]
    pub(super) mode: Mode,
    /// How many notes it has
    #[arg(long, value_name = "N", default_value_t = 10)]
    #[arg(value_parser = clap::value_parser!(u8).range(1..=32))]
    pub(super) length: u8,
    /// Another number gives another cantus
    #[arg(long, value_name = "S", default_value_t = 1)]
    pub(super) seed: u64,
    /// The tonic, such as D or Bb; without it the one whose scale has no accidentals
    #[arg(long, value_name = "NOTE", value_parser = tonic)]
    pub(super) tonic: Option<PitchClass>,
    /// Who sings it: soprano, mezzo, alto, tenor, baritone or bass
    #[arg(long, value_name = "VOICE", default_value = "alto", value_parser = voice)]
    pub(super) voice: Register,
    /// No note is lower than this, such as D4
    #[arg(long, value_name = "NOTE", value_parser = pitch)]
    pub(super) lowest: Option<Pitch>,
    /// No note is higher than this
    #[arg(long, value_name = "NOTE", value_parser = pitch)]
    pub(super) highest: Option<Pitch>,
    /// Compose and count by this rulebook: `tonal`, `modal`, a name or a file
    #[arg(long, value_name = "RULEBOOK", default_value = "modal")]
    pub(super) rulebook: String,
    /// Count what can be written against it in these species only, such as 1,2
    #[arg(long, value_name = "SPECIES", value_delimiter = ',', default_values_t = [1, 2, 3, 4, 5])]
    #[arg(value_parser = clap::value_parser!(u8).range(1..=5))]
    pub(super) species: Vec<u8>,
    /// Do not count what can be written against it
    #[arg(long)]
    pub(super) no_count: bool,
    /// Search no longer than this for the cantus and for each count
    #[arg(long, value_name = "SECONDS", default_value_t = 10)]
    pub(super) time: u64,
    /// Write the sheet into this file instead of showing it
    #[arg(short, long, value_name = "FILE")]
    pub(super) output: Option<PathBuf>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(super) force: bool,
}

fn mode(text: &str) -> Result<Mode, String> {
    text.to_ascii_lowercase().parse().map_err(|_| {
        let names: Vec<_> = Mode::ALL.map(|mode| mode.name().to_owned()).to_vec();
        format!("the modes are {}", list(&names))
    })
}

fn voice(text: &str) -> Result<Register, String> {
    text.to_ascii_lowercase().parse().map_err(|_| {
        let names: Vec<_> = Register::ALL.map(|voice| voice.name().to_owned()).to_vec();
        format!("the voices are {}", list(&names))
    })
}

fn tonic(text: &str) -> Result<PitchClass, String> {
    text.parse().map_err(|_| "a tonic is a letter from A to G, with # or b if need be".to_owned())
}

fn pitch(text: &str) -> Result<Pitch, String> {
    text.parse().map_err(|_| "a note is a letter, # or b if need be, and an octave: F#3".to_owned())
}

#[derive(Debug, Args)]
pub(super) struct Explain {
    /// The name of the rule, as findings and `bicinium rules` give it
    #[arg(value_name = "RULE")]
    pub(super) rule: String,
}

#[derive(Debug, Args)]
pub(super) struct Export {
    /// The sheet; `-` reads standard input
    #[arg(value_name = "SHEET")]
    pub(super) sheet: PathBuf,
    /// The file to write; its name ends in `.pdf`, `.svg`, `.png`, `.musicxml`, `.mid`, `.wav` or
    /// `.txt`
    #[arg(short, long, value_name = "FILE")]
    pub(super) output: PathBuf,
    /// Which exercise, counted from 1
    ///
    /// Pictures, pages and words hold all exercises if none is chosen. A score for notation programs
    /// a MIDI file or sound hold one, which has to be chosen if the sheet has several.
    #[arg(long, value_name = "NUMBER")]
    pub(super) exercise: Option<usize>,
    /// What is shown beside the notes
    #[arg(long, value_enum, value_delimiter = ',', value_name = "WHAT")]
    #[arg(default_values_t = [Shown::Figures, Shown::Harmonies])]
    pub(super) show: Vec<Shown>,
    /// How fast MIDI and sound are played, in beats of the meter per minute
    #[arg(long, default_value_t = 60, value_parser = clap::value_parser!(u16).range(10..=400))]
    pub(super) tempo: u16,
    #[command(flatten)]
    pub(super) sound: Sound,
    /// The paper of a PDF
    #[arg(long, value_enum, default_value_t = PaperIn::A4)]
    pub(super) paper: PaperIn,
    /// How wide an SVG or a PNG is, in millimetres
    #[arg(long, value_name = "MM", default_value_t = 180, value_parser = clap::value_parser!(u16).range(60..=1000))]
    pub(super) width: u16,
    /// How many dots of a PNG make an inch
    #[arg(long, value_name = "DOTS", default_value_t = 200, value_parser = clap::value_parser!(u16).range(40..=1200))]
    pub(super) dpi: u16,
    /// The clefs of pictures and pages
    #[arg(long, value_enum, default_value_t = ClefsIn::Modern)]
    pub(super) clefs: ClefsIn,
    /// Replace a file that is there already
    #[arg(long)]
    pub(super) force: bool,
}

#[derive(Debug, Args)]
pub(super) struct View {
    /// The sheet
    #[arg(value_name = "SHEET")]
    pub(super) sheet: PathBuf,
    /// The port of the page; 0 stands for any that is free
    #[arg(long, value_name = "NUMBER", default_value_t = 0)]
    pub(super) port: u16,
}

#[derive(Debug, Args)]
pub(super) struct Import {
    /// The score; `-` reads standard input
    #[arg(value_name = "SCORE")]
    pub(super) score: PathBuf,
    /// Write the sheet into this file instead of showing it
    #[arg(short, long, value_name = "SHEET")]
    pub(super) output: Option<PathBuf>,
    /// The species; otherwise it is free writing
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=5))]
    pub(super) species: Option<u8>,
    /// The voice that is the cantus
    #[arg(long, value_enum, value_name = "WHICH")]
    pub(super) cantus: Option<Which>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(super) force: bool,
}

/// How a WAV file sounds.
#[derive(Debug, Args)]
pub(super) struct Sound {
    /// The frequency of A4 in sound, in hertz
    #[arg(long, value_name = "HZ", default_value_t = 440.0, value_parser = pitch_of_a)]
    pub(super) pitch: f64,
    /// In sound, tune the upper voice pure above the lower one
    #[arg(long)]
    pub(super) just: bool,
    /// In sound, this voice alone
    #[arg(long, value_enum, value_name = "WHICH")]
    pub(super) voice: Option<Which>,
    /// In sound, this voice softly, to sing against
    #[arg(long, value_enum, value_name = "WHICH", conflicts_with = "voice")]
    pub(super) soft: Option<Which>,
    /// In sound, a bar of beats before the first bar
    #[arg(long)]
    pub(super) count_in: bool,
}

/// One of the two voices.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Which {
    /// The upper voice
    Upper,
    /// The lower voice
    Lower,
}

fn pitch_of_a(text: &str) -> Result<f64, String> {
    let hertz = text.parse::<f64>().ok().filter(|hertz| (220.0..=880.0).contains(hertz));
    hertz.ok_or_else(|| "write a number from 220 to 880".to_owned())
}

/// The paper of a PDF.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperIn {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
}

/// The clefs of pictures and pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ClefsIn {
    /// Treble and bass, and C clefs for alto and tenor
    Modern,
    /// One for each register, as in old vocal music
    Vocal,
}

/// What a score shows beside the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Shown {
    /// Nothing
    Nothing,
    /// The interval between the voices at every note
    Figures,
    /// The harmonies as Roman numerals
    Harmonies,
    /// What was found, in words
    Findings,
}

#[derive(Debug, Args)]
pub(super) struct Rules {
    /// List the switches: every question, its answers, and what each rulebook answers
    #[arg(long)]
    pub(super) switches: bool,
    /// Set this rulebook beside those that are built in: a name or a file
    #[arg(long, value_name = "RULEBOOK")]
    pub(super) rulebook: Option<String>,
    /// Tell in sentences how the rulebook differs from the one that it extends
    #[arg(long, requires = "rulebook", conflicts_with_all = ["switches", "pages"])]
    pub(super) explain_differences: bool,
    /// Write the pages of the rules into this folder, one HTML file for each, and an index
    ///
    /// The pages need nothing else and may be put on a server or printed. The folder is made if it
    /// is not there. Pages that this command has made before are made anew; if it would replace
    /// any other file, it writes nothing.
    #[arg(long, value_name = "FOLDER", conflicts_with = "switches")]
    pub(super) pages: Option<PathBuf>,
    /// Let --pages replace files that it has not made itself
    #[arg(long, requires = "pages")]
    pub(super) force: bool,
}

#[derive(Debug, Args)]
pub(super) struct Lsp {
    /// Speak over standard input and output; this is so in any case
    #[arg(long)]
    pub(super) stdio: bool,
    /// Take down every message, in and out, with its time
    ///
    /// For reports of bugs: `bicinium replay FILE` plays the session again. The file holds the
    /// whole text of the sheets that are open, and their paths; it is written line by line, so it is
    /// whole even if the session ends badly. A file that is there already is not replaced.
    #[arg(long, value_name = "FILE")]
    pub(super) record: Option<PathBuf>,
    /// Let --record replace a file that is there already
    #[arg(long, requires = "record")]
    pub(super) force: bool,
}

#[derive(Debug, Args)]
pub(super) struct Replay {
    /// The recording
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// Play it to this program instead of the one that you are running
    #[arg(long, value_name = "PROGRAM")]
    pub(super) server: Option<PathBuf>,
}
