//! The rows of an exercise as text: which belongs to which voice, and where their notes stand. It must
//! not know what is changed.

use bicinium_analysis::score::{Pair, VoiceId};
use bicinium_grammar::TextRange;
use bicinium_grammar::ast::{Bar, ExerciseBlock, Item, ItemKind, NoteItem, Row, VoiceRow};
use bicinium_theory::{Accidental, Letter, Pitch};

/// The rows of both voices, system by system.
pub(super) struct VoiceRows {
    /// The rows of each voice, in the order of the text.
    pub(super) of: Pair<Vec<VoiceRow>>,
}

impl VoiceRows {
    /// Those of an exercise. Two registers are two voices; rows of one register belong to the voices
    /// in turn.
    pub(super) fn of(block: &ExerciseBlock) -> Self {
        let mut of = Pair::<Vec<VoiceRow>>::default();
        let rows = block.rows().into_iter().filter_map(|row| match row {
            Row::Voice(row) => Some(row),
            Row::Harmony(_) => None,
        });
        let rows: Vec<_> = rows.collect();
        let first = rows.first().and_then(VoiceRow::register);
        let is_one_register = rows.iter().all(|row| row.register() == first);
        for (index, row) in rows.into_iter().enumerate() {
            let is_upper = if is_one_register { index % 2 == 0 } else { row.register() == first };
            let voice = if is_upper { VoiceId::Upper } else { VoiceId::Lower };
            of[voice].push(row);
        }
        Self { of }
    }

    /// The heads of all rows.
    pub(super) fn heads(&self) -> impl Iterator<Item = TextRange> {
        self.of.upper.iter().chain(&self.of.lower).map(VoiceRow::head_range)
    }

    /// The bars of a voice.
    pub(super) fn bars(&self, voice: VoiceId) -> impl Iterator<Item = Bar> {
        self.of[voice].iter().flat_map(VoiceRow::bars)
    }

    /// The notes of a voice, with the place of each.
    pub(super) fn notes(&self, voice: VoiceId) -> Vec<(TextRange, Pitch)> {
        self.bars(voice).flat_map(|bar| notes(&bar)).collect()
    }
}

/// The notes of a bar, with the place of each.
pub(super) fn notes(bar: &Bar) -> Vec<(TextRange, Pitch)> {
    let written = written(bar.items());
    written.into_iter().filter_map(|note| Some((note.range, pitch(note)?))).collect()
}

fn written(items: &[Item]) -> Vec<NoteItem> {
    let of_item = |item: &Item| match &item.kind {
        ItemKind::Note(note) => vec![*note],
        ItemKind::Group(items) => written(items),
        _ => Vec::new(),
    };
    items.iter().flat_map(of_item).collect()
}

/// The pitch of a note; `None` if it has no octave.
fn pitch(note: NoteItem) -> Option<Pitch> {
    let letter = Letter::from_char(note.letter)?;
    Pitch::new(letter, Accidental::new(note.accidental)?, note.octave?)
}
