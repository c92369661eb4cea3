//! What the notation itself suggests: the changes that findings about the text carry with them.

use std::ops::Range;

use bicinium_analysis::Finding;
use bicinium_analysis::sheet::{Placed, UNUSED_LICENCE};

use super::Proposal;

/// The changes that a finding carries with it.
pub(super) fn proposals(block: &Placed, finding: &Finding) -> Vec<Proposal> {
    let proposal = |mend: &bicinium_analysis::Mend| {
        let range = block.in_sheet(mend.range);
        let whole_line = finding.rule == UNUSED_LICENCE;
        let range = if whole_line { line_of(block, range) } else { range };
        let edits = vec![(range, mend.text.clone())];
        Proposal { title: mend.title.clone(), edits, mends_it: true }
    };
    finding.mends.iter().map(proposal).collect()
}

/// The whole line that a range lies in, its end included.
fn line_of(block: &Placed, range: Range<usize>) -> Range<usize> {
    let text = block.judged.tree.text();
    let (start, end) = (range.start - block.start, range.end - block.start);
    let line_start = text[..start].rfind('\n').map_or(0, |newline| newline + 1);
    let line_end = text[end..].find('\n').map_or(text.len(), |newline| end + newline + 1);
    block.start + line_start..block.start + line_end
}
