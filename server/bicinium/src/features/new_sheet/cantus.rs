//! A sheet with one exercise on a cantus of the repertoire. Must not know any other sheet.

use bicinium_analysis::repertoire::Cantus;
use bicinium_theory::{Key, Mode};

use super::{quotable, registers};

/// Where the voice is that is to be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Above the cantus.
    Above,
    /// Below the cantus.
    Below,
}

/// What is to be written.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    /// The melody that is given.
    pub cantus: &'a Cantus,
    /// The species, 1 to 5; `None` for free writing.
    pub species: Option<u8>,
    /// Where the counter is.
    pub side: Side,
    /// Who is going to write it.
    pub by: Option<&'a str>,
}

/// The sheet, with a blank bar against every note of the cantus.
pub fn on_cantus(order: &Order<'_>) -> String {
    let Order { cantus, species, side, by } = order;
    let name = &cantus.defined.name;
    let notes = &cantus.defined.notes;
    let given = registers::of_line(notes);
    let counter = registers::against(given, *side);
    let bars: Vec<_> = notes.iter().map(ToString::to_string).collect();
    let cantus_row = format!("{given} cantus {name} | {} |\n", bars.join(" | "));
    let counter_row = format!("{counter} counter |{}\n", " |".repeat(notes.len()));
    let rows = match side {
        Side::Above => [counter_row, cantus_row],
        Side::Below => [cantus_row, counter_row],
    };
    let by = by.map(|by| format!("by \"{}\"\n", quotable(by))).unwrap_or_default();
    let species = species.map(|species| format!("species {species}\n")).unwrap_or_default();
    let Key { tonic, mode, .. } = cantus.key;
    let text = format!(
        "// Cantus: {}\n{by}rulebook {}\n\nexercise\nkey {tonic} {}\n{species}\n{}",
        cantus.source,
        school(mode),
        mode.name(),
        rows.concat()
    );
    bicinium_grammar::format(&text)
}

/// The rulebook that a melody in such a mode is usually set by.
fn school(mode: Mode) -> &'static str {
    match mode {
        Mode::Major | Mode::Minor => "tonal",
        _ => "modal",
    }
}
