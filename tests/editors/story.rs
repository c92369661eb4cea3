//! What a script tells of its editor, held against what the server says.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::{Value, json};

use crate::expected::{self, Finding, HINT};
use crate::feature::{Claims, Feature};
use crate::stage::{SHEET, Stage};

/// How the message of the finding begins that every script mends.
const MENDED: &str = "Fifths in a row";

/// What was seen in an editor, step by step.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Story {
    /// The editor and its version, as it names itself.
    pub editor: String,
    findings: Vec<Shown>,
    /// The line and the UTF-16 column of the place that was asked about, from 0.
    hovered: (u64, u64),
    hover: String,
    fixed: String,
    formatted: String,
    left: Vec<Shown>,
    /// Whether the list of findings has no hints in it, since the editor shows them by dots only.
    #[serde(default)]
    without_hints: bool,
    /// What was seen of other features.
    #[serde(default)]
    more: BTreeMap<Feature, Value>,
}

/// A finding as the editor shows it, with its line from 0.
#[derive(Debug, Deserialize)]
struct Shown {
    line: u64,
    message: String,
}

impl Story {
    /// Reads what the script has told.
    pub fn of(stage: &Stage) -> Self {
        let told = stage.told();
        serde_json::from_str(&told).unwrap_or_else(|why| panic!("{why}: {told}"))
    }

    /// Holds the story against the server, and against what the table says of the editor.
    pub fn holds(&self, claims: &Claims) {
        self.findings_hold();
        self.hover_holds();
        self.mending_holds();
        for (feature, shown) in &self.more {
            feature.hold(shown);
        }
        let told: Vec<_> = Feature::CORE.iter().chain(self.more.keys()).collect();
        let mut claimed: Vec<_> = claims.seen.iter().collect();
        claimed.sort();
        assert_eq!(told, claimed, "the table says something else of {}", self.editor);
    }

    fn findings_hold(&self) {
        assert_eq!(found(&self.findings), self.expected(SHEET));
        assert!(found(&self.findings).iter().any(is_mended));
    }

    fn expected(&self, text: &str) -> Vec<Finding> {
        expected::findings(text, if self.without_hints { HINT - 1 } else { HINT })
    }

    fn hover_holds(&self) {
        let (line, character) = self.hovered;
        let position = json!({"line": line, "character": character});
        let shown = words(&self.hover);
        let said = expected::hover(SHEET, &position, "plaintext");
        for paragraph in said.split("\n\n") {
            assert!(shown.contains(&words(paragraph)), "{paragraph:?} is not in {shown:?}");
        }
    }

    fn mending_holds(&self) {
        let bass = |text: &str| text.lines().nth(14).expect("the row is there").to_owned();
        assert_ne!(bass(&self.fixed), bass(SHEET), "nothing was mended: {}", self.fixed);
        assert_eq!(self.fixed.lines().count(), SHEET.lines().count());
        assert_eq!(self.formatted, expected::formatted(&self.fixed));
        assert_ne!(self.formatted, self.fixed, "nothing was laid out");
        let left = found(&self.left);
        assert_eq!(left, self.expected(&self.formatted));
        assert!(!left.iter().any(is_mended), "the finding is still there");
    }
}

fn is_mended(finding: &Finding) -> bool {
    finding.message.starts_with(MENDED)
}

fn found(shown: &[Shown]) -> Vec<Finding> {
    let mut found: Vec<_> =
        shown.iter().map(|shown| Finding::new(shown.line, &shown.message)).collect();
    found.sort();
    found
}

/// The words of a text with single spaces, without what sets them apart on screen.
fn words(text: &str) -> String {
    let words = text.split(|c: char| !c.is_alphanumeric() && !"#♭♮".contains(c));
    words.filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}
