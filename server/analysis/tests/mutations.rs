//! An independent program's opinion on thousands of exercises (`tests/oracles`): worked examples
//! with one note changed, and exercises drawn at random. Rule by rule the same places, no more and
//! no fewer.

#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::score::VoiceId;
use bicinium_analysis::{Finding, Sheet, Shelf};

/// A table of the oracle: the rules it has an opinion on, by school and species, and its rows.
struct Table {
    rules: BTreeMap<String, BTreeSet<String>>,
    rows: Vec<Vec<String>>,
}

impl Table {
    fn read(name: &str) -> Self {
        let text = std::fs::read_to_string(tests().join("oracles/mutations").join(name)).unwrap();
        let rules = text.lines().filter_map(|line| line.strip_prefix("# rules "));
        let rules = rules.filter_map(|line| line.split_once(": ")).map(|(school, names)| {
            (school.to_owned(), names.split(' ').map(str::to_owned).collect())
        });
        let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
        let cells = |line: &str| line.split('\t').map(str::to_owned).collect();
        Self { rules: rules.collect(), rows: rows.map(cells).collect() }
    }

    /// What the sheet says on the matters of the oracle, in its words.
    fn told(&self, sheet: &Sheet, school: &str, species: &str) -> String {
        let rules = &self.rules[&format!("{school} {species}")];
        let snapshot = sheet.snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        let mut told: Vec<_> =
            findings.filter(|finding| rules.contains(finding.rule)).map(words).collect();
        told.sort();
        told.join(" ")
    }
}

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests")
}

/// A finding as `rule@voice@bar:beat`.
fn words(finding: &Finding) -> String {
    let place = finding.place.unwrap();
    let beat = f64::from(place.beat) + place.behind;
    format!("{}@{}@{}:{beat}", finding.rule, finding.voice.map_or("both", VoiceId::name), place.bar)
}

/// A worked example by itself, as text.
fn worked(species: &str, title: &str) -> String {
    let path = tests().join(format!("worked/fux-1725-species-{species}.bicinium"));
    let text = std::fs::read_to_string(path).unwrap();
    let mut exercises = text.split("exercise ").filter(|block| block.starts_with(title));
    let exercise = exercises.next().unwrap().strip_prefix(title).unwrap();
    format!("exercise {title}{exercise}")
}

/// Where a note stands: the row (the first voice row is 0), the bar and the note of the bar, both
/// from 1.
fn note_range(text: &str, row: usize, bar: usize, note: usize) -> Range<usize> {
    let mut rows = text.lines().filter(|line| line.contains('|'));
    let row = rows.nth(row).unwrap();
    let bar = row.split('|').nth(bar).unwrap();
    let words =
        bar.split([' ', '(', ')']).filter(|word| word.starts_with(|c| ('A'..='G').contains(&c)));
    let word = words.clone().nth(note - 1).unwrap();
    let start = word.as_ptr() as usize - text.as_ptr() as usize;
    start..start + word.len()
}

/// Judges a worked example with one note changed, and changes it back.
fn judge_changed(table: &Table, sheet: &mut Sheet, text: &str, row: &[String]) -> String {
    let [school, species, _, voice, bar, note, pitch, _] = row else { panic!("{row:?}") };
    if voice.is_empty() {
        return table.told(sheet, school, species);
    }
    let voice = usize::from(voice == "lower");
    let range = note_range(text, voice, bar.parse().unwrap(), note.parse().unwrap());
    sheet.edit(range.clone(), pitch);
    let told = table.told(sheet, school, species);
    sheet.edit(range.start..range.start + pitch.len(), &text[range]);
    told
}

#[test]
fn worked_examples_with_one_note_changed() {
    let table = Table::read("worked.tsv");
    let shelf = Arc::new(Shelf::default());
    assert!(table.rows.len() > 6000, "{} rows", table.rows.len());
    let mut differences = Vec::new();
    for rows in table.rows.chunk_by(|a, b| a[..3] == b[..3]) {
        let [school, species, title, ..] = rows[0].as_slice() else { panic!("{:?}", rows[0]) };
        let exercise = worked(species, &format!("{title:?}"));
        let text = format!("rulebook {school}\nspecies {species}\n\n{exercise}");
        let mut sheet = Sheet::new(&text, shelf.clone());
        for row in rows {
            let told = judge_changed(&table, &mut sheet, &text, row);
            differences.extend(difference(row, &told));
        }
    }
    assert!(differences.is_empty(), "{}", report(&differences));
}

#[test]
fn exercises_drawn_at_random() {
    let table = Table::read("random.tsv");
    let shelf = Arc::new(Shelf::default());
    assert!(table.rows.len() >= 2200, "{} rows", table.rows.len());
    let judged = table.rows.iter().filter_map(|row| {
        let [school, species, key, meter, upper, lower, _] = row.as_slice() else {
            panic!("{row:?}")
        };
        let text = format!(
            "rulebook {school}\nspecies {species}\nkey {key}\nmeter {meter}\n\nexercise\n  {upper}\n  {lower}\n"
        );
        difference(row, &table.told(&Sheet::new(&text, shelf.clone()), school, species))
    });
    let differences: Vec<_> = judged.collect();
    assert!(differences.is_empty(), "{}", report(&differences));
}

/// What is about dissonance.
const DISSONANCE: [&str; 3] = ["weak-dissonance", "strong-dissonance", "suspension"];

/// The places of dissonances that are told.
fn dissonances(sheet: &Sheet) -> BTreeSet<String> {
    let snapshot = sheet.snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    findings.filter(|finding| DISSONANCE.contains(&finding.rule)).map(words).collect()
}

/// Where the notes of a voice row stand.
fn notes(text: &str, row: &str) -> Vec<Range<usize>> {
    let start = text.find(row).unwrap();
    let words = row.split_inclusive([' ', '|', '(', ')']).scan(start, |at, word| {
        let range = *at..*at + word.trim_end_matches([' ', '|', '(', ')']).len();
        *at += word.len();
        Some(range)
    });
    let is_note = |range: &Range<usize>| {
        let mut letters = text[range.clone()].chars();
        letters.next().is_some_and(|c| ('A'..='G').contains(&c))
            && letters.any(|c| c.is_ascii_digit())
    };
    words.filter(is_note).collect()
}

#[test]
fn a_hole_brings_no_dissonance_where_there_was_none() {
    let table = Table::read("random.tsv");
    let shelf = Arc::new(Shelf::default());
    let (mut tried, mut worse) = (0, Vec::new());
    for row in table.rows.iter().filter(|row| ["3", "4", "5"].contains(&row[1].as_str())) {
        let [school, species, key, meter, upper, lower, _] = row.as_slice() else {
            panic!("{row:?}")
        };
        let text = format!(
            "rulebook {school}\nspecies {species}\nkey {key}\nmeter {meter}\n\nexercise\n  {upper}\n  {lower}\n"
        );
        let mut sheet = Sheet::new(&text, shelf.clone());
        if !dissonances(&sheet).is_empty() {
            continue;
        }
        let counter = if upper.contains("counter") { upper } else { lower };
        for range in notes(&text, counter) {
            let length = text[range.clone()].chars().take_while(|c| *c != '/').count();
            sheet.edit(range.start..range.start + length, "?");
            let more = dissonances(&sheet);
            if !more.is_empty() {
                worse.push(format!("{more:?} after {}: {text}", &text[range.clone()]));
            }
            sheet.edit(range.start..range.start + 1, &text[range.start..range.start + length]);
            tried += 1;
        }
    }
    assert!(tried > 300, "{tried} tried");
    assert!(
        worse.is_empty(),
        "{} of {tried} are worse\n{}",
        worse.len(),
        worse[..worse.len().min(12)].join("\n")
    );
}

/// What only one of the two finds; `None` if they agree.
fn difference(row: &[String], told: &str) -> Option<String> {
    let (expected, row) = row.split_last().unwrap();
    let missing = without(expected, told);
    let extra = without(told, expected);
    let agree = expected == told;
    (!agree).then(|| format!("{}\n  missing {missing:?}, extra {extra:?}", row.join(" ")))
}

fn without(all: &str, known: &str) -> Vec<String> {
    let known: Vec<_> = known.split_whitespace().collect();
    all.split_whitespace().filter(|word| !known.contains(word)).map(str::to_owned).collect()
}

fn report(differences: &[String]) -> String {
    let first: Vec<_> = differences.iter().take(40).cloned().collect();
    format!("{} differ\n{}", differences.len(), first.join("\n"))
}
