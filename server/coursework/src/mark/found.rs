//! A finding as reports need it: free of the sheet that it was found in. Must not know what it costs.

use std::ops::Range;

use bicinium_analysis::finding::Place;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Finding, Level as Graveness, Located};
use serde::{Serialize, Serializer};

/// Something that was found.
#[derive(Clone, Debug, Serialize)]
pub struct Found {
    /// The name of the rule, or of what is wrong with the notation.
    pub rule: &'static str,
    /// How much it matters.
    pub level: Level,
    /// What is wrong, where, and what would mend it.
    pub message: String,
    /// `upper` or `lower`, if it concerns one voice.
    pub voice: Option<&'static str>,
    /// The bar, counted from 1, if it has a place in the music.
    pub bar: Option<u32>,
    /// The beat, counted from 1.
    pub beat: Option<u32>,
    /// Where it is written, in bytes of the sheet.
    #[serde(skip)]
    pub range: Range<usize>,
    /// The reason of the licence that accepts it; empty if it gives none.
    pub accepted: Option<String>,
}

/// A level, written by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Level(pub Graveness);

impl Serialize for Level {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.name())
    }
}

impl Found {
    /// What was found, free of its block.
    pub fn of(located: Located<'_>) -> Self {
        Self::in_block(located.block, located.finding)
    }

    fn in_block(block: &Placed, finding: &Finding) -> Self {
        let acceptance = finding.accepted.as_ref();
        Self {
            rule: finding.rule,
            level: Level(finding.level),
            message: finding.message.clone(),
            voice: finding.voice.map(VoiceId::name),
            bar: finding.place.map(|Place { bar, .. }| bar),
            beat: finding.place.map(|Place { beat, .. }| beat),
            range: block.in_sheet(finding.range),
            accepted: acceptance.map(|it| it.reason.clone().unwrap_or_default()),
        }
    }

    /// Whether no licence accepts it.
    pub fn stands(&self) -> bool {
        self.accepted.is_none()
    }
}

/// All that was found in a block, in the order of the text.
pub(super) fn all(block: &Placed) -> Vec<Found> {
    block.judged.findings.iter().map(|finding| Found::in_block(block, finding)).collect()
}
