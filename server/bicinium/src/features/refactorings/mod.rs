//! What can be done with music that is not wrong: another key, the voices exchanged, a system more.
//! Each is a change of the text that leaves everything else as it stands, byte for byte. Knows trials
//! of the judge, not rules.

mod cantus;
mod exchange;
mod licences;
mod rows;
mod spelling;
mod system;
mod transposition;

use std::ops::Range;

use bicinium_analysis::score::Score;
use bicinium_analysis::sheet::{Account, Placed};
use bicinium_analysis::{Exercise, Snapshot, judge};
use bicinium_grammar::{TextRange, ast};

use self::rows::VoiceRows;

/// Something that can be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refactoring {
    /// What it does, as a line in a menu.
    pub title: String,
    /// What it is about.
    pub subject: Subject,
    /// The changes of the text: ranges in bytes of the sheet, and what stands there instead.
    pub edits: Vec<(Range<usize>, String)>,
}

/// What a refactoring is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// Everything in another key or octave.
    Transposition,
    /// The upper voice below and the lower above.
    Exchange,
    /// A cantus that is only named, written out.
    Cantus,
    /// Room for more bars.
    System,
    /// The same key of the keyboard by another name.
    Spelling,
    /// Faults accepted.
    Licences,
}

/// What can be done with the block at a range of bytes. What concerns a block as a whole is offered
/// at its first line and at the names of its voices, what concerns a note at that note.
pub fn refactorings(snapshot: &Snapshot, range: &Range<usize>) -> Vec<Refactoring> {
    let Some(block) = snapshot.block_at(range.start) else { return Vec::new() };
    let tree = block.judged.tree.ast();
    let found = match (&tree, &block.judged.exercise) {
        (ast::Block::Cantus(cantus), _) if is_at(block, cantus.head_range(), range) => {
            transposition::of_cantus(block, cantus)
        }
        (ast::Block::Exercise(written), Some(exercise)) => {
            of_exercise(&Place { block, written, exercise }, range)
        }
        _ => Vec::new(),
    };
    found.into_iter().map(|it| it.in_sheet(block)).collect()
}

fn of_exercise(place: &Place<'_>, range: &Range<usize>) -> Vec<Draft> {
    let mut found: Vec<_> = spelling::at(place, range).into_iter().collect();
    let rows = VoiceRows::of(place.written);
    let heads = rows.heads().chain([place.written.head_range()]);
    if heads.into_iter().any(|head| is_at(place.block, head, range)) {
        found.extend(cantus::written_out(place, &rows));
        found.extend(system::next(place, &rows));
        found.extend(exchange::at_the_octave(place, &rows));
        found.extend(transposition::of_exercise(place, &rows));
        found.extend(licences::for_faults(place));
    }
    found
}

fn is_at(block: &Placed, part: TextRange, range: &Range<usize>) -> bool {
    let part = block.in_sheet(part);
    part.start <= range.end && range.start <= part.end
}

/// An exercise with all that is known about it.
struct Place<'a> {
    block: &'a Placed,
    written: &'a ast::ExerciseBlock,
    exercise: &'a Exercise,
}

impl Place<'_> {
    /// The text of the block.
    fn text(&self) -> String {
        self.block.judged.tree.text()
    }

    /// Whether every line could be read.
    fn is_clean(&self) -> bool {
        self.block.judged.tree.problems.is_empty()
    }

    /// What the judge says of the exercise with other music.
    fn account_of(&self, score: Score) -> Account {
        let rules = self.exercise.rulebook.rules(score.setting.writing());
        let verdict = judge::judge(&score, rules);
        Exercise { score, verdict, ..self.exercise.clone() }.account()
    }
}

/// Changes relative to the block, before they are placed in the sheet.
type Edits = Vec<(TextRange, String)>;

/// A refactoring with its changes relative to the block.
struct Draft {
    title: String,
    subject: Subject,
    edits: Edits,
}

impl Draft {
    fn in_sheet(self, block: &Placed) -> Refactoring {
        let mut edits: Vec<_> =
            self.edits.into_iter().map(|(range, text)| (block.in_sheet(range), text)).collect();
        edits.sort_by_key(|(range, _)| range.start);
        Refactoring { title: self.title, subject: self.subject, edits }
    }
}
