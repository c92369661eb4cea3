//! A licence as a fix: a line that accepts the finding and waits for its reason.

use bicinium_analysis::Finding;
use bicinium_analysis::sheet::Placed;

use super::Proposal;

/// A line at the end of the exercise that accepts a finding at its place.
pub(super) fn proposal(block: &Placed, finding: &Finding) -> Option<Proposal> {
    let place = finding.place?;
    let text = block.judged.tree.text();
    let end = text.trim_end().len();
    let newline = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let line = format!(
        "{newline}  allow {} at {}.{} because \"reason\"",
        finding.rule, place.bar, place.beat
    );
    let at = block.start + end;
    Some(Proposal {
        title: format!("Accept {} in bar {} with a reason", finding.rule, place.bar),
        edits: vec![(at..at, line)],
        mends_it: false,
    })
}
