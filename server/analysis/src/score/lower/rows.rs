//! Which row belongs to which voice. Rows come in systems: a system ends where a voice comes again,
//! or at a blank line once it has both voices. Its shorter rows are filled up with blank bars, so
//! that bar stands under bar in the next.

use bicinium_grammar::{TextRange, ast};
use bicinium_theory::Register;

use super::row::{Bar, Head, Row};
use crate::finding::{Finding, Level};
use crate::score::{Pair, VoiceId};

/// The rows of an exercise, sorted by voice.
#[derive(Debug, Default)]
pub(super) struct Rows<'r> {
    /// The voices; a voice without a row has no bars.
    pub voices: Pair<Voice<'r>>,
    /// The bars of the harmony row; `None` for a bar that has none.
    pub harmonies: Vec<Option<Bar<'r>>>,
    /// The voice that is called cantus.
    pub cantus: Option<VoiceId>,
    /// How many rows of voices there are.
    count: usize,
}

/// The rows of one voice, joined.
#[derive(Debug)]
pub(super) struct Voice<'r> {
    /// Its register; of a voice without a row one that would suit the other.
    pub register: Register,
    /// Where it is first named.
    pub head: TextRange,
    /// Its bars; `None` where a system of the other voice is longer.
    pub bars: Vec<Option<Bar<'r>>>,
    /// How many of them are on the page.
    pub written: u32,
    /// The name of its cantus, and where it stands.
    pub cantus_name: Option<(String, TextRange)>,
}

impl Default for Voice<'_> {
    fn default() -> Self {
        Self {
            register: Register::Soprano,
            head: TextRange::default(),
            bars: Vec::new(),
            written: 0,
            cantus_name: None,
        }
    }
}

impl Rows<'_> {
    /// The number of bars of the longer voice.
    pub(super) fn bars(&self) -> u32 {
        let longest = self.voices.upper.bars.len().max(self.voices.lower.bars.len());
        u32::try_from(longest).unwrap_or(u32::MAX)
    }

    /// The voice of the only row, if that is called cantus and names no definition.
    pub(super) fn lone_cantus(&self) -> Option<VoiceId> {
        let is_own = |voice: &VoiceId| self.voices[*voice].cantus_name.is_none();
        self.cantus.filter(is_own).filter(|_| self.count == 1)
    }

    /// Tells of voices that have no row.
    pub(super) fn tell_missing(&self, block: &ast::ExerciseBlock, findings: &mut Vec<Finding>) {
        let message = match self.count {
            0 => "This exercise has no voices yet; write a row for each of two voices.",
            1 => "This exercise has one voice so far; write a row for the other one.",
            _ => return,
        };
        findings.push(Finding::about_text(
            "voice-missing",
            Level::Unfinished,
            block.head_range(),
            message.to_owned(),
        ));
    }

    /// Fills up what the present system has left short.
    fn close_system(&mut self) {
        let length = self.bars() as usize;
        for voice in VoiceId::BOTH {
            self.voices[voice].bars.resize(length, None);
        }
        self.harmonies.resize(length, None);
    }
}

/// Sorts the rows of an exercise.
pub(super) fn sort<'r>(rows: &'r [Row], findings: &mut Vec<Finding>) -> Rows<'r> {
    let names = Names::of(rows);
    let mut sorter = Sorter { names, rows: Rows::default(), system: Vec::new(), findings };
    for (index, row) in rows.iter().enumerate() {
        // A harmony row behind the last system has no other one that it could belong to.
        if row.follows_a_gap && rows[index..].iter().any(|row| row.head().is_some()) {
            sorter.pass_gap();
        }
        sorter.take(row);
    }
    sorter.finish()
}

/// The registers of the two voices in the order in which they first appear.
struct Names {
    registers: Vec<Register>,
    count: usize,
}

impl Names {
    fn of(rows: &[Row]) -> Self {
        let named = rows.iter().filter_map(|row| row.head()?.register);
        let mut all = Self { registers: Vec::new(), count: 0 };
        for register in named {
            all.count += 1;
            let known = &mut all.registers;
            if !known.contains(&register) {
                known.push(register);
            }
        }
        all
    }
}

/// What takes part in a system.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Voice(VoiceId),
    Harmony,
}

struct Sorter<'r, 'f> {
    names: Names,
    rows: Rows<'r>,
    /// What the present system already has.
    system: Vec<Part>,
    findings: &'f mut Vec<Finding>,
}

impl<'r> Sorter<'r, '_> {
    fn take(&mut self, row: &'r Row) {
        if let Some(head) = row.head() {
            self.take_voice(row, head);
        } else {
            self.begin(Part::Harmony);
            self.rows.harmonies.extend(row.bars().map(Some));
        }
    }

    fn take_voice(&mut self, row: &'r Row, head: &Head) {
        let Some(register) = head.register else { return };
        let Some(voice) = self.voice_of(register) else {
            let message = format!(
                "This is a third voice, {}; an exercise has two. The row is left out.",
                register.name()
            );
            self.notation("third-voice", row.range(), message);
            return;
        };
        self.begin(Part::Voice(voice));
        self.take_head(voice, register, row);
        if head.role == Some(ast::Role::Cantus) {
            self.take_cantus(voice, row);
        }
        let bars = row.bars();
        let known = &mut self.rows.voices[voice];
        known.written = known.written.saturating_add(u32::try_from(bars.len()).unwrap_or(u32::MAX));
        known.bars.extend(bars.map(Some));
    }

    /// Two registers are two voices; rows of one register belong to the voices in turn.
    fn voice_of(&self, register: Register) -> Option<VoiceId> {
        if self.names.registers.len() == 1 && self.names.count > 1 {
            let last = self.system.iter().rev().find(|part| **part != Part::Harmony);
            let upper_is_next = matches!(last, None | Some(Part::Voice(VoiceId::Lower)));
            return Some(if upper_is_next { VoiceId::Upper } else { VoiceId::Lower });
        }
        let index = self.names.registers.iter().position(|known| *known == register)?;
        VoiceId::BOTH.get(index).copied()
    }

    /// A blank line ends a system that has both voices.
    fn pass_gap(&mut self) {
        if VoiceId::BOTH.into_iter().all(|voice| self.system.contains(&Part::Voice(voice))) {
            self.close_system();
        }
    }

    fn begin(&mut self, part: Part) {
        if self.system.contains(&part) {
            self.close_system();
        }
        self.system.push(part);
    }

    fn close_system(&mut self) {
        self.rows.close_system();
        self.system.clear();
    }

    fn take_head(&mut self, voice: VoiceId, register: Register, row: &Row) {
        let known = &mut self.rows.voices[voice];
        if known.head.is_empty() {
            known.head = row.register_range();
            known.register = register;
        }
        if known.cantus_name.is_none() {
            known.cantus_name = row.cantus_name();
        }
    }

    fn take_cantus(&mut self, voice: VoiceId, row: &Row) {
        match self.rows.cantus {
            Some(given) if given != voice => {
                let message = "Both voices are called cantus; only one can be given. This one is \
                               taken as the one to be written."
                    .to_owned();
                self.notation("two-cantus", row.role_range(), message);
            }
            _ => self.rows.cantus = Some(voice),
        }
    }

    fn finish(mut self) -> Rows<'r> {
        let length = self.rows.bars() as usize;
        self.rows.harmonies.truncate(length);
        let Pair { upper, lower } = &mut self.rows.voices;
        if lower.head.is_empty() {
            lower.register = upper.register.partner_below();
        }
        Rows { count: self.names.count, ..self.rows }
    }

    fn notation(&mut self, rule: &'static str, range: TextRange, message: String) {
        self.findings.push(Finding::about_text(rule, Level::Notation, range, message));
    }
}
