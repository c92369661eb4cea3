//! Which accidentals are printed: those that the key and the bar so far do not say, and, to be
//! courteous, those that take back what the bar before has said. Knows no format.

use bicinium_theory::{Accidental, Key, Letter, Pitch};

/// What stands before a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Printed {
    /// Nothing.
    Nothing,
    /// The accidental.
    Needed,
    /// The accidental, as a reminder.
    Courtesy,
}

/// What has been said about the notes of a voice.
#[derive(Clone, Debug)]
pub(crate) struct Said {
    key: Key,
    before: Vec<Pitch>,
    now: Vec<Pitch>,
}

impl Said {
    /// Nothing but the key.
    pub(crate) fn by(key: Key) -> Self {
        Self { key, before: Vec::new(), now: Vec::new() }
    }

    /// Passes a barline.
    pub(crate) fn pass_barline(&mut self) {
        self.before = std::mem::take(&mut self.now);
    }

    /// Takes a note that is struck, and tells what stands before it.
    pub(crate) fn strike(&mut self, pitch: Pitch) -> Printed {
        let last = self.now.iter().rev().find(|known| known.step() == pitch.step());
        let in_force = last.map_or_else(|| of_key(self.key, pitch.letter()), |it| it.accidental());
        let is_other = |known: &Pitch| {
            known.letter() == pitch.letter() && known.accidental() != pitch.accidental()
        };
        let is_reminded = last.is_none() && self.before.iter().chain(&self.now).any(is_other);
        self.now.push(pitch);
        if in_force != pitch.accidental() {
            Printed::Needed
        } else if is_reminded {
            Printed::Courtesy
        } else {
            Printed::Nothing
        }
    }
}

/// The accidental that the key gives to a letter.
fn of_key(key: Key, letter: Letter) -> Accidental {
    let own = key.scale().into_iter().find(|note| note.letter == letter);
    own.map_or(Accidental::NATURAL, |note| note.accidental)
}
