//! Other pitches for a finding: nearby ones are tried by the judge, and only those that remove the
//! finding and bring no new fault are offered, nearest and most stepwise first. Where one note
//! cannot mend it, two neighbouring notes are tried together.

use bicinium_analysis::judge::Spot;
use bicinium_analysis::score::{Event, Score, VoiceId};
use bicinium_analysis::sheet::{Account, Change, Placed, Tally};
use bicinium_analysis::{Exercise, Finding};
use bicinium_theory::{Duration, Interval, Key, Pitch};

use super::Proposal;

/// How many pitches are offered for one finding.
const OFFERED: usize = 5;
/// How far a single note is moved, in steps: an octave.
const REACH: i16 = 7;
/// How far two notes are moved together.
const PAIR_REACH: i16 = 4;

/// Other pitches that mend a finding, best first.
pub(super) fn proposals(block: &Placed, exercise: &Exercise, finding: &Finding) -> Vec<Proposal> {
    let Some(place) = finding.place else { return Vec::new() };
    let spot = Spot { voice: finding.voice, onset: place.onset };
    let search = Search { exercise, rule: finding.rule, spot, before: exercise.account() };
    let notes = search.concerned(block, finding);
    let mut found = search.singles(&notes);
    if found.is_empty() {
        found = search.pairs(&notes);
    }
    found.sort_by_key(|mending| mending.rank);
    found.truncate(OFFERED);
    found.into_iter().map(|mending| mending.proposal(block, exercise)).collect()
}

/// Notes changed so that the finding is gone.
struct Mending {
    changes: Vec<Change>,
    rank: Rank,
}

/// What is left to say, how wide the leaps around the new notes are, how far the notes are moved.
type Rank = (Tally, i16, i16);

struct Search<'a> {
    exercise: &'a Exercise,
    rule: &'static str,
    spot: Spot,
    before: Account,
}

/// A note that may be changed.
type Note = (VoiceId, Duration);

impl Search<'_> {
    fn score(&self) -> &Score {
        &self.exercise.score
    }

    /// The notes that a finding is about, then their neighbours; only those that may be changed.
    fn concerned(&self, block: &Placed, finding: &Finding) -> Vec<Note> {
        let mut notes = self.written_at(|event| is_under(block, event, finding));
        let at_spot =
            self.written_at(|event| event.onset == self.spot.onset && event.pitch().is_some());
        notes.extend(at_spot);
        let neighbours: Vec<_> = notes.iter().flat_map(|note| self.neighbours(*note)).collect();
        notes.extend(neighbours);
        let mut seen = Vec::new();
        notes.retain(|note| {
            !seen.contains(note) && {
                seen.push(*note);
                true
            }
        });
        notes
    }

    fn written_at(&self, is_meant: impl Fn(&Event) -> bool) -> Vec<Note> {
        let written = self.score().setting.written();
        let of_voice = |voice: VoiceId| {
            let events = self.score().lines[voice].events.iter();
            let meant = events.filter(|event| event.pitch().is_some() && is_meant(event));
            meant.map(move |event| (voice, event.onset)).collect::<Vec<_>>()
        };
        written.flat_map(of_voice).collect()
    }

    fn neighbours(&self, (voice, onset): Note) -> Vec<Note> {
        let events = &self.score().lines[voice].events;
        let Some(index) = events.iter().position(|event| event.onset == onset) else {
            return Vec::new();
        };
        let around = [index.checked_sub(1), Some(index + 1)].into_iter().flatten();
        let events = around.filter_map(|index| events.get(index));
        events.filter(|event| event.pitch().is_some()).map(|event| (voice, event.onset)).collect()
    }

    fn singles(&self, notes: &[Note]) -> Vec<Mending> {
        let changes = notes.iter().flat_map(|note| self.moved(*note, REACH));
        changes.filter_map(|change| self.try_out(vec![change])).collect()
    }

    /// Two notes in a row, both moved.
    fn pairs(&self, notes: &[Note]) -> Vec<Mending> {
        let mut found = Vec::new();
        for first in notes {
            let Some(second) = self.follower(*first).filter(|second| notes.contains(second)) else {
                continue;
            };
            for change in self.moved(*first, PAIR_REACH) {
                let others = self.moved(second, PAIR_REACH);
                found.extend(
                    others.into_iter().filter_map(|other| self.try_out(vec![change, other])),
                );
            }
        }
        found
    }

    fn follower(&self, (voice, onset): Note) -> Option<Note> {
        let mut later = self.score().lines[voice].events.iter().filter(|event| event.onset > onset);
        later.next().filter(|event| event.pitch().is_some()).map(|event| (voice, event.onset))
    }

    /// A note moved to every pitch of the key within reach.
    fn moved(&self, (voice, onset): Note, reach: i16) -> Vec<Change> {
        let event = self.score().lines[voice].event_at(onset);
        let Some(old) = event.and_then(Event::pitch) else { return Vec::new() };
        let pitches = nearby(self.score().setting.key, old, reach);
        pitches.into_iter().map(|pitch| Change { voice, onset, pitch }).collect()
    }

    fn try_out(&self, changes: Vec<Change>) -> Option<Mending> {
        let after = self.exercise.account_with(&changes);
        let is_gone = !after.has(self.rule, self.spot);
        let is_better = after.tally() < self.before.tally();
        let mends = is_gone && is_better && after.brings_no_fault_to(&self.before);
        mends.then(|| {
            let rank = (after.tally(), self.leaps(&changes), self.distance(&changes));
            Mending { changes, rank }
        })
    }

    /// How far the new notes lie from their neighbours beyond a step.
    fn leaps(&self, changes: &[Change]) -> i16 {
        let pitch = |(voice, onset): Note| {
            let new = changes.iter().find(|c| c.voice == voice && c.onset == onset);
            new.map(|c| c.pitch).or_else(|| self.score().lines[voice].event_at(onset)?.pitch())
        };
        let around = |change: &Change| {
            let note = (change.voice, change.onset);
            let others = self.neighbours(note).into_iter().filter_map(pitch);
            others.map(|other| (steps(other, change.pitch) - 1).max(0)).sum::<i16>()
        };
        changes.iter().map(around).sum()
    }

    fn distance(&self, changes: &[Change]) -> i16 {
        let old =
            |change: &Change| self.score().lines[change.voice].event_at(change.onset)?.pitch();
        changes.iter().filter_map(|change| Some(steps(old(change)?, change.pitch))).sum()
    }
}

impl Mending {
    fn proposal(&self, block: &Placed, exercise: &Exercise) -> Proposal {
        let score = &exercise.score;
        let event = |change: &Change| score.lines[change.voice].event_at(change.onset);
        let edit = |change: &Change| {
            Some((block.in_sheet(event(change)?.range), change.pitch.to_string()))
        };
        let edits = self.changes.iter().filter_map(edit).collect();
        Proposal { title: self.title(score), edits, mends_it: true }
    }

    /// "Write D4 and C4 instead of E4 and G4 in bars 6 and 7".
    fn title(&self, score: &Score) -> String {
        let old = |change: &Change| score.lines[change.voice].event_at(change.onset)?.pitch();
        let together = |parts: Vec<String>| parts.join(" and ");
        let new = together(self.changes.iter().map(|change| change.pitch.to_string()).collect());
        let old = self.changes.iter().filter_map(old).map(|pitch| pitch.to_string()).collect();
        let mut bars: Vec<_> =
            self.changes.iter().map(|change| score.setting.bar_of(change.onset) + 1).collect();
        bars.dedup();
        let word = if bars.len() == 1 { "bar" } else { "bars" };
        let bars = together(bars.iter().map(ToString::to_string).collect());
        format!("Write {new} instead of {} in {word} {bars}", together(old))
    }
}

fn is_under(block: &Placed, event: &Event, finding: &Finding) -> bool {
    let related = finding.related.iter().any(|related| related.range == event.range);
    block.in_sheet(event.range) == block.in_sheet(finding.range) || related
}

/// The pitches of a key within so many steps of a pitch, with its raised sixth and seventh.
fn nearby(key: Key, old: Pitch, reach: i16) -> Vec<Pitch> {
    let classes = key.scale().into_iter().chain([key.leading_note(), key.raised_sixth()]);
    let classes: Vec<_> = classes.collect();
    let octaves = old.octave() - 1..=old.octave() + 1;
    let all = octaves.flat_map(|octave| classes.iter().filter_map(move |class| class.at(octave)));
    let mut pitches: Vec<_> = all.filter(|new| *new != old && steps(old, *new) <= reach).collect();
    pitches.sort_unstable();
    pitches.dedup();
    pitches
}

fn steps(from: Pitch, to: Pitch) -> i16 {
    Interval::between(from, to).steps().abs()
}
