//! What is written under the notes of a sheet for whoever analyses it: the figures of the intervals, the
//! harmony of every bar. Each bar of the upper row ends with its figures, each bar of the lower row with
//! its harmony, all rows of a bar equally wide, so that barlines stay under each other. What the sheet
//! says itself is not repeated.

mod figures;
mod harmonies;

use std::collections::BTreeSet;

use bicinium_analysis::Exercise;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Judged;
use bicinium_grammar::{TextRange, TextSize, ast};

/// A kind of hint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum HintKind {
    /// The intervals between the voices.
    Intervals,
    /// The harmony of a bar.
    Harmonies,
    /// The figure of a suspension.
    Suspensions,
}

/// Something that is written between the signs of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hint {
    /// Where it stands, counted from the start of its block.
    pub at: TextSize,
    /// What is written; blanks where it only keeps room.
    pub text: String,
    /// The same in words, if it says anything.
    pub said: Option<String>,
}

/// What there is to say at the end of a bar of a row.
#[derive(Clone, Debug, Default)]
struct Gloss {
    text: String,
    said: Option<String>,
}

/// The hints of some kinds in a block, row by row.
pub fn hints(block: &Judged, kinds: &BTreeSet<HintKind>) -> Vec<Hint> {
    let Some(exercise) = &block.exercise else { return Vec::new() };
    let text = block.tree.text();
    let columns = columns(exercise, kinds);
    let (mut before, mut hints) = (0, Vec::new());
    for system in block.tree.ast().systems() {
        let columns = columns.get(before..).unwrap_or_default();
        for row in &system {
            let bars = row.bars().into_iter().zip(columns);
            hints.extend(bars.filter_map(|(bar, column)| column.hint(&bar, &text)));
        }
        before += system.iter().map(|row| row.bars().len()).max().unwrap_or(0);
    }
    hints
}

/// A bar of all voices: where each stands, and what there is to say of it.
struct Column(Vec<(Option<TextRange>, Gloss)>);

fn columns(exercise: &Exercise, kinds: &BTreeSet<HintKind>) -> Vec<Column> {
    let suspensions = figures::suspensions(exercise);
    let gloss = |voice, bar| match voice {
        VoiceId::Upper => figures::in_bar(&exercise.score, bar, &suspensions, kinds),
        VoiceId::Lower if kinds.contains(&HintKind::Harmonies) => harmonies::in_bar(exercise, bar),
        VoiceId::Lower => Gloss::default(),
    };
    let column = |(bar, index): (u32, usize)| {
        let of_voice = |voice: VoiceId| {
            let range = exercise.score.lines[voice].bars.get(index).copied();
            (range, gloss(voice, bar))
        };
        Column(VoiceId::BOTH.into_iter().map(of_voice).collect())
    };
    (0..exercise.score.setting.bars).zip(0..).map(column).collect()
}

impl Column {
    /// What stands at the end of the bar of a row.
    fn hint(&self, bar: &ast::Bar, text: &str) -> Option<Hint> {
        let width = self.0.iter().map(|(_, gloss)| gloss.text.chars().count()).max()?;
        let own = self.0.iter().find(|(range, _)| *range == Some(bar.range()));
        let gloss = own.map(|(_, gloss)| gloss.clone()).unwrap_or_default();
        let at = bar.range().end();
        let filled = format!("{:width$}", gloss.text);
        let is_spaced = text.get(..at.into()).is_some_and(|text| text.ends_with([' ', '\t']));
        let text = if is_spaced { format!("{filled} ") } else { format!(" {filled}") };
        (width > 0).then_some(Hint { at, text, said: gloss.said })
    }
}
