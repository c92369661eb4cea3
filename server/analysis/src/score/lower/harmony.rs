//! The harmony row: numerals share a bar as notes do, and a hold lengthens the one before it.

use bicinium_grammar::{TextRange, TextSize, ast};
use bicinium_theory::{Duration, Meter, Numeral};

use super::row::Bar;
use crate::finding::{Finding, Level};
use crate::score::WrittenHarmony;

/// What the writer put in the harmony row; a bar left blank or open says nothing.
pub(super) fn written(
    bars: &[Option<Bar<'_>>],
    meter: Meter,
    findings: &mut Vec<Finding>,
) -> Vec<WrittenHarmony> {
    let mut row = Row { harmonies: Vec::new(), start: TextSize::default(), findings };
    for (bar, number) in bars.iter().zip(0_u32..) {
        let Some(bar) = bar else { continue };
        row.start = bar.start;
        let items = bar.items();
        let start = meter.bar_length() * number;
        let count = u32::try_from(items.len()).unwrap_or(u32::MAX);
        match meter.bar_length().divide(count) {
            Some(share) => row.share_out(items, start, share),
            None if items.is_empty() => {}
            None => row.findings.push(Finding::about_text(
                "bar-not-divisible",
                Level::Notation,
                bar.range(),
                format!(
                    "Bar {}: {count} harmonies cannot share a bar of {meter} equally.",
                    number + 1
                ),
            )),
        }
    }
    row.harmonies
}

struct Row<'f> {
    harmonies: Vec<WrittenHarmony>,
    /// Where the line begins that is being read.
    start: TextSize,
    findings: &'f mut Vec<Finding>,
}

impl Row<'_> {
    fn share_out(&mut self, items: &[ast::Item], start: Duration, share: Duration) {
        let mut onset = start;
        for item in items {
            match &item.kind {
                ast::ItemKind::Numeral(text) => {
                    let range = item.range + self.start;
                    let read = numeral(text, range, self.findings);
                    let written =
                        |numeral| WrittenHarmony { onset, duration: share, numeral, range };
                    self.harmonies.extend(read.map(written));
                }
                ast::ItemKind::Hold => self.lengthen(onset, share),
                ast::ItemKind::Group(items) => {
                    let parts = u32::try_from(items.len()).unwrap_or(u32::MAX);
                    if let Some(share) = share.divide(parts) {
                        self.share_out(items, onset, share);
                    }
                }
                _ => {}
            }
            onset = onset + share;
        }
    }

    /// A hold lengthens the harmony that ends where it begins.
    fn lengthen(&mut self, onset: Duration, share: Duration) {
        let last = self.harmonies.last_mut();
        if let Some(last) = last.filter(|last| last.onset + last.duration == onset) {
            last.duration = last.duration + share;
        }
    }
}

fn numeral(text: &str, range: TextRange, findings: &mut Vec<Finding>) -> Option<Numeral> {
    match text.parse::<Numeral>() {
        Ok(numeral) => Some(numeral),
        Err(error) => {
            findings.push(Finding::about_text(
                "numeral",
                Level::Notation,
                range,
                error.to_string(),
            ));
            None
        }
    }
}
