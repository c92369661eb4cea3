//! All faults of an exercise accepted: a licence for each, with a reason to fill in. For exercises that
//! are taken over as they are, from a book or from a pupil.

use std::collections::BTreeSet;

use bicinium_analysis::Level;
use bicinium_grammar::{TextRange, TextSize};

use super::{Draft, Place, Subject};
use crate::features::fixes::licence;
use crate::features::lines::line_end;

/// A licence for each fault that stands.
pub(super) fn for_faults(place: &Place<'_>) -> Option<Draft> {
    let findings = place.block.judged.findings.iter();
    let faults = findings.filter(|it| it.level == Level::Fault && it.stands());
    let places = faults.filter_map(|it| Some((it.place?.bar, it.place?.beat, it.rule)));
    let places: BTreeSet<_> = places.collect();
    let text = place.text();
    let newline = line_end(&text);
    let line = |&(bar, beat, rule): &(u32, u32, &str)| licence::line(newline, rule, bar, beat);
    let lines: String = places.iter().map(line).collect();
    let end = TextSize::try_from(text.trim_end().len()).ok()?;
    let title = match places.len() {
        0 => return None,
        1 => "Accept the fault, with a reason to fill in".to_owned(),
        count => format!("Accept the faults at {count} places, with reasons to fill in"),
    };
    Some(Draft { title, subject: Subject::Licences, edits: vec![(TextRange::empty(end), lines)] })
}
