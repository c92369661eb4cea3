//! A composed cantus as a sheet: what it is and how hard, as comments; the cantus under a name, to be
//! used in exercises; and the same by itself, where the judge looks at it. It must not know how it was
//! found.

use bicinium_grammar::format;
use bicinium_realizer::{Count, Extent};

use super::counts::Row;
use crate::cli::words::wrapped;
use crate::features::composing::{Cantus, Side, Wish};
use crate::features::words::grouped;

/// The sheet, laid out.
pub(super) fn text(wish: &Wish, cantus: &Cantus, counts: &[Row]) -> String {
    let bars: Vec<_> = cantus.notes.iter().map(ToString::to_string).collect();
    let bars = bars.join(" | ");
    let Wish { key, voice, rulebook, seed, .. } = wish;
    let mode = key.mode.name();
    format(&format!(
        "{}\nrulebook {}\nkey {key}\n\ncantus {mode}-{seed}\n  line | {bars} |\n\n\
         exercise \"The cantus by itself\"\n  {voice} cantus | {bars} |\n",
        head(wish, counts),
        rulebook.name,
    ))
}

/// What is said of the cantus, as comments.
fn head(wish: &Wish, counts: &[Row]) -> String {
    let Wish { key, length, voice, rulebook, seed, .. } = wish;
    let first = format!("A cantus firmus of {length} notes in {key}, for {voice}; seed {seed}.");
    let second = format!(
        "How many ways there are to write a counterpoint to it without a fault, by the rulebook {}:",
        rulebook.name
    );
    let mut lines = vec![first];
    if !counts.is_empty() {
        lines.extend([String::new(), second, String::new()]);
        lines = lines.iter().map(|line| wrapped(line, "")).collect();
        lines.extend(table(wish, counts));
    }
    let lines = lines.iter().flat_map(|paragraph| paragraph.split('\n'));
    lines.map(|line| format!("// {line}").trim_end().to_owned() + "\n").collect()
}

/// The counts with their headings, each column as wide as it needs to be.
fn table(wish: &Wish, counts: &[Row]) -> Vec<String> {
    let heads = Side::BOTH.map(|side| format!("{} ({})", side.name(), side.voice(wish.voice)));
    let cells: Vec<_> = counts.iter().map(|row| row.counts.each_ref().map(told)).collect();
    let width = |side: usize| {
        let own = cells.iter().map(|row| row[side].len()).max().unwrap_or(0);
        own.max(heads[side].len())
    };
    let line = |first: &str, row: &[String; 2]| {
        let [above, below] = row;
        format!("  {first:<9}{above:>0$}  {below:>1$}", width(0), width(1))
    };
    let rows = counts.iter().zip(&cells);
    let rows = rows.map(|(row, cells)| line(&row.species.to_string(), cells));
    std::iter::once(line("species", &heads)).chain(rows).collect()
}

/// "1,204", "more than 1,000".
fn told(count: &Count) -> String {
    match (grouped(&count.number), count.extent) {
        (number, Extent::All) => number,
        (number, Extent::AtLeast) if number == "0" => "not known".to_owned(),
        (number, Extent::AtLeast) => format!("{number} or more"),
    }
}
