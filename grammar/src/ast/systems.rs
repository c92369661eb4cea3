//! Rows that sound together, one system after the other. A system ends where a name comes again, and
//! at a blank line once it has both voices. Where both voices have the same name, that name comes
//! twice in each system. This module must not know what stands in a bar.

use super::read::tokens;
use super::rows::is_gap;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// The system of each line, counted from 0, if it is a row.
pub(crate) fn numbers(lines: &[SyntaxNode]) -> Vec<Option<usize>> {
    let mut voices: Vec<String> = lines.iter().filter_map(voice).collect();
    voices.sort_unstable();
    voices.dedup();
    let room = if voices.len() == 1 { 2 } else { 1 };
    let mut system = System { number: 0, room, voices: Vec::new(), harmonies: 0 };
    lines.iter().map(|line| system.place(line)).collect()
}

/// The name of the voice whose row `line` is.
fn voice(line: &SyntaxNode) -> Option<String> {
    let named = line.kind() == SyntaxKind::VoiceRow;
    let word = tokens(line).find(|token| !token.kind().is_trivia()).filter(|_| named)?;
    Some(word.text().to_ascii_lowercase())
}

/// The system that is being filled.
struct System {
    number: usize,
    /// How many rows of one name it takes.
    room: usize,
    voices: Vec<String>,
    harmonies: usize,
}

impl System {
    /// The number of the system to which `line` belongs, if it is a row.
    fn place(&mut self, line: &SyntaxNode) -> Option<usize> {
        match line.kind() {
            SyntaxKind::VoiceRow => self.take_voice(voice(line)?),
            SyntaxKind::LineRow => self.next(),
            SyntaxKind::HarmonyRow => self.take_harmony(),
            SyntaxKind::BlankLine if is_gap(line) && self.voices.len() > 1 => {
                self.next();
                return None;
            }
            _ => return None,
        }
        Some(self.number)
    }

    fn take_voice(&mut self, name: String) {
        if self.voices.iter().filter(|known| **known == name).count() == self.room {
            self.next();
        }
        self.voices.push(name);
    }

    fn take_harmony(&mut self) {
        if self.harmonies > 0 {
            self.next();
        }
        self.harmonies += 1;
    }

    fn next(&mut self) {
        self.number += 1;
        self.voices.clear();
        self.harmonies = 0;
    }
}
