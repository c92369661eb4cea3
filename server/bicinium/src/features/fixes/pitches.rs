//! Other pitches for a finding: the notes it is about are opened again, one by one, then two and
//! three in a row, and the realizer says what they may become so that the finding is gone. Offered is
//! what the judge has tried, with few notes changed before many and near ones before far ones.

use bicinium_analysis::judge::Spot;
use bicinium_analysis::sheet::{Account, Change, Placed};
use bicinium_analysis::{Exercise, Finding};
use bicinium_realizer::{Broken, Extent, Realization, Realizer, Terms, Watch};

use super::Proposal;
use super::concerned::{Note, concerned, rows};
use super::mending::{Mending, steps};
use crate::features::patience::Patience;
use crate::features::realizing::PROMPT;

/// How many pitches are offered for one finding.
const OFFERED: usize = 5;
/// How many notes in a row are opened at most.
const TOGETHER: usize = 3;
/// How many ways are looked at for notes that are opened.
const WAYS: usize = 100;
/// How many of them are tried by the judge.
const TRIED: usize = 12;
/// How far a note is moved, in steps: an octave.
const REACH: i16 = 7;

/// Other pitches that mend a finding, best first.
pub(super) fn proposals(
    block: &Placed,
    exercise: &Exercise,
    finding: &Finding,
    patience: Patience<'_>,
) -> Vec<Proposal> {
    let Some(place) = finding.place.filter(|_| !patience.is_over()) else { return Vec::new() };
    let spot = Spot { voice: finding.voice, onset: place.onset };
    let watch = patience.watch(PROMPT);
    let broken = (finding.rule, spot);
    let standing = Terms::as_it_stands(exercise);
    let terms = standing.clone().without(broken).only();
    let search = Search { exercise, broken, terms, before: exercise.account(), watch: &watch };
    let notes = concerned(block, exercise, finding, spot);
    let mut found = (1..=TOGETHER).map(|count| search.mendings(&notes, count));
    let found = found.find(|found| !found.is_empty()).unwrap_or_default();
    let found = that_reach_the_end(exercise, &standing, found, patience).into_iter();
    found.map(|mending| mending.proposal(block, exercise)).collect()
}

struct Search<'a> {
    exercise: &'a Exercise,
    broken: Broken,
    /// That the finding goes, while the other faults may stay.
    terms: Terms,
    before: Account,
    watch: &'a Watch<'a>,
}

impl Search<'_> {
    /// What mends the finding if so many notes in a row are opened again, best first.
    fn mendings(&self, notes: &[Note], count: usize) -> Vec<Mending> {
        let rows = rows(&self.exercise.score, notes, count);
        let mut found: Vec<_> = rows.iter().flat_map(|row| self.opened(row)).collect();
        found.sort_by_key(|mending| mending.nearness);
        found.dedup_by(|a, b| a.changes == b.changes);
        let tried = found.into_iter().take(TRIED).filter_map(|mending| self.tried(mending));
        let mut found: Vec<_> = tried.take(OFFERED).collect();
        found.sort_by_key(Mending::rank);
        found
    }

    /// What notes may become so that the finding is gone; the rest stays as it is, written or not.
    fn opened(&self, row: &[Note]) -> Vec<Mending> {
        let terms = self.terms.clone().reopening(row.iter().copied());
        let ways = Realizer::on(terms, self.exercise, self.watch).best(WAYS);
        ways.found.iter().filter_map(|way| self.mending(row, way)).collect()
    }

    fn mending(&self, row: &[Note], way: &Realization) -> Option<Mending> {
        let score = &self.exercise.score;
        let mut changes = Vec::new();
        for &(voice, onset) in row {
            let old = score.lines[voice].event_at(onset)?.pitch()?;
            let pitch = way.note(voice, onset)?.pitch;
            if steps(old, pitch) > REACH {
                return None;
            }
            if pitch != old {
                changes.push(Change { voice, onset, pitch });
            }
        }
        Some(Mending::new(score, changes))
    }

    /// The same, tried by the judge: the finding is gone, no fault is new, and less is left to say.
    fn tried(&self, mending: Mending) -> Option<Mending> {
        let after = self.exercise.account_with(&mending.changes);
        let (rule, spot) = self.broken;
        let is_gone = !after.has(rule, spot);
        let is_better = after.tally() < self.before.tally();
        let mends = is_gone && is_better && after.brings_no_fault_to(&self.before);
        mends.then(|| Mending { left: after.tally(), ..mending })
    }
}

/// Where something is still to be written: only what leaves a way to the end, if anything does.
fn that_reach_the_end(
    exercise: &Exercise,
    standing: &Terms,
    found: Vec<Mending>,
    patience: Patience<'_>,
) -> Vec<Mending> {
    let watch = patience.watch(PROMPT);
    if !Realizer::new(exercise, &watch).is_open() {
        return found;
    }
    let is_closed = |mending: &Mending| {
        let terms = standing.clone().changing(&mending.changes);
        let ways = Realizer::on(terms, exercise, &watch).best(1);
        ways.found.is_empty() && ways.extent == Extent::All
    };
    let (closed, open): (Vec<_>, Vec<_>) = found.into_iter().partition(is_closed);
    if open.is_empty() { closed } else { open }
}
