//! What is exported, and how it looks.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::within::within;
use super::{Reach, Sound};

pub(super) const EXIT: &str = "\
Exit code: 0 if the file has been written, 2 if it has not.";

#[derive(Debug, Args)]
pub(crate) struct Export {
    /// The sheet; `-` reads standard input
    #[arg(value_name = "SHEET")]
    pub(crate) sheet: PathBuf,
    /// The file to write; its name ends in `.pdf`, `.svg`, `.png`, `.musicxml`, `.mid`, `.wav` or
    /// `.txt`
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: PathBuf,
    /// Which exercise, counted from 1
    ///
    /// Pictures, pages and words hold all exercises if none is chosen. A score for notation programs, a
    /// MIDI file and sound hold one, which has to be chosen if the sheet has several.
    #[arg(long, value_name = "NUMBER")]
    pub(crate) exercise: Option<usize>,
    /// What is shown beside the notes
    #[arg(long, value_enum, value_delimiter = ',', value_name = "WHAT")]
    #[arg(default_values_t = [Shown::Figures, Shown::Harmonies])]
    pub(crate) show: Vec<Shown>,
    /// How fast MIDI and sound are played, in beats of the meter per minute
    #[arg(long, default_value_t = 60, value_parser = within(10..=400_u16))]
    pub(crate) tempo: u16,
    #[command(flatten)]
    pub(crate) sound: Sound,
    /// The paper of a PDF
    #[arg(long, value_enum, default_value_t = PaperIn::A4)]
    pub(crate) paper: PaperIn,
    /// How wide an SVG or a PNG is, in millimetres
    #[arg(long, value_name = "MM", default_value_t = 180, value_parser = within(60..=1000_u16))]
    pub(crate) width: u16,
    /// How many dots of a PNG make an inch
    #[arg(long, value_name = "DOTS", default_value_t = 200, value_parser = within(40..=1200_u16))]
    pub(crate) dpi: u16,
    /// The clefs of pictures and pages
    #[arg(long, value_enum, default_value_t = ClefsIn::Modern)]
    pub(crate) clefs: ClefsIn,
    /// Replace a file that is there already
    #[arg(long)]
    pub(crate) force: bool,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

/// The paper of a PDF.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperIn {
    /// 210 by 297 mm
    A4,
    /// 8.5 by 11 inches
    Letter,
}

/// The clefs of pictures and pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ClefsIn {
    /// Treble and bass, and C clefs for alto and tenor
    Modern,
    /// One for each register, as in old vocal music
    Vocal,
}

/// What a score shows beside the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Shown {
    /// Nothing
    Nothing,
    /// The interval between the voices at every note
    Figures,
    /// The harmonies as Roman numerals
    Harmonies,
    /// What was found, in words
    Findings,
}
