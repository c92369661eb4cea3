//! Blank bars for the voices that are to be written, system by system: as many as the other voice has,
//! and a row where a voice has none yet. Must not know whose sheet it is.

use std::ops::Range;

use bicinium_analysis::Exercise;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::ast::{self, Row, VoiceRow};

use crate::features::lines::{end_of_line, line_end};

type Edit = (Range<usize>, String);

/// What fills an exercise up with blank bars, in bytes of the sheet.
pub(super) fn edits(block: &Placed, exercise: &Exercise) -> Vec<Edit> {
    let ast::Block::Exercise(tree) = block.judged.tree.ast() else { return Vec::new() };
    let systems: Vec<Vec<VoiceRow>> = tree.systems().into_iter().map(voice_rows).collect();
    let registers = registers(&systems);
    let is_to_be_written = |voice| exercise.score.setting.written().any(|it| it == voice);
    let room = Room { text: block.judged.tree.text() };
    let mut edits = Vec::new();
    for rows in systems.iter().filter(|rows| !rows.is_empty()) {
        let length = rows.iter().map(|row| row.bars().len()).max().unwrap_or(0);
        let voices: Vec<_> =
            rows.iter().enumerate().map(|(place, row)| voice(row, place, registers)).collect();
        let known = rows.iter().zip(&voices).filter(|(_, voice)| is_to_be_written(**voice));
        edits.extend(known.filter_map(|(row, _)| room.in_row(row, length)));
        let missing = VoiceId::BOTH.into_iter().filter(|voice| !voices.contains(voice));
        for voice in missing.filter(|voice| is_to_be_written(*voice)) {
            edits.extend(room.for_row(voice, registers, rows, length));
        }
    }
    let in_sheet = |(range, text): Edit| (block.start + range.start..block.start + range.end, text);
    edits.into_iter().map(in_sheet).collect()
}

fn voice_rows(system: Vec<Row>) -> Vec<VoiceRow> {
    let voice = |row| match row {
        Row::Voice(row) => Some(row),
        Row::Harmony(_) => None,
    };
    system.into_iter().filter_map(voice).collect()
}

/// The registers of both voices, the upper one first; `None` where they are not two different ones.
fn registers(systems: &[Vec<VoiceRow>]) -> Option<[&'static str; 2]> {
    let mut all = systems.iter().flatten().filter_map(VoiceRow::register);
    let first = all.next()?;
    all.find(|register| *register != first).map(|second| [first, second])
}

/// The voice of a row that stands at a place of its system.
fn voice(row: &VoiceRow, place: usize, registers: Option<[&'static str; 2]>) -> VoiceId {
    let is_upper = match registers {
        Some([upper, _]) => row.register() == Some(upper),
        None => place == 0,
    };
    if is_upper { VoiceId::Upper } else { VoiceId::Lower }
}

/// Where there is room for blank bars.
struct Room {
    /// What the exercise says.
    text: String,
}

impl Room {
    /// As many bars as a row is short of.
    fn in_row(&self, row: &VoiceRow, length: usize) -> Option<Edit> {
        let missing = length.checked_sub(row.bars().len()).filter(|missing| *missing > 0)?;
        let end = usize::from(row.range().end());
        let open = if self.text[..end].ends_with('|') { "" } else { " |" };
        Some((end..end, format!("{open}{}", " |".repeat(missing))))
    }

    /// A row for a voice that has none beside the one that stands there.
    fn for_row(
        &self,
        voice: VoiceId,
        registers: Option<[&'static str; 2]>,
        rows: &[VoiceRow],
        length: usize,
    ) -> Option<Edit> {
        let [upper, lower] = registers?;
        let range = rows.first()?.range();
        let (bars, newline) = (" |".repeat(length + 1), line_end(&self.text));
        if voice == VoiceId::Upper {
            let start = usize::from(range.start());
            return Some((start..start, format!("{upper}{bars}{newline}")));
        }
        let end = end_of_line(&self.text, usize::from(range.end()));
        Some((end..end, format!("{newline}{lower}{bars}")))
    }
}
