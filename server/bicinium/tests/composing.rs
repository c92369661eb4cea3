//! Cantus that are composed, held against the checker: written out, parsed and judged, they have no
//! fault; the same wish gives the same one; and what is counted is what the realizer counts.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::composing::{Cantus, Measure, Refusal, Side, Wish};
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::{Level, Sheet, Shelf, Snapshot};
use bicinium_realizer::{Budget, Extent, Realizer, Watch};
use bicinium_theory::{Key, Mode, PitchClass, Register};

/// Every mode on a tonic of its own, with a voice.
const KEYS: [(&str, Mode, Register); 8] = [
    ("C", Mode::Major, Register::Alto),
    ("G", Mode::Minor, Register::Tenor),
    ("Bb", Mode::Ionian, Register::Baritone),
    ("D", Mode::Dorian, Register::Alto),
    ("E", Mode::Phrygian, Register::Soprano),
    ("F", Mode::Lydian, Register::Tenor),
    ("G", Mode::Mixolydian, Register::Mezzo),
    ("A", Mode::Aeolian, Register::Bass),
];

fn wish(index: usize, rulebook: &str, length: usize, seed: u64) -> Wish {
    let (tonic, mode, voice) = KEYS[index];
    Wish {
        key: Key::new(tonic.parse::<PitchClass>().unwrap(), mode).unwrap(),
        length,
        voice,
        lowest: None,
        highest: None,
        rulebook: Shelf::default().get(rulebook).unwrap().clone(),
        seed,
    }
}

fn compose(wish: &Wish) -> Result<Cantus, Refusal> {
    let cancelled = AtomicBool::new(false);
    wish.compose(&Watch::new(Budget::default(), &cancelled))
}

fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

/// The faults of a cantus that is written by itself.
fn faults(rulebook: &str, key: Key, voice: Register, notes: &[String]) -> Vec<String> {
    let row = notes.join(" | ");
    let text = format!("rulebook {rulebook}\nkey {key}\n\nexercise\n  {voice} cantus | {row} |\n");
    let snapshot = judged(&text);
    let findings = snapshot.findings().map(|located| located.finding);
    let faults = findings.filter(|finding| finding.level <= Level::Fault);
    faults.map(|finding| format!("{}: {}", finding.rule, finding.message)).collect()
}

#[test]
fn whatever_is_drawn_is_without_fault_when_it_is_written() {
    let mut drawn = BTreeSet::new();
    for index in 0..KEYS.len() {
        for (rulebook, length) in [("modal", 8), ("tonal", 9), ("modal", 11)] {
            let Wish { key, voice, .. } = wish(index, rulebook, length, 1);
            let blank = " |".repeat(length);
            let text =
                format!("rulebook {rulebook}\nkey {key}\n\nexercise\n  {voice} cantus |{blank}\n");
            let snapshot = judged(&text);
            let cancelled = AtomicBool::new(false);
            let watch = Watch::new(Budget::default(), &cancelled);
            let exercise = snapshot.exercises().next().unwrap().2;
            let ways = Realizer::new(exercise, &watch).sample(40, index as u64);
            assert_eq!((ways.found.len(), ways.extent), (40, Extent::All), "{text}");
            for way in &ways.found {
                let notes = way.notes(VoiceId::Upper).map(|note| note.pitch.to_string());
                let notes: Vec<_> = notes.collect();
                assert_eq!(notes.len(), length);
                assert_eq!(faults(rulebook, key, voice, &notes), Vec::<String>::new(), "{notes:?}");
                drawn.insert((key, notes));
            }
        }
    }
    assert!(drawn.len() > 900, "only {} different ones", drawn.len());
}

#[test]
fn what_is_composed_is_without_fault_and_the_same_for_the_same_seed() {
    let mut composed = BTreeSet::new();
    for index in 0..KEYS.len() {
        for (rulebook, length, seed) in [("modal", 8, 1), ("tonal", 8, 2), ("modal", 10, 3)] {
            let wish = wish(index, rulebook, length, seed);
            let cantus = compose(&wish).unwrap();
            let notes: Vec<_> = cantus.notes.iter().map(ToString::to_string).collect();
            assert_eq!(notes.len(), length);
            let faults = faults(rulebook, wish.key, wish.voice, &notes);
            assert_eq!(faults, Vec::<String>::new(), "{notes:?}");
            assert_eq!(compose(&wish), Ok(cantus));
            composed.insert((wish.key, notes));
        }
    }
    assert_eq!(composed.len(), 3 * KEYS.len());
}

#[test]
fn a_compass_is_kept() {
    let of = |lowest: &str, highest: &str| Wish {
        lowest: Some(lowest.parse().unwrap()),
        highest: Some(highest.parse().unwrap()),
        ..wish(3, "modal", 9, 5)
    };
    let wish = of("D4", "A4");
    let cantus = compose(&wish).unwrap();
    let (low, high) = (wish.lowest.unwrap(), wish.highest.unwrap());
    assert!(cantus.notes.iter().all(|note| (low..=high).contains(note)), "{cantus:?}");
    let Err(Refusal::Closed(rules)) = compose(&of("D4", "F4")) else { panic!("a third is enough") };
    assert!(rules.iter().any(|rule| rule.starts_with("cantus-")), "{rules:?}");
}

#[test]
fn no_cantus_has_two_notes() {
    let Err(Refusal::Closed(rules)) = compose(&wish(0, "modal", 2, 1)) else {
        panic!("there is one")
    };
    assert!(rules.iter().any(|rule| rule.starts_with("cantus-")), "{rules:?}");
}

#[test]
fn counts_are_those_of_the_exercise_as_somebody_would_write_it() {
    let wish = wish(3, "modal", 8, 4);
    let cantus = compose(&wish).unwrap();
    let row: Vec<_> = cantus.notes.iter().map(ToString::to_string).collect();
    let (row, blank) = (row.join(" | "), " |".repeat(row.len()));
    for species in 1..=4 {
        for side in Side::BOTH {
            let rulebook = &wish.rulebook;
            let measure = Measure { cantus: &cantus, rulebook, species, side };
            let counted = measure.count(Budget::default(), &|_| {});
            let (above, below) = match side {
                Side::Above => {
                    (format!("soprano counter |{blank}"), format!("alto cantus | {row} |"))
                }
                Side::Below => {
                    (format!("alto cantus | {row} |"), format!("tenor counter |{blank}"))
                }
            };
            let text = format!(
                "rulebook modal\nkey D dorian\n\nexercise\n  species {species}\n  {above}\n  {below}\n"
            );
            let snapshot = judged(&text);
            let cancelled = AtomicBool::new(false);
            let watch = Watch::new(Budget::default(), &cancelled);
            let realizer = Realizer::new(snapshot.exercises().next().unwrap().2, &watch);
            assert_eq!(counted, realizer.count(), "{text}");
            assert_eq!(counted.extent, Extent::All, "{text}");
        }
    }
}
