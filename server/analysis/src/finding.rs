//! Findings: what is said about a sheet, each at its place. Plain data; knows no editor.

use bicinium_grammar::TextRange;
use bicinium_theory::Duration;

use crate::score::VoiceId;

/// How much a finding matters. Ordered from the gravest to the mildest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// The text cannot be read as music.
    Notation,
    /// Wrong in the school in force.
    Fault,
    /// Wrong unless there is a reason.
    Caution,
    /// A matter of taste; never counted against an exercise.
    Advice,
    /// Not wrong, only not there yet.
    Unfinished,
}

impl Level {
    /// All levels, the gravest first.
    pub const ALL: [Self; 5] =
        [Self::Notation, Self::Fault, Self::Caution, Self::Advice, Self::Unfinished];

    /// The word used in reports.
    pub fn name(self) -> &'static str {
        match self {
            Self::Notation => "notation",
            Self::Fault => "fault",
            Self::Caution => "caution",
            Self::Advice => "advice",
            Self::Unfinished => "unfinished",
        }
    }
}

/// Something said about a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The name of the rule, or of what is wrong with the notation.
    pub rule: &'static str,
    /// How much it matters.
    pub level: Level,
    /// What is wrong, where, and what would mend it.
    pub message: String,
    /// The voice it is found in; `None` if it concerns both or the text only.
    pub voice: Option<VoiceId>,
    /// Where in the music; `None` if it concerns the whole or the text only.
    pub place: Option<Place>,
    /// Where in the text, relative to the block.
    pub range: TextRange,
    /// Other places that belong to it.
    pub related: Vec<Related>,
    /// Changes of the text that mend it and need no judging.
    pub mends: Vec<Mend>,
    /// The licence that accepts it, if one does.
    pub accepted: Option<Acceptance>,
}

/// A place in the music.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The moment, from the start of the exercise.
    pub onset: Duration,
    /// The bar, counted from 1.
    pub bar: u32,
    /// The beat within the bar, counted from 1.
    pub beat: u32,
    /// How far behind the beat, as a part of it: 0 on the beat, 0.5 in the middle.
    pub behind: f64,
}

/// Another place that belongs to a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Related {
    /// Where in the text, relative to the block.
    pub range: TextRange,
    /// What is there.
    pub message: String,
}

/// A change of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What it does, as a line in a menu.
    pub title: String,
    /// What is replaced, relative to the block.
    pub range: TextRange,
    /// What stands there instead.
    pub text: String,
}

/// Why a finding is accepted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Acceptance {
    /// The reason given; `None` if the licence says none.
    pub reason: Option<String>,
    /// Where the licence is written, relative to the block.
    pub range: TextRange,
}

impl Finding {
    /// A finding about the text alone.
    pub fn about_text(rule: &'static str, level: Level, range: TextRange, message: String) -> Self {
        Self {
            rule,
            level,
            message,
            voice: None,
            place: None,
            range,
            related: Vec::new(),
            mends: Vec::new(),
            accepted: None,
        }
    }

    /// Whether it stands: found, and not accepted by a licence.
    pub fn stands(&self) -> bool {
        self.accepted.is_none()
    }
}
