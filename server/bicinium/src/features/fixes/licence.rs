//! A licence as a fix: a line that accepts the finding and waits for its reason.

use bicinium_analysis::Finding;
use bicinium_analysis::sheet::Placed;

use super::Proposal;
use crate::features::lines::line_end;

/// A line at the end of the exercise that accepts a finding at its place.
pub(super) fn proposal(block: &Placed, finding: &Finding) -> Option<Proposal> {
    let place = finding.place?;
    let text = block.judged.tree.text();
    let end = text.trim_end().len();
    let line = line(line_end(&text), finding.rule, place.bar, place.beat);
    let at = block.start + end;
    Some(Proposal {
        title: format!("Accept {} in bar {} with a reason", finding.rule, place.bar),
        edits: vec![(at..at, line)],
        mends_it: false,
    })
}

/// A licence on a line of its own, behind the line before it.
pub(in crate::features) fn line(newline: &str, rule: &str, bar: u32, beat: u32) -> String {
    format!("{newline}  allow {rule} at {bar}.{beat} because \"reason\"")
}
