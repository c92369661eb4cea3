//! What a bar costs: intervals and parallels alone, by a script that uses a music library and by the judge, and the
//! whole of what the judge does. All figures come from one run.
//!
//! `cargo bench -p bicinium-tests --bench bars`; without the library its part is left out.

#![allow(clippy::print_stdout, clippy::unwrap_used)]

#[path = "../texts/mod.rs"]
#[allow(dead_code)]
mod texts;

use std::fmt::Write as _;
use std::io::Write as _;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, Instant};

use bicinium_analysis::judge::judge;
use bicinium_analysis::score::{Event, Score, VoiceId};
use bicinium_analysis::{Rulebook, Sheet, Shelf, rules};

const BARS: usize = 1_000;
const ROUNDS: usize = 200;

/// The rules that look at intervals and at what follows what, and no others.
const PAIR: [&str; 4] =
    ["strong-dissonance", "consecutive-perfects", "contrary-perfects", "direct-perfects"];

fn main() {
    let text = texts::exercise("modal", BARS);
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let exercise = snapshot.exercises().next().unwrap().2;
    let (score, whole) = (&exercise.score, &exercise.rulebook);
    let pair = only(&PAIR);
    let (pair, whole) = (judged(score, &pair), judged(score, whole));
    tell("the judge, intervals and parallels", pair, None);
    tell("the judge, everything", whole, None);
    if let Some(script) = script(score) {
        tell("a script with music21, intervals and parallels", script, Some(pair));
    }
}

/// A school with these rules and no others, which implies no harmony.
fn only(kept: &[&str]) -> Arc<Rulebook> {
    let mut text = "title = \"pairs\"\nextends = \"modal\"\n".to_owned();
    for entry in rules::all().filter(|entry| !kept.contains(&entry.name)) {
        writeln!(text, "[rules.{}]\nlevel = \"off\"", entry.name).unwrap();
    }
    Shelf::default().add(&text).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// What a bar costs the judge: the median of many rounds.
fn judged(score: &Score, book: &Arc<Rulebook>) -> Duration {
    let rules = book.rules(score.setting.species);
    let mut rounds: Vec<_> = (0..ROUNDS)
        .map(|_| {
            let since = Instant::now();
            std::hint::black_box(judge(std::hint::black_box(score), rules));
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
    let pitches = |voice| score.lines[voice].events.iter().filter_map(Event::pitch);
    let mut lines = String::new();
    for (upper, lower) in pitches(VoiceId::Upper).zip(pitches(VoiceId::Lower)) {
        writeln!(lines, "{upper} {lower}").ok()?;
    }
    script.stdin.take()?.write_all(lines.as_bytes()).ok()?;
    let said = script.wait_with_output().ok().filter(|said| said.status.success())?;
    let microseconds: f64 = String::from_utf8(said.stdout).ok()?.trim().parse().ok()?;
    Some(Duration::from_secs_f64(microseconds / 1e6))
}

fn tell(what: &str, bar: Duration, beside: Option<Duration>) {
    let microseconds = bar.as_secs_f64() * 1e6;
    let ratio = beside.map(|it| bar.as_secs_f64() / it.as_secs_f64());
    let ratio = ratio.map(|it| format!(", {it:.0} times as much as the judge")).unwrap_or_default();
    println!("{what:<48} {microseconds:9.3} µs a bar{ratio}");
}
