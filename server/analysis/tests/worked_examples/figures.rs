//! What the reading takes the dissonances of Fux 1725 for, against an independent count of what they
//! are.

use std::collections::BTreeMap;

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::{Entry, Function, Link, Shape};
use bicinium_analysis::score::{Event, VoiceId};
use bicinium_theory::{Direction, Duration, Interval, Pitch};

use super::fux::of_species;
use super::tables::rows;

/// The species, which side of the cantus the counter is on, and what it does there.
type What = (u8, &'static str, String);

/// The kinds that the independent count tells of dissonances.
const KINDS: [&str; 5] =
    ["passing", "neighbour", "cambiata", "suspension", "within a decorated resolution"];

#[test]
fn the_reading_takes_every_dissonance_for_what_an_independent_count_finds() {
    let mut ours: BTreeMap<What, usize> = BTreeMap::new();
    for species in 1..=5 {
        for example in of_species(species) {
            for what in figures(&example.exercise, species) {
                *ours.entry(what).or_default() += 1;
            }
        }
    }
    assert_eq!(ours, theirs());
}

#[test]
fn all_dissonances_of_second_species_pass() {
    let count = theirs();
    let kinds: Vec<_> = count.keys().filter(|known| known.0 == 2).map(|known| &known.2).collect();
    assert_eq!(kinds, ["passing", "passing"]);
}

/// What the table of the independent count says of dissonances.
fn theirs() -> BTreeMap<What, usize> {
    let table = rows("fux-1725-census.tsv").into_iter();
    let dissonances = table.filter(|row| KINDS.iter().any(|kind| row[2].starts_with(kind)));
    let count = |row: Vec<String>| {
        let side = if row[1] == "above" { "above" } else { "below" };
        ((row[0].parse().unwrap(), side, row[2].clone()), row[3].parse().unwrap())
    };
    dissonances.map(count).collect()
}

fn figures(exercise: &Exercise, species: u8) -> Vec<What> {
    let counter = exercise.score.setting.written().next().unwrap();
    let side = if counter == VoiceId::Upper { "above" } else { "below" };
    let functions = exercise.verdict.reading.functions[counter].iter();
    let kinds = functions.filter_map(|known| match known.function {
        Function::Embellishes { shape, entry, link, resolution, .. } => {
            Some(kind(exercise, counter, (shape, entry), (link, resolution.pitch)))
        }
        Function::Fails(..) | Function::Pending(_) => Some("not explained".to_owned()),
        _ => None,
    });
    kinds.map(|kind| (species, side, kind)).collect()
}

fn kind(
    exercise: &Exercise,
    counter: VoiceId,
    (shape, entry): (Shape, Entry),
    (link, resolution): (Link, Pitch),
) -> String {
    match shape {
        Shape::Suspension => {
            let cantus = cantus_after(exercise, counter.other(), link.note.onset);
            let figures = [link.note.pitch, resolution].map(|pitch| figure(cantus, pitch));
            format!("suspension {}-{}", figures[0], figures[1])
        }
        Shape::Decoration => "within a decorated resolution".to_owned(),
        _ if entry != Entry::Weak => format!("{shape:?} on a strong beat"),
        Shape::Passing => "passing".to_owned(),
        Shape::Neighbour => "neighbour".to_owned(),
        Shape::Cambiata => format!("cambiata {}", direction(link)),
        Shape::DoubleNeighbour | Shape::SkippedThird | Shape::Retardation => format!("{shape:?}"),
    }
}

fn direction(link: Link) -> &'static str {
    let way = link.from.map(|from| Interval::between(from.pitch, link.note.pitch).direction());
    if way == Some(Direction::Down) { "falling" } else { "rising" }
}

/// The note of the cantus in the bar after the one that an onset lies in.
fn cantus_after(exercise: &Exercise, cantus: VoiceId, onset: Duration) -> Pitch {
    let setting = &exercise.score.setting;
    let bar = setting.bar_start(setting.bar_of(onset) + 1);
    exercise.score.lines[cantus].sounding_at(bar).and_then(Event::pitch).unwrap()
}

/// An interval as it is figured, up to the ninth.
fn figure(cantus: Pitch, pitch: Pitch) -> u16 {
    match Interval::between(cantus, pitch).number() {
        number @ 0..=9 => number,
        number => (number - 1) % 7 + 1,
    }
}
