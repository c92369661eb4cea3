//! A score of another program as a sheet: what was read from it, put into rows of bars. What is read
//! from scores is decided elsewhere.

use bicinium_analysis::score::VoiceId;
use bicinium_export::import::{Import, Voice};
use bicinium_grammar::format;

use super::realizing::bar_text;

/// How many bars stand in a row.
const BARS_IN_A_ROW: u32 = 8;

/// What is known of a score beside its notes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Task {
    /// The species, 1 to 5; free writing if there is none.
    pub species: Option<u8>,
    /// The voice that is the cantus.
    pub cantus: Option<VoiceId>,
}

/// A sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// Its text, laid out.
    pub text: String,
    /// The bars, counted from 0, that are left blank since their rhythm cannot be written in shares, each
    /// with its voice.
    pub unwritten: Vec<(VoiceId, u32)>,
}

/// Writes a score as a sheet with one exercise.
pub fn sheet(import: &Import, task: Task) -> Written {
    let mut unwritten = Vec::new();
    let bars = VoiceId::BOTH.map(|voice| bars(import, voice, &mut unwritten));
    let mut text = head(import, task);
    let starts = (0..import.bars).step_by(BARS_IN_A_ROW as usize);
    for start in starts {
        let end = (start + BARS_IN_A_ROW).min(import.bars);
        for (voice, bars) in VoiceId::BOTH.into_iter().zip(&bars) {
            let bars = &bars[start as usize..end as usize];
            text += &row(import, task, voice, start == 0, bars);
        }
        text += if end < import.bars { "\n" } else { "" };
    }
    Written { text: format(&text), unwritten }
}

fn head(import: &Import, task: Task) -> String {
    let title = import.title.as_deref().map(|title| format!(" \"{}\"", plain(title)));
    let by = import.author.as_deref().map(|by| format!("  by \"{}\"\n", plain(by)));
    let species = task.species.map(|species| format!("  species {species}\n"));
    format!(
        "exercise{}\n{}  key {}\n  meter {}\n{}\n",
        title.unwrap_or_default(),
        by.unwrap_or_default(),
        import.key,
        import.meter,
        species.unwrap_or_default(),
    )
}

fn row(import: &Import, task: Task, voice: VoiceId, is_first: bool, bars: &[String]) -> String {
    let role = match task.cantus {
        Some(cantus) if cantus == voice => " cantus",
        Some(_) => " counter",
        None => "",
    };
    let role = if is_first { role } else { "" };
    format!("  {}{role} | {} |\n", import.voices[voice].register, bars.join(" | "))
}

/// The bars of a voice as they are written.
fn bars(import: &Import, voice: VoiceId, unwritten: &mut Vec<(VoiceId, u32)>) -> Vec<String> {
    let Voice { notes, blank, .. } = &import.voices[voice];
    let length = import.meter.bar_length();
    let mut first = 0;
    let mut bar = |number: u32| {
        if blank.contains(&number) {
            return String::new();
        }
        let start = length * number;
        first += notes[first..].partition_point(|note| note.end() <= start);
        let last = first + notes[first..].partition_point(|note| note.onset < start + length);
        bar_text(&notes[first..last], start, length).unwrap_or_else(|| {
            unwritten.push((voice, number));
            String::new()
        })
    };
    (0..import.bars).map(&mut bar).collect()
}

/// A text that can stand in quotation marks.
fn plain(text: &str) -> String {
    let plain = |character: char| match character {
        '"' => '\'',
        _ if character.is_control() => ' ',
        _ => character,
    };
    text.chars().map(plain).collect()
}
