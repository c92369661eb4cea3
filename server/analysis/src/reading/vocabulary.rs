//! The harmonies a reading may use: the vocabulary of the school in the key of the exercise, and
//! whatever the writer put in the harmony row. Knows no notes of the exercise.

use bicinium_theory::{Chord, Inversion, Key, Member, Numeral, PitchClass};

use super::plan::Plan;
use crate::score::WrittenHarmony;

/// The number of a harmony in the vocabulary of an exercise.
pub type HarmonyId = u8;

/// The harmonies a reading may use.
#[derive(Clone, Debug, PartialEq)]
pub struct Vocabulary {
    harmonies: Vec<Harmony>,
}

/// A harmony with the inversions in which it may stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Harmony {
    /// The harmony in root position.
    pub numeral: Numeral,
    /// Its notes.
    pub chord: Chord,
    /// The members that may stand in the bass.
    pub basses: Vec<Member>,
    /// How readily it is thought of; 0 is the readiest.
    pub cost: u32,
    /// Whether a reading may choose it unasked; the others are there because they are written.
    pub is_usual: bool,
}

impl Vocabulary {
    /// The vocabulary of a school in a key, with the harmonies that are written.
    pub fn new(plan: &Plan, key: Key, written: &[WrittenHarmony]) -> Self {
        let mut vocabulary = Self { harmonies: Vec::new() };
        for numeral in plan.numerals(key.mode) {
            vocabulary.admit(*numeral, key, plan, true);
        }
        for harmony in written {
            vocabulary.admit(harmony.numeral, key, plan, false);
        }
        vocabulary
    }

    fn admit(&mut self, numeral: Numeral, key: Key, plan: &Plan, is_usual: bool) {
        let root_position = numeral.with_inversion(Inversion::Root);
        let bass = bass_member(numeral.inversion);
        match self.harmonies.iter_mut().find(|harmony| harmony.numeral == root_position) {
            Some(known) if is_usual && !known.basses.contains(&bass) => known.basses.push(bass),
            Some(_) => {}
            None => {
                let basses = if is_usual { vec![bass] } else { vec![Member::Root, Member::Third] };
                let cost = plan.costs.degree(root_position.degree);
                let chord = root_position.chord(key);
                self.push(Harmony { numeral: root_position, chord, basses, cost, is_usual });
            }
        }
    }

    /// Takes a harmony in, as long as it can still be numbered.
    fn push(&mut self, harmony: Harmony) {
        if self.harmonies.len() < usize::from(HarmonyId::MAX) {
            self.harmonies.push(harmony);
        }
    }

    /// A harmony by its number.
    pub fn get(&self, id: HarmonyId) -> Option<&Harmony> {
        self.harmonies.get(usize::from(id))
    }

    /// The numbers of the harmonies that a reading may choose unasked.
    pub fn usual(&self) -> impl Iterator<Item = HarmonyId> + '_ {
        (0..=HarmonyId::MAX).zip(&self.harmonies).filter(|(_, h)| h.is_usual).map(|(id, _)| id)
    }

    /// The number of a written harmony.
    pub fn find(&self, numeral: Numeral) -> Option<HarmonyId> {
        let root_position = numeral.with_inversion(Inversion::Root);
        let index = self.harmonies.iter().position(|harmony| harmony.numeral == root_position)?;
        HarmonyId::try_from(index).ok()
    }
}

impl std::ops::Index<HarmonyId> for Vocabulary {
    type Output = Harmony;

    /// The harmony of a number that this vocabulary gave out.
    fn index(&self, id: HarmonyId) -> &Harmony {
        &self.harmonies[usize::from(id)]
    }
}

impl Harmony {
    /// Which member of the harmony a note is.
    pub fn member(&self, note: PitchClass) -> Option<Member> {
        self.chord.member(note)
    }

    /// The numeral with the figures for a member in the bass.
    pub fn numeral_over(&self, bass: Option<Member>) -> Numeral {
        let inversion = match bass {
            Some(Member::Third) => Inversion::First,
            Some(Member::Fifth) => Inversion::Second,
            Some(Member::Seventh) => Inversion::Third,
            Some(Member::Root) | None => Inversion::Root,
        };
        self.numeral.with_inversion(inversion)
    }

    /// Whether it stands on the tonic.
    pub fn is_tonic(&self) -> bool {
        self.numeral.degree == 1
    }

    /// Whether it leads to the tonic: the major triad on the fifth degree, or the diminished one
    /// on the leading note.
    pub fn is_dominant(&self) -> bool {
        use bicinium_theory::TriadQuality::{Diminished, Major};
        matches!((self.numeral.degree, self.numeral.quality), (5, Major) | (7, Diminished))
    }
}

/// The member that an inversion puts in the bass.
pub fn bass_member(inversion: Inversion) -> Member {
    match inversion {
        Inversion::Root => Member::Root,
        Inversion::First => Member::Third,
        Inversion::Second => Member::Fifth,
        Inversion::Third => Member::Seventh,
    }
}
