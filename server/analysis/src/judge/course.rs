//! The course of judging one exercise, kept so that after an edit only that is judged again which
//! the edit can influence: the moments that differ, those at which something of them can still be
//! seen, and those at which the music is heard otherwise because of them. The same code judges an
//! exercise from the beginning: then all of it differs. Knows no text.

use std::sync::Arc;

use super::memory::Memory;
use super::moment::{Moment, moments};
use super::report::{Admission, Breach, Detail, Report};
use super::step::Close;
use super::verdict::Verdict;
use crate::reading::{Listener, Passage, Reading, Search, Vocabulary};
use crate::rulebook::Rules;
use crate::score::{Score, Setting, WrittenHarmony};

/// The course of judging an exercise.
#[derive(Debug)]
pub struct Course {
    rules: Arc<Rules>,
    setting: Setting,
    written: Vec<WrittenHarmony>,
    moments: Vec<Moment>,
    /// What can be seen before each moment, and after the last one. Behind a change, what is counted
    /// since the beginning is not kept up to date.
    memories: Vec<Memory>,
    /// What the rules say of the notes alone at each moment.
    by_notes: Vec<(Vec<Breach>, Vec<Admission>)>,
    search: Search,
    reading: Arc<Reading>,
}

/// Where the moments of an exercise differ from those of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// How many moments at the beginning are the same.
    pub head: usize,
    /// How many moments behind them are gone.
    pub removed: usize,
    /// How many stand in their place.
    pub inserted: usize,
}

impl Change {
    fn between(old: &[Moment], new: &[Moment]) -> Self {
        let head = old.iter().zip(new).take_while(|(old, new)| old == new).count();
        let (old, new) = (&old[head..], &new[head..]);
        let both = old.iter().rev().zip(new.iter().rev());
        let tail = both.take_while(|(old, new)| old == new).count();
        Self { head, removed: old.len() - tail, inserted: new.len() - tail }
    }

    /// Whether nothing differs.
    pub fn is_none(self) -> bool {
        self.removed == 0 && self.inserted == 0
    }

    /// Where the moments behind the change begin.
    fn end(self) -> usize {
        self.head + self.inserted
    }

    /// What stood before at a place behind the change.
    pub fn old(self, new: usize) -> usize {
        new - self.inserted + self.removed
    }
}

impl Course {
    /// Judges an exercise, and goes on from another course if there is one. Says at how many moments
    /// the music was heard for it.
    pub fn after(
        earlier: Option<Self>,
        score: &Score,
        rules: &Arc<Rules>,
    ) -> (Self, Verdict, usize) {
        match earlier {
            Some(earlier) => earlier.go_on(score, rules),
            None => Self::begin(score, rules),
        }
    }

    /// Judges an exercise from the beginning.
    fn begin(score: &Score, rules: &Arc<Rules>) -> (Self, Verdict, usize) {
        let vocabulary = Vocabulary::new(&rules.plan, score.setting.key, &score.harmonies);
        let course = Self {
            rules: rules.clone(),
            setting: score.setting.clone(),
            written: score.harmonies.clone(),
            moments: Vec::new(),
            memories: vec![Memory::default()],
            by_notes: Vec::new(),
            search: Search::default(),
            reading: Arc::new(Reading::empty(Arc::new(vocabulary))),
        };
        course.go_over(score)
    }

    fn go_on(self, score: &Score, rules: &Arc<Rules>) -> (Self, Verdict, usize) {
        if self.is_set_like(score) && Arc::ptr_eq(&self.rules, rules) {
            return self.go_over(score);
        }
        Self::begin(score, rules)
    }

    /// Whether all that the rules can see beside the notes is the same.
    fn is_set_like(&self, score: &Score) -> bool {
        let music = |it: &WrittenHarmony| (it.onset, it.duration, it.numeral);
        self.setting == score.setting
            && self.written.iter().map(music).eq(score.harmonies.iter().map(music))
    }

    fn go_over(mut self, score: &Score) -> (Self, Verdict, usize) {
        let new = moments(score);
        let change = Change::between(&self.moments, &new);
        self.moments = new;
        let settled = self.remember(change);
        let vocabulary = self.reading.vocabulary.clone();
        let listener = Listener {
            setting: &score.setting,
            written: &score.harmonies,
            rules: &self.rules,
            vocabulary: &vocabulary,
        };
        let (moments, memories) = (self.moments.as_slice(), self.memories.as_slice());
        let passage = Passage { listener, moments, memories };
        let end = settled.min(moments.len());
        let told = (change.head..end).map(|index| by_notes(&passage, index));
        let old_end = if settled > moments.len() { self.by_notes.len() } else { change.old(end) };
        self.by_notes.splice(change.head..old_end, told);
        let (count, otherwise) = self.search.follow(&passage, change, settled);
        self.reading = Arc::new(self.reading.retold(&passage, &self.search, &otherwise));
        let verdict = verdict(&passage, &self.by_notes, &self.search, &self.reading);
        (self, verdict, count)
    }

    /// Brings the memories up to date, and returns the place of the first one from which on all go on
    /// as before; one beyond the last if there is none.
    fn remember(&mut self, change: Change) -> usize {
        let mut fresh: Vec<Memory> = Vec::new();
        for (index, moment) in self.moments.iter().enumerate().skip(change.head) {
            let memory = fresh.last().unwrap_or(&self.memories[change.head]).after(moment);
            let place = index + 1;
            if place >= change.end() {
                let old = change.old(place);
                if memory.goes_on_as(&self.memories[old]) {
                    self.memories.splice(change.head + 1..old, fresh);
                    return place;
                }
            }
            fresh.push(memory);
        }
        if change.is_none() {
            return self.moments.len();
        }
        self.memories.truncate(change.head + 1);
        self.memories.append(&mut fresh);
        self.moments.len() + 1
    }
}

fn by_notes(passage: &Passage<'_>, index: usize) -> (Vec<Breach>, Vec<Admission>) {
    let mut report = Report::new(Detail::Worded);
    passage.listener.rules.step(&passage.step(index), &mut report);
    report.into_parts()
}

fn at_the_end(passage: &Passage<'_>) -> (Vec<Breach>, Vec<Admission>) {
    let mut report = Report::new(Detail::Worded);
    let memory = passage.memories[passage.moments.len()].recounted(passage.moments);
    let (setting, moments) = (passage.listener.setting, passage.moments);
    passage.listener.rules.close(&Close { setting, moments, memory: &memory }, &mut report);
    report.into_parts()
}

fn verdict(
    passage: &Passage<'_>,
    by_notes: &[(Vec<Breach>, Vec<Admission>)],
    search: &Search,
    reading: &Arc<Reading>,
) -> Verdict {
    let end = at_the_end(passage);
    let told = search.told();
    let mut breaches: Vec<_> = by_notes.iter().flat_map(|told| &told.0).cloned().collect();
    breaches.extend(end.0);
    breaches.extend(told.flat_map(|told| &told.breaches).cloned());
    breaches.sort_by_key(|breach| (breach.spot.onset, breach.level, breach.rule));
    let mut admissions: Vec<_> = by_notes.iter().flat_map(|told| &told.1).cloned().collect();
    admissions.extend(end.1);
    admissions.extend(search.told().flat_map(|told| &told.admissions).cloned());
    admissions.sort_by_key(|admission| (admission.spot.onset, admission.rule));
    Verdict { breaches, admissions, reading: reading.clone() }
}
