//! The harmony row: numerals share a bar as notes do, and a hold lengthens the one before it.

use bicinium_grammar::{TextRange, ast};
use bicinium_theory::{Duration, Meter, Numeral};

use crate::finding::{Finding, Level};
use crate::score::WrittenHarmony;

/// What the writer put in the harmony row; a bar left blank or open says nothing.
pub(super) fn written(
    bars: &[Option<ast::Bar>],
    meter: Meter,
    findings: &mut Vec<Finding>,
) -> Vec<WrittenHarmony> {
    let mut harmonies: Vec<WrittenHarmony> = Vec::new();
    for (bar, number) in bars.iter().zip(0_u32..) {
        let Some(bar) = bar else { continue };
        let items = bar.items();
        let start = meter.bar_length() * number;
        let count = u32::try_from(items.len()).unwrap_or(u32::MAX);
        match meter.bar_length().divide(count) {
            Some(share) => share_out(&items, start, share, &mut harmonies, findings),
            None if items.is_empty() => {}
            None => findings.push(Finding::about_text(
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
    harmonies
}

fn share_out(
    items: &[ast::Item],
    start: Duration,
    share: Duration,
    harmonies: &mut Vec<WrittenHarmony>,
    findings: &mut Vec<Finding>,
) {
    let mut onset = start;
    for item in items {
        match &item.kind {
            ast::ItemKind::Numeral(text) => {
                let range = item.range;
                let read = numeral(text, range, findings);
                let written = |numeral| WrittenHarmony { onset, duration: share, numeral, range };
                harmonies.extend(read.map(written));
            }
            ast::ItemKind::Hold => lengthen(harmonies, onset, share),
            ast::ItemKind::Group(items) => {
                let parts = u32::try_from(items.len()).unwrap_or(u32::MAX);
                if let Some(share) = share.divide(parts) {
                    share_out(items, onset, share, harmonies, findings);
                }
            }
            _ => {}
        }
        onset = onset + share;
    }
}

/// A hold lengthens the harmony that ends where it begins.
fn lengthen(harmonies: &mut [WrittenHarmony], onset: Duration, share: Duration) {
    if let Some(last) = harmonies.last_mut().filter(|last| last.onset + last.duration == onset) {
        last.duration = last.duration + share;
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
