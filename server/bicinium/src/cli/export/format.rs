//! The formats of `bicinium export`, told by the ending of a name. It must not know how any of them is
//! put together.

use std::ffi::OsStr;
use std::path::Path;

use bicinium_analysis::score::Pair;
use bicinium_export::engraving::{self, Paper, Style, writers};
use bicinium_export::sound::{self, Loudness, Opening, Performance, Tuning};
use bicinium_export::{Extra, Piece, listing, midi, musicxml};

use crate::cli::arguments::{ClefsIn, Export, PaperIn, Shown, Sound, Which};

/// The formats that can be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Format {
    MusicXml,
    Midi,
    Wav,
    Svg,
    Png,
    Pdf,
    Text,
}

impl Format {
    /// The format that the name of a file asks for.
    pub(super) fn of(path: &Path) -> Result<Self, String> {
        let ending = path.extension().and_then(OsStr::to_str).map(str::to_ascii_lowercase);
        match ending.as_deref() {
            Some("musicxml") => Ok(Self::MusicXml),
            Some("mid") => Ok(Self::Midi),
            Some("wav") => Ok(Self::Wav),
            Some("svg") => Ok(Self::Svg),
            Some("png") => Ok(Self::Png),
            Some("pdf") => Ok(Self::Pdf),
            Some("txt") => Ok(Self::Text),
            _ => Err(format!(
                "{} does not say what to write: let its name end in .pdf for pages to print, in \
                 .svg or .png for a picture, in .musicxml for a score that notation programs read, in \
                 .mid for a MIDI file, in .wav for sound, or in .txt for the music in words.",
                path.display()
            )),
        }
    }

    /// Whether a file holds one exercise only.
    pub(super) fn holds_one(self) -> bool {
        matches!(self, Self::MusicXml | Self::Midi | Self::Wav)
    }

    /// The file.
    pub(super) fn bytes(self, pieces: &[Piece<'_>], options: &Export) -> Result<Vec<u8>, String> {
        match self {
            Self::MusicXml => one(pieces, |piece| score(piece, options)),
            Self::Midi => one(pieces, |piece| {
                midi::file(piece.exercise, options.tempo)
                    .map_err(|refusal| format!("No MIDI file can be written: {refusal}."))
            }),
            Self::Wav => one(pieces, |piece| played(piece, options)),
            Self::Svg => {
                let strip = strip(pieces, options);
                Ok(writers::svg(&strip, &title(pieces)).into_bytes())
            }
            Self::Png => writers::png(&strip(pieces, options), options.dpi).map_err(|refusal| {
                format!(
                    "No picture can be written: {refusal}. Choose one exercise with --exercise, fewer \
                     dots with --dpi, or a PDF."
                )
            }),
            Self::Pdf => pdf(pieces, options),
            Self::Text => Ok(text(pieces, options).into_bytes()),
        }
    }
}

/// What becomes of the exercise that was chosen.
fn one(
    pieces: &[Piece<'_>],
    bytes: impl FnOnce(&Piece<'_>) -> Result<Vec<u8>, String>,
) -> Result<Vec<u8>, String> {
    pieces.first().map_or_else(|| Ok(Vec::new()), bytes)
}

fn score(piece: &Piece<'_>, options: &Export) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    musicxml::write(piece.exercise, piece.findings, &extras(&options.show), &mut bytes)
        .map_err(|error| format!("The score cannot be written: {error}."))?;
    Ok(bytes)
}

fn played(piece: &Piece<'_>, options: &Export) -> Result<Vec<u8>, String> {
    let Sound { pitch, just, voice, soft, count_in } = options.sound;
    let loudness = |own: Which| match (voice, soft) {
        (Some(alone), _) if alone != own => Loudness::Silent,
        (_, Some(soft)) if soft == own => Loudness::Soft,
        _ => Loudness::Full,
    };
    let performance = Performance {
        tempo: options.tempo,
        a4_hz: pitch,
        tuning: if just { Tuning::Just } else { Tuning::Equal },
        loudness: Pair { upper: loudness(Which::Upper), lower: loudness(Which::Lower) },
        opening: if count_in { Opening::CountIn } else { Opening::AtOnce },
    };
    sound::wav(piece.exercise, &performance)
        .map_err(|refusal| format!("It cannot be played: {refusal}."))
}

/// All exercises on one strip.
fn strip(pieces: &[Piece<'_>], options: &Export) -> engraving::display::Page {
    let style = style(options, Paper::Strip(options.width));
    let blank = || engraving::display::Page { width: 1.0, height: 1.0, groups: Vec::new() };
    engraving::pages(pieces, &style).into_iter().next().unwrap_or_else(blank)
}

fn pdf(pieces: &[Piece<'_>], options: &Export) -> Result<Vec<u8>, String> {
    let paper = match options.paper {
        PaperIn::A4 => Paper::A4,
        PaperIn::Letter => Paper::Letter,
    };
    let pages = engraving::pages(pieces, &style(options, paper));
    writers::pdf(&pages, &title(pieces)).ok_or_else(|| "No PDF can be written.".to_owned())
}

fn text(pieces: &[Piece<'_>], options: &Export) -> String {
    let extras = extras(&options.show);
    let texts: Vec<_> = pieces.iter().map(|piece| listing::listing(piece, &extras)).collect();
    texts.join("\n\n")
}

fn style(options: &Export, paper: Paper) -> Style {
    let clefs = match options.clefs {
        ClefsIn::Modern => engraving::Clefs::Modern,
        ClefsIn::Vocal => engraving::Clefs::Vocal,
    };
    Style { paper, extras: extras(&options.show), clefs, remarks: engraving::Remarks::Below }
}

/// The titles of the exercises, at most three of them.
fn title(pieces: &[Piece<'_>]) -> String {
    let titles: Vec<_> = pieces.iter().take(3).map(Piece::title).collect();
    let more = if pieces.len() > titles.len() { " …" } else { "" };
    titles.join(", ") + more
}

fn extras(show: &[Shown]) -> Vec<Extra> {
    let extra = |shown: &Shown| match shown {
        Shown::Nothing => None,
        Shown::Figures => Some(Extra::Figures),
        Shown::Harmonies => Some(Extra::Harmonies),
        Shown::Findings => Some(Extra::Findings),
    };
    show.iter().filter_map(extra).collect()
}
