//! Lowering: from the typed view of an exercise to its score. Decides which row belongs to which
//! voice, how long every note is and what the licences cover. What cannot be taken as music is
//! said in findings, and the rest goes on.

mod bars;
mod cantus;
mod harmony;
mod licences;
mod row;
mod rows;

pub use cantus::{Defined, cantus};
pub use row::Readings;

use std::collections::BTreeMap;
use std::sync::Arc;

use bicinium_grammar::{TextRange, ast};
use bicinium_theory::Pitch;

use super::settings::Settings;
use super::{Definition, Pair, Score, Setting, VoiceId};
use crate::finding::{Finding, Level, Mend};
use crate::repertoire;

/// The cantus definitions that a sheet can name, each with its notes.
pub type Definitions = BTreeMap<String, Arc<[Pitch]>>;

/// Finds the notes of a cantus by its name.
pub type Known<'a> = dyn Fn(&str) -> Option<Arc<[Pitch]>> + 'a;

/// An exercise as music.
#[derive(Debug)]
pub struct Lowered {
    /// The score.
    pub score: Score,
    /// The names of cantus that its rows follow.
    pub names: Vec<String>,
}

/// The score of an exercise, and what of its text could not be taken as music. What was read of its
/// rows before is taken up, and kept for the next time.
pub fn exercise(
    block: &ast::ExerciseBlock,
    settings: &Settings,
    known: &Known<'_>,
    readings: &mut Readings,
    findings: &mut Vec<Finding>,
) -> Lowered {
    let read = readings.follow(&block.rows());
    let names = read.iter().filter_map(|row| Some(row.cantus_name()?.0)).collect();
    let rows = rows::sort(&read, findings);
    let alone = rows.lone_cantus().filter(|_| settings.species.is_none());
    if alone.is_none() {
        rows.tell_missing(block, findings);
    }
    let lines = Pair::from_fn(|voice| bars::line(&rows, voice, settings.meter, findings));
    let definition = definition(&rows, known, findings);
    let setting = Setting {
        key: settings.key,
        meter: settings.meter,
        species: settings.species,
        cantus: rows.cantus.filter(|_| alone.is_none()),
        alone,
        registers: Pair::from_fn(|voice| rows.voices[voice].register),
        bars: rows.bars(),
        bars_of: Pair::from_fn(|voice| rows.voices[voice].written),
        definition,
    };
    let harmonies = harmony::written(&rows.harmonies, settings.meter, findings);
    let licences = block.licences().iter().filter_map(licences::licence).collect();
    Lowered { score: Score { setting, lines, harmonies, licences }, names }
}

fn definition(
    rows: &rows::Rows<'_>,
    known: &Known<'_>,
    findings: &mut Vec<Finding>,
) -> Option<Definition> {
    let voice: VoiceId = rows.cantus?;
    let (name, range) = rows.voices[voice].cantus_name.clone()?;
    let Some(notes) = known(&name) else {
        findings.push(unknown(&name, range));
        return None;
    };
    Some(Definition { name, notes })
}

fn unknown(name: &str, range: TextRange) -> Finding {
    let meant = repertoire::nearest(name).map(|cantus| cantus.defined.name.as_str());
    let hint = meant.map_or_else(String::new, |meant| format!(" Perhaps `{meant}` is meant."));
    let message = format!(
        "No cantus named {name} is defined in this sheet.{hint} Add a block that begins with \
         `cantus {name}`, or leave the name out."
    );
    let mut finding = Finding::about_text("cantus-unknown", Level::Notation, range, message);
    finding.mends.extend(meant.map(|meant| Mend {
        title: format!("Write `{meant}`"),
        range,
        text: meant.to_owned(),
    }));
    finding
}
