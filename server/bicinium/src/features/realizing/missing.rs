//! Bars that a row does not have: where they are put when they are written. Knows the text around a
//! row, not what the bars say.

use std::ops::Range;

use bicinium_analysis::score::Line;
use bicinium_analysis::sheet::Placed;
use bicinium_theory::Duration;

/// Adds a bar to the end of the row that misses it.
pub(super) fn append(
    edits: &mut Vec<(Range<usize>, String)>,
    block: &Placed,
    line: &Line,
    onset: Duration,
    bar: &str,
) {
    let index = line.events.iter().take_while(|event| event.onset < onset);
    let written = index.filter(|event| event.range != line.head).last();
    let text = block.judged.tree.text();
    let after = written.map_or(line.head.end(), |event| {
        let bars = line.bars.iter().filter(|bar| bar.contains_range(event.range));
        bars.map(|bar| bar.end()).max().unwrap_or(event.range.end())
    });
    let (at, is_closed) = end_of_row(&text, usize::from(after));
    let at = block.start + at;
    match edits.iter_mut().find(|edit| edit.0 == (at..at)) {
        Some(edit) => edit.1.extend([bar, "|"]),
        None if is_closed => edits.push((at..at, format!("{bar}|"))),
        None => edits.push((at..at, format!(" |{bar}|"))),
    }
}

/// Where the text of a row ends, from a place in it, and whether a barline stands there.
fn end_of_row(text: &str, from: usize) -> (usize, bool) {
    let rest = text[from..].split(['\n', '\r']).next().unwrap_or_default();
    let rest = rest.split("//").next().unwrap_or_default().trim_end();
    (from + rest.len(), rest.ends_with('|'))
}
