//! Every rule looks back no farther than it says: with a memory cut to its sight, moment after
//! moment, it finds the same.

#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::judge::{
    Breach, Close, Detail, Memory, Moment, Report, Sight, Step, Trace, moments,
};
use bicinium_analysis::reading::{Hearing, Listener, Passage, Search, Vocabulary};
use bicinium_analysis::rulebook::Active;
use bicinium_analysis::score::Score;
use bicinium_analysis::{Exercise, Sheet, Shelf};

/// An exercise on its way: with all that is remembered, and with what one rule sees of it.
struct Walk<'a> {
    score: &'a Score,
    listener: Listener<'a>,
    moments: Vec<Moment>,
    path: Vec<Hearing>,
}

/// What is remembered at a point.
#[derive(Clone, Default)]
struct State {
    memory: Memory,
    hearing: Hearing,
}

impl<'a> Walk<'a> {
    fn new(score: &'a Score, listener: Listener<'a>) -> Self {
        let moments = moments(score);
        let mut memories = vec![Memory::default()];
        for moment in &moments {
            memories.push(memories.last().unwrap().after(moment));
        }
        let search = Search::of(&Passage { listener, moments: &moments, memories: &memories });
        let path = (0..moments.len()).map(|index| search.hearing(index).clone()).collect();
        Self { score, listener, moments, path }
    }

    /// What a rule finds at each moment and at the end, with a memory cut to a sight or not.
    fn found(&self, active: &Active, sight: Sight) -> Vec<Vec<Breach>> {
        let mut state = State::default();
        let mut found = Vec::new();
        for (index, now) in self.moments.iter().enumerate() {
            let mut report = report(active);
            let next = self.judge(active, &state, index, &mut report);
            found.push(report.into_breaches());
            let upcoming = self.moments.get(index + 1).map_or(now.onset, |moment| moment.onset);
            let places: Vec<_> = next.hearing.places().collect();
            let memory = next.memory.within(sight, &self.score.setting, upcoming, &places);
            state = State { hearing: next.hearing.within(sight, &memory), memory };
        }
        let close =
            Close { setting: &self.score.setting, moments: &self.moments, memory: &state.memory };
        let mut report = report(active);
        active.rule.close(&close, &mut report);
        found.push(report.into_breaches());
        found
    }

    fn judge(&self, active: &Active, state: &State, index: usize, report: &mut Report) -> State {
        let now = &self.moments[index];
        let memory = state.memory.after(now);
        let step =
            Step { setting: &self.score.setting, before: &state.memory, now, after: &memory };
        active.rule.step(&step, report);
        let harmony = self.path[index].harmony;
        let (after, outcomes) = self.listener.listen(&step, &state.hearing, harmony);
        let hearing = self.listener.heard(step, &state.hearing, &after, &outcomes);
        active.rule.hear(&hearing, report);
        State { hearing: after, memory }
    }
}

/// An empty report of one rule.
fn report(active: &Active) -> Report {
    let mut report = Report::new(Detail::Counted);
    report.open(active.entry.name, active.level);
    report
}

fn check(exercise: &Exercise, text: &str) -> usize {
    let (score, rules) = (&exercise.score, exercise.rules());
    let vocabulary = Vocabulary::new(&rules.plan, score.setting.key, &score.harmonies);
    let (setting, written) = (&score.setting, score.harmonies.as_slice());
    let walk = Walk::new(score, Listener { setting, written, rules, vocabulary: &vocabulary });
    let mut found = 0;
    for active in &rules.active {
        let own = active.rule.sight().and(walk.listener.sight());
        let all = walk.found(active, Sight::of(Trace::Memory));
        let name = active.entry.name;
        // Of a figure in short nothing is known but that it fails, and in what.
        let in_short = walk.found(active, own);
        let is_clean = |found: &[Vec<Breach>]| found.iter().map(Vec::is_empty).collect::<Vec<_>>();
        assert_eq!(is_clean(&all), is_clean(&in_short), "{name} in\n{text}");
        let cut = walk.found(active, own.and(Sight::of(Trace::Figures))).concat();
        let whole = all.concat();
        // Where a high or low note first came is no part of what a rule decides by.
        let is_placed = active.rule.sight() != active.rule.sight().and(Sight::heights(1));
        let spots = |found: &[Breach]| found.iter().map(|breach| breach.spot).collect::<Vec<_>>();
        let voices = |found: &[Breach]| found.iter().map(|it| it.spot.voice).collect::<Vec<_>>();
        assert_eq!(voices(&whole), voices(&cut), "{name} in\n{text}");
        assert!(!is_placed || spots(&whole) == spots(&cut), "{name} in\n{text}");
        found += whole.len();
    }
    found
}

/// Other answers to the questions that change how far a rule looks back.
const SCHOOLS: [&str; 2] = [
    "name = \"far\"
extends = \"modal\"
[rules.framed-tritone]
counted = \"any-outline\"
[rules.afterbeat-perfects]
level = \"fault\"
saved-by = \"the-other-side\"
[rules.cross-relation]
tritone = \"refused-between-root-positions\"
[rules.diminished-leap]
allowed = \"if-it-turns-back\"
[rules.minor-sixth-leap]
allowed = \"upward-if-it-turns-back\"
[rules.major-thirds]
level = \"advice\"
[rules.main-quarter-perfects]
window = \"lehmann\"
[rules.suspension-chain]
at-most = 1
[rules.imperfect-run]
at-most = 1
",
    "name = \"near\"
extends = \"tonal\"
[rules.afterbeat-perfects]
saved-by = \"nothing\"
[rules.downbeat-perfects]
saved-by = \"leap\"
[rules.cadence]
made-by = \"the-dominant\"
[rules.crossing]
at-most = 2
[rules.inner-unison]
on-weak-beats = \"once\"
",
];

fn shelf() -> Arc<Shelf> {
    let mut shelf = Shelf::default();
    for text in SCHOOLS {
        shelf.add(text).unwrap();
    }
    Arc::new(shelf)
}

#[test]
fn every_rule_sees_no_farther_than_it_says() {
    let path =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/oracles/mutations/random.tsv");
    let table = std::fs::read_to_string(path).unwrap();
    let rows = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    let shelf = shelf();
    let mut found = 0;
    for (index, row) in rows.enumerate() {
        let [_, species, key, meter, upper, lower, _] =
            row.split('\t').collect::<Vec<_>>().try_into().unwrap();
        let school = ["modal", "tonal", "far", "near"][index % 4];
        let text = format!(
            "rulebook {school}\nspecies {species}\nkey {key}\nmeter {meter}\n\nexercise\n  {upper}\n  {lower}\n"
        );
        let snapshot = Sheet::new(&text, shelf.clone()).snapshot();
        found += snapshot.exercises().map(|known| check(known.2, &text)).sum::<usize>();
    }
    assert!(found > 10_000, "only {found} findings");
}

#[test]
fn every_rule_sees_no_farther_in_what_breaks_or_nearly_breaks_a_rule() {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules");
    let folders = std::fs::read_dir(rules).unwrap().map(|folder| folder.unwrap().path());
    let sheets = folders.flat_map(|folder| std::fs::read_dir(folder).unwrap());
    let mut found = 0;
    for sheet in sheets {
        let text = std::fs::read_to_string(sheet.unwrap().path()).unwrap();
        let snapshot = Sheet::new(&text, shelf()).snapshot();
        found += snapshot.exercises().map(|known| check(known.2, &text)).sum::<usize>();
    }
    assert!(found > 100, "only {found} findings");
}
