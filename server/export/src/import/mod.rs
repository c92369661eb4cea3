//! Two-part scores of other programs, as music that an exercise can be written from. A score is
//! untrusted: its size is bounded, it may bring no entities of its own, and whatever does not fit into
//! two lines of notes is told and never dropped in silence. Knows no text of a sheet and no files.

mod document;
mod heading;
mod measure;
mod packed;
mod remarks;
mod voice;

use std::fmt;

use bicinium_analysis::judge::Heard;
use bicinium_analysis::score::Pair;
use bicinium_theory::{Key, Meter, Register};

use document::Node;
pub use remarks::Remark;
use remarks::Remarks;

/// The longest score that is read, in bytes, packed or not.
pub const LONGEST: u64 = 16 << 20;

/// What was read from a score.
#[derive(Clone, Debug)]
pub struct Import {
    /// Its title, if it has one.
    pub title: Option<String>,
    /// Who wrote it, if that is said.
    pub author: Option<String>,
    /// The key that it begins in.
    pub key: Key,
    /// The meter that it begins in.
    pub meter: Meter,
    /// The number of bars of the longer voice.
    pub bars: u32,
    /// The voices.
    pub voices: Pair<Voice>,
    /// What does not fit, in the order of the score.
    pub remarks: Vec<Remark>,
}

/// A voice of a score.
#[derive(Clone, Debug)]
pub struct Voice {
    /// Who sings it, by its name or else by its clef.
    pub register: Register,
    /// Its notes in order, ties joined.
    pub notes: Vec<Heard>,
    /// The bars, counted from 0, of which nothing is known; in the others what is no note is a rest.
    pub blank: Vec<u32>,
}

/// Why a score cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// It has more bytes than may be.
    TooLong,
    /// It is no text in UTF-8.
    NoText,
    /// The text is no well-formed XML, for a reason in English.
    Malformed(String),
    /// It declares entities of its own.
    Entities,
    /// It is something else than a score in parts.
    NoScore,
    /// It has fewer than two parts.
    OnePart,
    /// The packed file holds no score.
    NothingPacked,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = match self {
            Self::TooLong => "it is too long",
            Self::NoText => "it is no MusicXML score, which would be text in UTF-8",
            Self::Malformed(why) => return write!(f, "it is no XML: {why}"),
            Self::Entities => "it uses abbreviations that only its own document type explains",
            Self::NoScore => "it is no MusicXML score with one part after the other",
            Self::OnePart => "it has fewer than two parts",
            Self::NothingPacked => "there is no score in it",
        };
        f.write_str(said)
    }
}

impl std::error::Error for Refusal {}

/// Reads a score, packed (`.mxl`) or not.
pub fn read(bytes: &[u8]) -> Result<Import, Refusal> {
    if bytes.len() as u64 > LONGEST {
        return Err(Refusal::TooLong);
    }
    if packed::is_packed(bytes) {
        return of_text(&packed::score(bytes)?);
    }
    of_text(bytes)
}

fn of_text(bytes: &[u8]) -> Result<Import, Refusal> {
    let text = std::str::from_utf8(bytes).map_err(|_| Refusal::NoText)?;
    let root = document::read(text)?;
    if root.name != "score-partwise" {
        return Err(Refusal::NoScore);
    }
    let mut remarks = Remarks::default();
    let parts: Vec<&Node> = root.all("part").collect();
    let [first, second, others @ ..] = parts.as_slice() else { return Err(Refusal::OnePart) };
    for (number, part) in (2..).zip(others) {
        let name = heading::part_name(&root, number, part);
        remarks.of_part(&name, "left out; an exercise has two voices");
    }
    let heading = heading::of(&root, [first, second], &mut remarks);
    let mut read = |number: usize, part: &Node| {
        let name = heading::part_name(&root, number, part);
        voice::of(part, &name, heading.meter, &mut remarks)
    };
    let (upper, upper_bars) = read(0, first);
    let (lower, lower_bars) = read(1, second);
    Ok(Import {
        title: heading.title,
        author: heading.author,
        key: heading.key,
        meter: heading.meter,
        bars: upper_bars.max(lower_bars),
        voices: Pair { upper, lower },
        remarks: remarks.told(),
    })
}
