//! What an editor can do with a sheet, and how to tell from what it shows that it does.

use serde::Deserialize;
use serde_json::Value;

/// A row of the table in `editors/README.md`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Feature {
    /// Findings while typing.
    Findings,
    /// What there is to say about a note.
    Hover,
    /// Mending a finding.
    Fixes,
    /// Laying out the sheet.
    Layout,
    /// Pitches at a hole.
    Completion,
    /// Colours from a grammar of the editor's own.
    Colours,
}

impl Feature {
    /// What every script has to go through.
    pub const CORE: [Feature; 4] =
        [Feature::Findings, Feature::Hover, Feature::Fixes, Feature::Layout];

    /// All features, as the table has them.
    pub const ALL: [Feature; 6] = [
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Completion,
        Feature::Colours,
    ];

    /// What the feature is called in the table.
    pub fn words(self) -> &'static str {
        match self {
            Feature::Findings => "findings while typing",
            Feature::Hover => "what there is to say about a note",
            Feature::Fixes => "mending a finding",
            Feature::Layout => "laying out the sheet",
            Feature::Completion => "pitches at a `?`",
            Feature::Colours => "colours from a grammar",
        }
    }

    /// Holds that this was shown, given what the script has told of it.
    pub fn hold(self, shown: &Value) {
        match self {
            Feature::Completion => assert!(names_pitches(shown), "no pitches: {shown}"),
            Feature::Colours => assert!(tells_apart(shown), "no colours: {shown}"),
            _ => unreachable!("{self:?} is part of every story"),
        }
    }
}

/// Whether a list holds pitches and nothing else.
fn names_pitches(shown: &Value) -> bool {
    let labels = shown.as_array().map(Vec::as_slice).unwrap_or_default();
    let is_pitch = |label: &Value| {
        let label = label.as_str().unwrap_or_default();
        label.starts_with(|c| ('A'..='G').contains(&c))
            && label.ends_with(|c: char| c.is_ascii_digit())
    };
    !labels.is_empty() && labels.iter().all(is_pitch)
}

/// Whether a word of the notation, a note and a comment have each a colour of their own.
fn tells_apart(shown: &Value) -> bool {
    let class = |what: &str| shown[what].as_str().filter(|class| !class.is_empty());
    let classes = [class("keyword"), class("pitch"), class("comment")];
    classes.iter().all(Option::is_some)
        && classes[0] != classes[1]
        && classes[1] != classes[2]
        && classes[0] != classes[2]
}
