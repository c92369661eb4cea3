//! What can be done about findings, as changes of the text: other pitches that the judge has tried,
//! what the notation suggests, a licence with a reason. Knows findings and trials, not rules.

mod cantus;
mod concerned;
pub(super) mod licence;
mod mending;
mod pitches;
mod text;

use std::ops::Range;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Finding, Level, Snapshot};

use super::patience::Patience;

/// How long other pitches are looked for, for all findings of a stretch together. The first ones come
/// first; for the rest there is what needs no search.
const ALL_TOGETHER: Duration = Duration::from_secs(3);

/// Something that can be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, as a line in a menu.
    pub title: String,
    /// The changes of the text: ranges in bytes of the sheet, and what stands there instead.
    pub edits: Vec<(Range<usize>, String)>,
    /// Whether it is the best for one of the findings that it mends.
    pub preferred: bool,
    /// The findings it mends, as their numbers in the order of the snapshot.
    pub mends: Vec<usize>,
}

/// What can be done about the findings that touch a range of bytes; less, once nobody waits for it.
pub fn fixes(snapshot: &Snapshot, range: &Range<usize>, cancelled: &AtomicBool) -> Vec<Fix> {
    let patience = Patience::new(ALL_TOGETHER, cancelled);
    let numbered = snapshot.findings().enumerate();
    let touched = numbered.filter(|(_, located)| touches(&located.range(), range));
    let all = touched.flat_map(|(number, it)| of_finding(it.block, number, it.finding, patience));
    all.fold(Vec::new(), joined)
}

/// What a finding carries with it that is not one of the sheet's own, best first.
pub fn carried(block: &Placed, finding: &Finding) -> Vec<Fix> {
    let proposals = text::proposals(block, finding).into_iter().enumerate();
    proposals.map(|(place, proposal)| proposal.fix(place, Vec::new())).collect()
}

/// The fixes with one more, which is said only once where it mends several findings.
fn joined(mut fixes: Vec<Fix>, fix: Fix) -> Vec<Fix> {
    match fixes.iter_mut().find(|known| known.edits == fix.edits) {
        Some(known) => {
            known.preferred |= fix.preferred;
            known.mends.extend(fix.mends);
        }
        None => fixes.push(fix),
    }
    fixes
}

/// What can be done about one finding, best first.
fn of_finding(
    block: &Placed,
    number: usize,
    finding: &Finding,
    patience: Patience<'_>,
) -> Vec<Fix> {
    let mut proposals = text::proposals(block, finding);
    if let Some(exercise) = block.judged.exercise.as_ref().filter(|_| is_judged(finding)) {
        proposals.extend(of_exercise(block, exercise, finding, patience));
    }
    let proposals = proposals.into_iter().enumerate();
    proposals.map(|(place, proposal)| proposal.fix(place, vec![number])).collect()
}

fn of_exercise(
    block: &Placed,
    exercise: &Exercise,
    finding: &Finding,
    patience: Patience<'_>,
) -> Vec<Proposal> {
    let mut proposals: Vec<_> = cantus::proposal(block, exercise, finding).into_iter().collect();
    proposals.extend(pitches::proposals(block, exercise, finding, patience));
    proposals.extend(licence::proposal(block, finding));
    proposals
}

/// Whether a finding is the judge's, and still stands.
fn is_judged(finding: &Finding) -> bool {
    let is_rule = matches!(finding.level, Level::Fault | Level::Caution | Level::Advice);
    is_rule && finding.stands()
}

/// A fix before it is known where it stands in the list.
struct Proposal {
    title: String,
    edits: Vec<(Range<usize>, String)>,
    /// Whether it removes the finding, and does not only accept it.
    mends_it: bool,
}

impl Proposal {
    /// The fix at a place in the list, for findings given by their numbers.
    fn fix(self, place: usize, mends: Vec<usize>) -> Fix {
        let preferred = place == 0 && self.mends_it;
        Fix { title: self.title, edits: self.edits, preferred, mends }
    }
}

/// Whether two stretches of a text meet.
pub fn touches(a: &Range<usize>, b: &Range<usize>) -> bool {
    a.start <= b.end && b.start <= a.end
}
