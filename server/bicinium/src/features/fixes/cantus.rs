//! An altered cantus restored: every note that differs gets the pitch of the definition, in the
//! transposition that most of its notes are in.

use bicinium_analysis::score::{Line, Score, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Finding};
use bicinium_theory::{Interval, Pitch};

use super::Proposal;

/// The rule that this mends.
const CANTUS_ALTERED: &str = "cantus-altered";

/// The cantus restored, if it is altered in its notes.
pub(super) fn proposal(block: &Placed, exercise: &Exercise, finding: &Finding) -> Option<Proposal> {
    if finding.rule != CANTUS_ALTERED {
        return None;
    }
    let edits = edits(block, &exercise.score)?;
    let title = "Restore the cantus as it is defined".to_owned();
    (!edits.is_empty()).then_some(Proposal { title, edits, mends_it: true })
}

type Edits = Vec<(std::ops::Range<usize>, String)>;

fn edits(block: &Placed, score: &Score) -> Option<Edits> {
    let voice: VoiceId = score.setting.cantus?;
    let defined = &score.setting.definition.as_ref()?.notes;
    let line = &score.lines[voice];
    let by = transposition(line, defined)?;
    let notes = line.events.iter().zip(defined.iter());
    let differing = notes.filter_map(|(event, pitch)| {
        let meant = pitch.transpose(by)?;
        (event.pitch() != Some(meant)).then(|| (block.in_sheet(event.range), meant.to_string()))
    });
    Some(differing.collect())
}

/// The transposition that most notes are in; the first of several.
fn transposition(line: &Line, defined: &[Pitch]) -> Option<Interval> {
    let pairs = || line.events.iter().zip(defined.iter());
    let interval = |from: Pitch, to: Pitch| Interval::between(from, to);
    let all: Vec<_> = pairs().filter_map(|(e, d)| Some(interval(*d, e.pitch()?))).collect();
    let votes = |candidate: &Interval| all.iter().filter(|known| *known == candidate).count();
    let most = all.iter().map(votes).max()?;
    all.iter().find(|candidate| votes(candidate) == most).copied()
}
