//! What every refactoring promises, held by the judge on every fixture of the rules.

use std::collections::{BTreeMap, BTreeSet};

use bicinium::features::refactorings::{Refactoring, Subject};
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_analysis::{Level, Snapshot};
use bicinium_theory::Interval;

use super::bench::{applied, at, comments, judged, of_level, sheets, standing};

#[test]
fn every_refactoring_keeps_its_promise_on_every_fixture() {
    use Subject::{Exchange, Licences, System, Transposition};

    let mut tried = BTreeMap::<Subject, usize>::new();
    for path in sheets() {
        let text = std::fs::read_to_string(&path).unwrap();
        let head = text.find("exercise").unwrap();
        for refactoring in at(&text, head) {
            *tried.entry(refactoring.subject).or_default() += 1;
            let after = applied(&text, &refactoring.edits);
            let about = format!("{}: {}\n{after}", path.display(), refactoring.title);
            holds(&text, &after, &refactoring, &about);
        }
    }
    let offered: Vec<_> = tried.iter().filter(|(_, count)| **count > 20).map(|it| *it.0).collect();
    assert_eq!(offered, [Transposition, Exchange, System, Licences], "{tried:?}");
}

fn holds(before: &str, after: &str, refactoring: &Refactoring, about: &str) {
    assert_ne!(before, after, "{about}");
    assert_eq!(comments(before), comments(after), "{about}");
    let (old, new) = (judged(before), judged(after));
    let problems = |snapshot: &Snapshot| -> usize {
        snapshot.blocks().iter().map(|block| block.judged.tree.problems.len()).sum()
    };
    assert_eq!(problems(&new), problems(&old), "{about}");
    let (found, left) = (standing(&old), standing(&new));
    let faults = |found| of_level(found, Level::Fault);
    match refactoring.subject {
        Subject::Transposition => {
            assert!(faults(&left).is_subset(&faults(&found)), "{about}");
            moves_alike(&old, &new, about);
        }
        Subject::Exchange => inverts(&old, &new, &refactoring.title, about),
        Subject::System => {
            assert!(faults(&left).is_subset(&faults(&found)), "{about}");
        }
        Subject::Licences => {
            assert!(faults_of_first(&old) > 0 && faults_of_first(&new) == 0, "{about}");
            let notation = |found| of_level(found, Level::Notation);
            assert_eq!(notation(&left), notation(&found), "{about}");
        }
        Subject::Cantus => {
            // A cantus that is whole again may be longer than what is written against it.
            let mut new = faults(&left);
            new.retain(|fault| fault.0 != "unequal-bars");
            assert!(new.is_subset(&faults(&found)), "{about}");
            assert!(left.iter().all(|it| it.0 != "cantus-altered"), "{about}");
        }
        Subject::Spelling => {
            assert!(left.len() < found.len(), "{about}");
            assert!(faults(&left).is_subset(&faults(&found)), "{about}");
        }
    }
}

fn faults_of_first(snapshot: &Snapshot) -> usize {
    let (_, block, _) = snapshot.exercises().next().unwrap();
    let findings = block.judged.findings.iter();
    findings.filter(|it| it.level == Level::Fault && it.stands() && it.place.is_some()).count()
}

fn scores(snapshot: &Snapshot) -> Vec<Score> {
    snapshot.exercises().map(|(_, _, exercise)| exercise.score.clone()).collect()
}

/// The first exercise with every note moved by the same interval.
fn moves_alike(old: &Snapshot, new: &Snapshot, about: &str) {
    let (old, new) = (&scores(old)[0], &scores(new)[0]);
    let mut ways = BTreeSet::new();
    for voice in VoiceId::BOTH {
        let (old, new) = (&old.lines[voice].events, &new.lines[voice].events);
        assert_eq!(old.len(), new.len(), "{about}");
        let pairs = old.iter().zip(new).filter_map(|(a, b)| Some((a.pitch()?, b.pitch()?)));
        ways.extend(pairs.map(|(old, new)| Interval::between(old, new)));
    }
    assert_eq!(ways.len(), 1, "{about}");
    let way = *ways.first().unwrap();
    assert_eq!(old.setting.key.tonic.transpose(way), Some(new.setting.key.tonic), "{about}");
    assert_eq!(old.setting.key.mode, new.setting.key.mode, "{about}");
}

/// Every interval of the first exercise inverted, and the fifths and fourths named.
fn inverts(old: &Snapshot, new: &Snapshot, title: &str, about: &str) {
    let (old, new) = (intervals(&scores(old)[0]), intervals(&scores(new)[0]));
    assert_eq!(old.len(), new.len(), "{about}");
    for (old, new) in old.iter().zip(&new) {
        let sum = old.1.semitones() + new.1.semitones();
        assert!(sum == 12 || sum == 24, "{old:?} and {new:?}: {about}");
    }
    let named = |steps, semitones| {
        let is_meant = |it: &Interval| it.abs().simple() == Interval::new(steps, semitones);
        old.iter().any(|(_, it)| is_meant(it))
    };
    assert_eq!(
        title.contains("becomes a fourth") || title.contains("become fourths"),
        named(4, 7),
        "{about}"
    );
}

fn intervals(score: &Score) -> Vec<(u32, Interval)> {
    let lines = &score.lines;
    let events = lines.upper.events.iter().chain(&lines.lower.events);
    let onsets: BTreeSet<_> = events.map(|event| event.onset).collect();
    let interval = |onset| {
        let lower = lines.lower.sounding_at(onset)?.pitch()?;
        let upper = lines.upper.sounding_at(onset)?.pitch()?;
        Some((score.setting.bar_of(onset), Interval::between(lower, upper)))
    };
    onsets.into_iter().filter_map(interval).collect()
}
