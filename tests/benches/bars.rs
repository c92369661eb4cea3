//! What a bar costs: intervals and parallels alone, by a script that uses a music library, by the same questions put to
//! our own intervals, and by the judge with no other rules; and the whole of what the judge does. All figures come from one run.
//!
//! `cargo bench -p bicinium-tests --bench bars`; without the library its part is left out.

#![allow(clippy::print_stdout, clippy::unwrap_used)]

#[path = "../texts/mod.rs"]
#[allow(dead_code)]
mod texts;

use std::fmt::Write as _;
use std::hint::black_box;
use std::io::Write as _;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

use bicinium_analysis::judge::judge;
use bicinium_analysis::score::{Event, Score, VoiceId};
use bicinium_analysis::{Rulebook, Sheet, Shelf, rules};
use bicinium_theory::{Interval, Motion, Pitch};

const BARS: usize = 1_000;
const ROUNDS: usize = 201;

/// The rules that look at intervals and at what follows what, and no others.
const PAIR: [&str; 4] =
    ["strong-dissonance", "consecutive-perfects", "contrary-perfects", "direct-perfects"];

fn main() {
    let text = texts::exercise("modal", BARS);
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let exercise = snapshot.exercises().next().unwrap().2;
    let (score, whole) = (&exercise.score, &exercise.rulebook);
    let pair = only(&PAIR);
    let script = script(score);
    if let Some(script) = script {
        tell("a script with music21, intervals and parallels", script, None);
    }
    tell("our own intervals, the same questions", asked(score), script);
    tell("the judge, intervals and parallels", judged(score, &pair), script);
    tell("the judge, everything", judged(score, whole), script);
}

/// A school with these rules and no others, which implies no harmony.
fn only(kept: &[&str]) -> Arc<Rulebook> {
    let mut text = "title = \"pairs\"\nextends = \"modal\"\n".to_owned();
    for entry in rules::all().filter(|entry| !kept.contains(&entry.name)) {
        writeln!(text, "[rules.{}]\nlevel = \"off\"", entry.name).unwrap();
    }
    Shelf::default().add(&text).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// What a bar costs the judge.
fn judged(score: &Score, book: &Arc<Rulebook>) -> Duration {
    let rules = book.rules(score.setting.species);
    bar(|| judge(black_box(score), rules))
}

/// What it costs to ask of every bar whether it is dissonant, and whether perfect consonances follow each other or are
/// come to in similar motion.
fn asked(score: &Score) -> Duration {
    let pairs: Vec<_> =
        pitches(score, VoiceId::Upper).zip(pitches(score, VoiceId::Lower)).collect();
    let interval = |(upper, lower): (Pitch, Pitch)| Interval::between(lower, upper).simple();
    bar(|| {
        let dissonant = pairs.iter().filter(|pair| !interval(**pair).is_consonant()).count();
        let follow = pairs.windows(2).filter(|two| {
            let (before, now) = (two[0], two[1]);
            let perfect = interval(now).perfect_class();
            let motion = Motion::between((before.0, now.0), (before.1, now.1));
            let is_same = perfect == interval(before).perfect_class() && before != now;
            perfect.is_some() && (is_same || matches!(motion, Motion::Similar | Motion::Parallel))
        });
        dissonant + follow.count()
    })
}

fn pitches(score: &Score, voice: VoiceId) -> impl Iterator<Item = Pitch> {
    score.lines[voice].events.iter().filter_map(Event::pitch)
}

/// What a bar costs: the median of many rounds over all bars.
fn bar<T>(work: impl Fn() -> T) -> Duration {
    let mut rounds: Vec<_> = (0..ROUNDS)
        .map(|_| {
            let since = Instant::now();
            black_box(work());
            since.elapsed()
        })
        .collect();
    rounds.sort_unstable();
    rounds[ROUNDS / 2] / u32::try_from(BARS).unwrap()
}

/// What it costs the script, as it tells itself: without starting, and without making the notes.
fn script(score: &Score) -> Option<Duration> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/bars.py");
    let mut script = Command::new("python3")
        .arg(path)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    let mut lines = String::new();
    for (upper, lower) in pitches(score, VoiceId::Upper).zip(pitches(score, VoiceId::Lower)) {
        writeln!(lines, "{upper} {lower}").ok()?;
    }
    script.stdin.take()?.write_all(lines.as_bytes()).ok()?;
    let said = script.wait_with_output().ok().filter(|said| said.status.success())?;
    let microseconds: f64 = String::from_utf8(said.stdout).ok()?.trim().parse().ok()?;
    Some(Duration::from_secs_f64(microseconds / 1e6))
}

fn tell(what: &str, bar: Duration, script: Option<Duration>) {
    let microseconds = bar.as_secs_f64() * 1e6;
    let ratio = script.map(|it| it.as_secs_f64() / bar.as_secs_f64());
    let ratio = ratio.map(|it| format!(", the script {it:.0} times as much")).unwrap_or_default();
    println!("{what:<48} {microseconds:9.3} µs a bar{ratio}");
}
