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
    /// Figures and harmonies at the ends of bars.
    Hints,
    /// The state of each exercise above it.
    States,
    /// Notes in colours that tell what they are in the music.
    Tokens,
    /// What the sheet is made of.
    Outline,
    /// The way from a name to its definition.
    Definitions,
}

impl Feature {
    /// What every script has to go through.
    pub const CORE: [Feature; 4] =
        [Feature::Findings, Feature::Hover, Feature::Fixes, Feature::Layout];

    /// All features, as the table has them.
    pub const ALL: [Feature; 11] = [
        Feature::Findings,
        Feature::Hover,
        Feature::Fixes,
        Feature::Layout,
        Feature::Completion,
        Feature::Colours,
        Feature::Hints,
        Feature::States,
        Feature::Tokens,
        Feature::Outline,
        Feature::Definitions,
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
            Feature::Hints => "figures and harmonies in the bars",
            Feature::States => "the state of each exercise",
            Feature::Tokens => "given and dissonant notes set apart",
            Feature::Outline => "the outline",
            Feature::Definitions => "from a cantus to its definition",
        }
    }

    /// Holds that this was shown, given what the script has told of it.
    pub fn hold(self, shown: &Value) {
        match self {
            Feature::Completion => assert!(names_pitches(shown), "no pitches: {shown}"),
            Feature::Colours => assert!(tells_apart(shown), "no colours: {shown}"),
            Feature::Hints => {
                assert!(has(shown, "7\u{2013}6") || has(shown, "8"), "no figures: {shown}");
            }
            Feature::States => assert!(has(shown, "nothing wrong so far \u{b7} 1 hole"), "{shown}"),
            Feature::Tokens => assert!(sets_apart(shown), "nothing is set apart: {shown}"),
            Feature::Outline => {
                let names = ["mill-song", "No. 2: a note is missing"];
                assert!(names.iter().all(|name| lists(shown, name)), "{shown}");
            }
            Feature::Definitions => assert_eq!(shown, "cantus mill-song"),
            _ => unreachable!("{self:?} is part of every story"),
        }
    }
}

/// Whether a list of texts has this one.
fn has(shown: &Value, text: &str) -> bool {
    let texts = shown.as_array().map(Vec::as_slice).unwrap_or_default();
    texts.iter().any(|shown| shown.as_str().is_some_and(|shown| shown.trim() == text))
}

/// Whether a list has a text that begins with this name; what else there is to say may follow.
fn lists(shown: &Value, name: &str) -> bool {
    let texts = shown.as_array().map(Vec::as_slice).unwrap_or_default();
    texts.iter().any(|shown| shown.as_str().is_some_and(|shown| shown.trim().starts_with(name)))
}

/// Whether a given note is told from a written one: by the name that the protocol has for it, or by how
/// both look.
fn sets_apart(shown: &Value) -> bool {
    let look = |whose: &str| shown[whose].as_str().filter(|look| !look.is_empty());
    let both = look("given").zip(look("written"));
    has(shown, "readonly") || both.is_some_and(|(given, written)| given != written)
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

/// What is claimed of an editor in `editors/README.md`: every feature is seen in it, or there is a reason
/// why not.
pub struct Claims {
    /// What the editor is called in the table.
    pub name: &'static str,
    /// What its test sees.
    pub seen: &'static [Feature],
    /// What it does not show, and why.
    pub lacks: &'static [(&'static [Feature], &'static str)],
}

impl Claims {
    /// All features that it does not show.
    pub fn lacking(&self) -> impl Iterator<Item = Feature> {
        self.lacks.iter().flat_map(|(features, _)| *features).copied()
    }
}
