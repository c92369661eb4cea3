//! What the realizer promises, held against the checker on the text: ways drawn at random are
//! written out, parsed and judged; notes are taken out again, and every pitch is tried in their
//! place.

#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::realizing::{edits, open_at};
use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_analysis::sheet::Change;
use bicinium_analysis::{Exercise, Level, Sheet, Shelf, Snapshot};
use bicinium_realizer::{Budget, Count, Extent, Realization, Realizer, Watch, pitches};
use bicinium_theory::Pitch;

/// Short cantus in several keys and meters, each with a register above and below that suits it.
const CANTUS: [(&str, &str, &str, &str, &str); 6] = [
    ("D dorian", "2/2", "alto", "D4 F4 E4 D4", "mezzo"),
    ("C major", "4/4", "tenor", "C4 D4 F4 E4 D4 C4", "alto"),
    ("A minor", "2/2", "alto", "A4 C5 B4 A4", "soprano"),
    ("E phrygian", "2/2", "tenor", "E4 A3 G3 F3 E3", "alto"),
    ("G mixolydian", "3/2", "tenor", "G3 B3 A3 G3", "alto"),
    ("F major", "3/4", "alto", "F4 G4 A4 G4 F4", "soprano"),
];

/// A blank counter to a cantus.
fn blank(school: &str, species: u8, cantus: usize, is_below: bool) -> String {
    let (key, meter, register, notes, other) = CANTUS[cantus];
    let bars: Vec<_> = notes.split(' ').collect();
    let given = format!("  {register} cantus | {} |\n", bars.join(" | "));
    let counter = |register: &str| format!("  {register} counter |{}\n", "  |".repeat(bars.len()));
    let rows = if is_below {
        format!("{given}{}", counter("bass"))
    } else {
        format!("{}{given}", counter(other))
    };
    format!("rulebook {school}\nkey {key}\nmeter {meter}\n\nexercise\n  species {species}\n{rows}")
}

fn snapshot(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

fn exercise(snapshot: &Snapshot) -> Exercise {
    snapshot.exercises().next().unwrap().2.clone()
}

fn faults(snapshot: &Snapshot) -> Vec<String> {
    let findings = snapshot.findings().map(|located| located.finding);
    let faults = findings.filter(|finding| finding.level <= Level::Fault);
    faults.map(|finding| format!("{}: {}", finding.rule, finding.message)).collect()
}

/// A sheet with a way written into it.
fn written(text: &str, way: &Realization) -> String {
    let snapshot = snapshot(text);
    let (_, block, exercise) = snapshot.exercises().next().unwrap();
    let mut written = text.to_owned();
    for (range, insert) in edits(block, exercise, way).into_iter().rev() {
        written.replace_range(range, &insert);
    }
    written
}

fn ask<T>(exercise: &Exercise, question: impl FnOnce(&Realizer<'_>) -> T) -> T {
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(Budget::default(), &cancelled);
    question(&Realizer::new(exercise, &watch))
}

fn count(exercise: &Exercise) -> Count {
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(Budget::default(), &cancelled);
    Realizer::new(exercise, &watch).count()
}

/// Every blank exercise, with its text.
fn blanks() -> impl Iterator<Item = String> {
    let cantus = (0..CANTUS.len()).flat_map(|cantus| [(cantus, false), (cantus, true)]);
    cantus.flat_map(|(cantus, is_below)| {
        ["modal", "tonal"].into_iter().flat_map(move |school| {
            (1..=4).map(move |species| blank(school, species, cantus, is_below))
        })
    })
}

/// Where the notes of the counter or the cantus stand in the text.
fn notes(text: &str, role: &str) -> Vec<Range<usize>> {
    let row = text.lines().find(|line| line.contains(role)).unwrap();
    let start = row.as_ptr() as usize - text.as_ptr() as usize;
    let words = row.split_inclusive([' ', '|', '(', ')']).scan(start, |at, word| {
        let range = *at..*at + word.trim_end_matches([' ', '|', '(', ')']).len();
        *at += word.len();
        Some(range)
    });
    let is_note = |range: &Range<usize>| {
        let word = &text[range.clone()];
        word.starts_with(|c| ('A'..='G').contains(&c))
            && word.ends_with(|c: char| c.is_ascii_digit())
    };
    words.filter(is_note).collect()
}

#[test]
fn what_is_drawn_is_without_fault_when_it_is_written() {
    let mut drawn = 0;
    for text in blanks() {
        let exercise = exercise(&snapshot(&text));
        let ways = ask(&exercise, |realizer| realizer.sample(30, 7));
        assert_eq!(ways.extent, Extent::All, "{text}");
        for way in &ways.found {
            let written = written(&text, way);
            assert!(!written.contains("|  |"), "{written}");
            assert_eq!(faults(&snapshot(&written)), Vec::<String>::new(), "{written}");
        }
        drawn += ways.found.len();
    }
    assert!(drawn > 2000, "{drawn} drawn");
}

#[test]
fn one_note_taken_out_may_become_what_the_checker_lets_stand() {
    let (mut holes, mut open) = (0, 0);
    for (index, text) in blanks().enumerate() {
        let exercise = exercise(&snapshot(&text));
        let ways = ask(&exercise, |realizer| realizer.sample(4, index as u64));
        for (turn, way) in ways.found.iter().enumerate() {
            let written = written(&text, way);
            for range in notes(&written, " counter ").into_iter().skip(turn % 3).step_by(3) {
                open += compare(&written, &range);
                holes += 1;
            }
        }
    }
    assert!(holes > 1000 && open > holes, "{holes} holes, {open} pitches");
}

/// How many pitches a note may have, by the realizer and by trying.
fn compare(text: &str, range: &Range<usize>) -> usize {
    let mut sheet = Sheet::new(text, Arc::new(Shelf::default()));
    sheet.edit(range.clone(), "?");
    let hollow = sheet.snapshot();
    let (_, block, exercise) = hollow.exercises().next().unwrap();
    let place = open_at(block, exercise, range.start).unwrap();
    let found = ask(exercise, |realizer| realizer.opening(place.voice, place.onset));
    assert_eq!(found.extent, Extent::All);
    let viable: BTreeSet<_> = found.found.iter().map(|viable| viable.pitch).collect();
    let mut length = 1;
    let tried = pitches(&exercise.score.setting).into_iter().filter(|pitch| {
        let word = pitch.to_string();
        sheet.edit(range.start..range.start + length, &word);
        length = word.len();
        faults(&sheet.snapshot()).is_empty()
    });
    let tried: BTreeSet<_> = tried.collect();
    assert_eq!(viable, tried, "{text}\nat {}", &text[range.clone()]);
    tried.len()
}

/// Two notes of a row taken out, or one of each row: as many ways as trying every pair finds.
#[test]
fn two_notes_taken_out_have_as_many_ways_as_trying_finds() {
    let mut ways = 0;
    for (index, cantus) in (0..CANTUS.len()).cycle().take(20).enumerate() {
        let school = ["modal", "tonal"][index % 2];
        let species = 1 + u8::try_from(index / 2 % 5).unwrap();
        let text = blank(school, species, cantus, index % 3 == 0);
        let exercise = exercise(&snapshot(&text));
        let drawn = ask(&exercise, |realizer| realizer.best(1));
        let Some(way) = drawn.found.first() else { continue };
        let written = written(&text, way);
        let (own, given) = (notes(&written, " counter "), notes(&written, " cantus "));
        if let [.., first, second, _] = own.as_slice() {
            ways += compare_two(&written, [first, second]);
            ways += compare_two(&written, [second, &given[given.len() / 2]]);
        }
    }
    assert!(ways > 50, "{ways}");
}

/// How many pairs of pitches two notes may have, by the realizer and by trying.
fn compare_two(text: &str, places: [&Range<usize>; 2]) -> usize {
    let mut hollow = text.to_owned();
    let mut places = places.map(Clone::clone);
    places.sort_by_key(|range| std::cmp::Reverse(range.start));
    for range in places {
        hollow.replace_range(range, "?");
    }
    let exercise = exercise(&snapshot(&hollow));
    let count = count(&exercise);
    assert_eq!(count.extent, Extent::All);
    let setting = &exercise.score.setting;
    let holes: Vec<_> = VoiceId::BOTH
        .into_iter()
        .flat_map(|voice| exercise.score.lines[voice].events.iter().map(move |e| (voice, e)))
        .filter(|(_, event)| event.sound == Sound::Hole)
        .map(|(voice, event)| (voice, event.onset))
        .collect();
    let all = pitches(setting);
    let pairs = all.iter().flat_map(|a| all.iter().map(move |b| [*a, *b]));
    let tried = pairs.filter(|pair| {
        let changes = holes.iter().zip(pair);
        let changes: Vec<_> = changes
            .map(|((voice, onset), pitch)| Change { voice: *voice, onset: *onset, pitch: *pitch })
            .collect();
        exercise.account_with(&changes).tally().faults == 0
    });
    let tried = tried.count();
    assert_eq!(count.number, tried.into(), "{hollow}");
    tried
}

/// Chi-square over all ways of a small exercise: drawn with equal chances, the statistic stays below
/// its 99.9th percentile (degrees of freedom large enough for the normal approximation of Wilson and
/// Hilferty 1931).
#[test]
fn ways_are_drawn_with_equal_chances() {
    let text = blank("modal", 1, 1, false);
    let exercise = exercise(&snapshot(&text));
    let (all, drawn) = ask(&exercise, |realizer| {
        let all = realizer.best(usize::MAX).found;
        let number = all.len() * 40;
        (all, realizer.sample(number, 11).found)
    });
    assert!((20..2000).contains(&all.len()), "{}", all.len());
    let mut times: BTreeMap<Vec<Pitch>, u32> = all.iter().map(|way| (line(way), 0)).collect();
    assert_eq!(times.len(), all.len(), "every way once");
    for way in &drawn {
        *times.get_mut(&line(way)).unwrap() += 1;
    }
    let statistic: f64 =
        times.values().map(|times| (f64::from(*times) - 40.0).powi(2) / 40.0).sum();
    let freedom = f64::from(u32::try_from(all.len()).unwrap() - 1);
    let spread = 2.0 / (9.0 * freedom);
    let limit = freedom * (1.0 - spread + 3.09 * spread.sqrt()).powi(3);
    assert!(statistic < limit, "{statistic} of at most {limit}");
    let lower = freedom * (1.0 - spread - 3.09 * spread.sqrt()).powi(3);
    assert!(statistic > lower, "too even: {statistic} of at least {lower}");
}

#[test]
fn the_same_seed_draws_the_same_ways() {
    let exercise = exercise(&snapshot(&blank("tonal", 2, 0, false)));
    let draw = |seed: u64| ask(&exercise, |realizer| realizer.sample(5, seed).found);
    assert_eq!(draw(3), draw(3));
    assert_ne!(draw(3), draw(4));
}

fn line(way: &Realization) -> Vec<Pitch> {
    way.notes(VoiceId::Upper).map(|note| note.pitch).collect()
}

/// Without a species blank bars have no rhythm; there is nothing to be chosen in them.
#[test]
fn bars_without_a_rhythm_stay_blank_while_holes_are_filled() {
    let text = "key D minor\n\nexercise\n  soprano counter | | D5 ? | rest | |\n";
    let way = ask(&exercise(&snapshot(text)), |realizer| realizer.best(1)).found.pop().unwrap();
    let filled = written(text, &way);
    let note = way.notes(VoiceId::Upper).nth(1).unwrap().pitch;
    assert_eq!(filled, text.replace('?', &note.to_string()));
}
