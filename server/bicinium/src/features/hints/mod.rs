//! What is written under the notes of a sheet for whoever analyses it: the figures of the intervals, the
//! harmony of every bar. Each bar of the upper row ends with its figures, each bar of the lower row with
//! its harmony, all rows of a bar equally wide, so that barlines stay under each other. What the sheet
//! says itself is not repeated.

mod figures;
mod harmonies;

use std::collections::BTreeSet;
use std::ops::Range;

use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_grammar::ast;

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
    /// Before which byte of the sheet.
    pub at: usize,
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

/// The hints of some kinds in a range of bytes, row by row.
pub fn hints(snapshot: &Snapshot, range: &Range<usize>, kinds: &BTreeSet<HintKind>) -> Vec<Hint> {
    let is_near = |block: &Placed| {
        let end = block.start + usize::from(block.judged.tree.text_len());
        block.start <= range.end && range.start <= end
    };
    let near = snapshot.exercises().filter(|(_, block, _)| is_near(block));
    let hints = near.flat_map(|(_, block, exercise)| of_exercise(block, exercise, range, kinds));
    hints.filter(|hint| range.contains(&hint.at) || hint.at == range.end).collect()
}

fn of_exercise(
    block: &Placed,
    exercise: &Exercise,
    range: &Range<usize>,
    kinds: &BTreeSet<HintKind>,
) -> Vec<Hint> {
    let text = block.judged.tree.text();
    let is_near = |row: &ast::Row| {
        let row = block.in_sheet(row.range());
        row.start <= range.end && range.start <= row.end
    };
    let (mut before, mut hints) = (0, Vec::new());
    for system in block.judged.tree.ast().systems() {
        for row in system.iter().filter(|row| is_near(row)) {
            for (index, bar) in row.bars().iter().enumerate() {
                let bar = Bar { exercise, index: before + index, row: bar, kinds };
                hints.extend(bar.hint(block.start, &text));
            }
        }
        before += system.iter().map(|row| row.bars().len()).max().unwrap_or(0);
    }
    hints
}

/// A bar of a row.
struct Bar<'a> {
    exercise: &'a Exercise,
    /// Its number, counted from 0.
    index: usize,
    row: &'a ast::Bar,
    kinds: &'a BTreeSet<HintKind>,
}

impl Bar<'_> {
    fn hint(&self, start: usize, text: &str) -> Option<Hint> {
        let glosses = VoiceId::BOTH.map(|voice| (voice, self.gloss(voice)));
        let width = glosses.iter().map(|(_, gloss)| gloss.text.chars().count()).max()?;
        let own = glosses.into_iter().find(|(voice, _)| self.is_of(*voice));
        let gloss = own.map(|(_, gloss)| gloss).unwrap_or_default();
        let end = usize::from(self.row.range().end());
        let filled = format!("{:width$}", gloss.text);
        let is_spaced = text.get(..end).is_some_and(|text| text.ends_with([' ', '\t']));
        let text = if is_spaced { format!("{filled} ") } else { format!(" {filled}") };
        (width > 0).then_some(Hint { at: start + end, text, said: gloss.said })
    }

    fn is_of(&self, voice: VoiceId) -> bool {
        let bars = &self.exercise.score.lines[voice].bars;
        bars.get(self.index) == Some(&self.row.range())
    }

    /// What stands at the end of the bar in the row of a voice.
    fn gloss(&self, voice: VoiceId) -> Gloss {
        let Ok(bar) = u32::try_from(self.index) else { return Gloss::default() };
        match voice {
            VoiceId::Upper => figures::in_bar(self.exercise, bar, self.kinds),
            VoiceId::Lower if self.kinds.contains(&HintKind::Harmonies) => {
                harmonies::in_bar(self.exercise, bar)
            }
            VoiceId::Lower => Gloss::default(),
        }
    }
}
