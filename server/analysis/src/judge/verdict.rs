//! The verdict on a whole exercise: every rule asked at every moment, and the best way of hearing
//! it. The same code judges what is written and what might be written.

use super::memory::Memory;
use super::moment::{Moment, moments};
use super::report::{Admission, Breach, Detail, Report};
use super::step::Close;
use crate::reading::{self, Listener, Passage, Reading, Vocabulary};
use crate::rulebook::Rules;
use crate::score::Score;

/// The verdict on an exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// What the rules say, in order of place.
    pub breaches: Vec<Breach>,
    /// What the rules let pass for a reason, in order of place.
    pub admissions: Vec<Admission>,
    /// How the exercise is heard.
    pub reading: Reading,
}

/// Judges an exercise by the rules of a school for its species.
pub fn judge(score: &Score, rules: &Rules) -> Verdict {
    let moments = moments(score);
    let memories = memories(&moments);
    let vocabulary = Vocabulary::new(&rules.plan, score.setting.key, &score.harmonies);
    let listener = Listener {
        setting: &score.setting,
        written: &score.harmonies,
        rules,
        vocabulary: &vocabulary,
    };
    let passage = Passage { listener, moments: &moments, memories: &memories };
    let (mut breaches, mut admissions) = by_notes(&passage).into_parts();
    let best = reading::best(&passage);
    breaches.extend(best.breaches.iter().cloned());
    breaches.sort_by_key(|breach| (breach.spot.onset, breach.level, breach.rule));
    admissions.extend(best.admissions.iter().cloned());
    admissions.sort_by_key(|admission| (admission.spot.onset, admission.rule));
    Verdict { breaches, admissions, reading: Reading::new(&passage, &best) }
}

fn memories(moments: &[Moment]) -> Vec<Memory> {
    let mut memories = vec![Memory::default()];
    for moment in moments {
        let next = memories.last().map(|memory| memory.after(moment)).unwrap_or_default();
        memories.push(next);
    }
    memories
}

fn by_notes(passage: &Passage<'_>) -> Report {
    let mut report = Report::new(Detail::Worded);
    for index in 0..passage.moments.len() {
        passage.listener.rules.step(&passage.step(index), &mut report);
    }
    if let Some(memory) = passage.memories.last() {
        let close = Close { setting: passage.listener.setting, moments: passage.moments, memory };
        passage.listener.rules.close(&close, &mut report);
    }
    report
}
