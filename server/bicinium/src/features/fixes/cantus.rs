//! An altered cantus restored: every note that differs gets the pitch of the definition, in the
//! transposition that most of its notes are in. What is no note, or none that can be read, stays.

use bicinium_analysis::score::{Event, Score};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Finding};

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
    let cantus = &score.lines[score.setting.cantus?].events;
    let definition = score.setting.definition.as_ref()?;
    let bar = |event: &Event| score.setting.bar_of(event.onset);
    let written = cantus.iter().filter_map(|event| Some((bar(event), event.pitch()?)));
    let by = definition.transposition(written)?;
    let differing = cantus.iter().filter_map(|event| {
        let (is, meant) = (event.pitch()?, definition.note_in(bar(event), by)?);
        (is != meant).then(|| (block.in_sheet(event.range), meant.to_string()))
    });
    Some(differing.collect())
}
