//! What is wished of a cantus.

use std::path::PathBuf;

use bicinium_theory::{Mode, Pitch, PitchClass, Register};
use clap::Args;

use super::within::within;
use crate::cli::words::list;

pub(super) const EXIT: &str = "\
Exit code: 0 if the cantus has been written, 1 if there is none, 2 if something could not be done, \
such as writing the file.";

#[derive(Debug, Args)]
pub(crate) struct ComposeCantus {
    /// The mode: major, minor, ionian, dorian, phrygian, lydian, mixolydian or aeolian
    #[arg(long, value_name = "MODE", value_parser = mode)]
    pub(crate) mode: Mode,
    /// How many notes it has
    #[arg(long, value_name = "N", default_value_t = 10)]
    #[arg(value_parser = within(1..=32_u8))]
    pub(crate) length: u8,
    /// Another number gives another cantus
    #[arg(long, value_name = "S", default_value_t = 1)]
    pub(crate) seed: u64,
    /// The tonic, such as D or Bb; without it the one whose scale has no accidentals
    #[arg(long, value_name = "NOTE", value_parser = tonic)]
    pub(crate) tonic: Option<PitchClass>,
    /// Who sings it: soprano, mezzo, alto, tenor, baritone or bass
    #[arg(long, value_name = "VOICE", default_value = "alto", value_parser = voice)]
    pub(crate) voice: Register,
    /// No note is lower than this, such as D4
    #[arg(long, value_name = "NOTE", value_parser = pitch)]
    pub(crate) lowest: Option<Pitch>,
    /// No note is higher than this
    #[arg(long, value_name = "NOTE", value_parser = pitch)]
    pub(crate) highest: Option<Pitch>,
    /// Compose and count by this rulebook: `tonal`, `modal`, a name or a file
    #[arg(long, value_name = "RULEBOOK", default_value = "modal")]
    pub(crate) rulebook: String,
    /// Count what can be written against it in these species only, such as 1,2
    #[arg(long, value_name = "SPECIES", value_delimiter = ',', default_values_t = [1, 2, 3, 4, 5])]
    #[arg(value_parser = within(1..=5_u8))]
    pub(crate) species: Vec<u8>,
    /// Do not count what can be written against it
    #[arg(long)]
    pub(crate) no_count: bool,
    /// Search no longer than this for the cantus and for each count
    #[arg(long, value_name = "SECONDS", default_value_t = 10)]
    pub(crate) time: u64,
    /// Write the sheet into this file instead of showing it
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(crate) force: bool,
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
