//! Two voices from one simultaneity to the next, held against the verdicts of an independent
//! library (`tests/oracles`, which also says where the definitions differ).

#![allow(clippy::unwrap_used, clippy::similar_names)]

use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};
use bicinium_theory::Interval;

const RULES: [&str; 3] = ["consecutive-perfects", "contrary-perfects", "direct-perfects"];

/// Two simultaneities and what the oracle says of the way between them.
struct Row<'a> {
    upper: [&'a str; 2],
    lower: [&'a str; 2],
    motion: &'a str,
    is_parallel_perfect: bool,
    is_hidden_perfect: bool,
}

impl<'a> Row<'a> {
    fn read(line: &'a str) -> Self {
        let cells: Vec<_> = line.split('\t').collect();
        let is = |columns: std::ops::Range<usize>| cells[columns].contains(&"1");
        Self {
            upper: [cells[0], cells[1]],
            lower: [cells[2], cells[3]],
            motion: cells[4],
            is_parallel_perfect: is(5..8),
            is_hidden_perfect: is(8..10),
        }
    }

    fn sheet(&self) -> String {
        let ([upper, upper_next], [lower, lower_next]) = (self.upper, self.lower);
        format!(
            "rulebook modal\nkey C ionian\n\nexercise\n  \
             soprano | | {upper} | {upper_next} | |\n  \
             bass    | | {lower} | {lower_next} | |\n"
        )
    }

    fn raised(&self, shelf: &Arc<Shelf>) -> BTreeSet<&'static str> {
        let snapshot = Sheet::new(&self.sheet(), shelf.clone()).snapshot();
        let rules = snapshot.findings().map(|located| located.finding.rule);
        rules.filter(|rule| RULES.contains(rule)).collect()
    }

    /// The oracle calls perfects parallel too where the voices part. It calls nothing hidden where
    /// the interval keeps its number, as from a diminished fifth to a perfect one; we do.
    fn expected(&self) -> BTreeSet<&'static str> {
        let contrary = self.motion == "contrary";
        let rules = [
            (self.is_parallel_perfect && !contrary).then_some(RULES[0]),
            (self.is_parallel_perfect && contrary).then_some(RULES[1]),
            self.is_direct().then_some(RULES[2]),
        ];
        rules.into_iter().flatten().collect()
    }

    fn is_direct(&self) -> bool {
        let arrives = interval(self.lower[1], self.upper[1]).is_perfect();
        let is_hidden = self.is_hidden_perfect || self.motion == "parallel" && arrives;
        is_hidden && !self.is_parallel_perfect
    }

    /// Whether the staff and the ear disagree about the way a voice goes; the oracle follows
    /// neither alone.
    fn is_enharmonic(&self) -> bool {
        [self.upper, self.lower].into_iter().any(|[from, to]| {
            let way = interval(from, to);
            way.steps() != 0 && way.steps().signum() != way.semitones().signum()
        })
    }
}

fn interval(from: &str, to: &str) -> Interval {
    Interval::between(from.parse().unwrap(), to.parse().unwrap())
}

#[test]
fn perfect_consonances_are_found_where_the_oracle_finds_them() {
    let table = Path::new(env!("CARGO_MANIFEST_DIR"));
    let table = table.join("../../tests/oracles/theory/motions.tsv");
    let table = std::fs::read_to_string(table).unwrap();
    let shelf = Arc::new(Shelf::default());
    let rows: Vec<_> = table.lines().skip(2).map(Row::read).collect();
    assert!(rows.len() > 4600, "{} rows", rows.len());
    let rows = rows.iter().filter(|row| !row.is_enharmonic());
    let differ = rows.filter(|row| row.raised(&shelf) != row.expected());
    let differences: Vec<_> = differ
        .map(|row| {
            format!("{:?} {:?} {}: {:?}", row.upper, row.lower, row.motion, row.raised(&shelf))
        })
        .collect();
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}
