//! Whether what stands in an exercise can still be finished; if not, the finding that says where it
//! cannot, which of the written notes stand in the way, and what would open it again. It is found
//! while nobody types, and kept with the exercise.

use std::collections::BTreeSet;
use std::sync::atomic::{AtomicBool, Ordering};

use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::{Judged, place};
use bicinium_analysis::{Exercise, Finding, Level, Mend, Related};
use bicinium_grammar::TextRange;
use bicinium_realizer::{DeadEnd, Realizer, Terms, Watch};
use bicinium_theory::{Duration, Pitch};

use crate::features::words::list;

/// The name under which an exercise is reported that cannot be finished as it stands.
pub const DEAD_END: &str = "dead-end";

/// How many written notes are looked at.
const LOOKED_AT: usize = 12;
/// How many of them are told of.
const TOLD: usize = 3;

/// What has been found out about an exercise.
struct Foreseen(Option<Finding>);

/// A written note without which there would be a way.
struct Cause {
    onset: Duration,
    voice: VoiceId,
    range: TextRange,
    pitch: Pitch,
    better: Option<Pitch>,
}

/// The finding that an exercise cannot be finished, if that has been found out.
pub fn known_dead_end(judged: &Judged) -> Option<Finding> {
    judged.kept.find::<Foreseen>()?.0.clone()
}

/// Whether it is worth while to find out whether an exercise can be finished: something in it is open,
/// something has been chosen, and nobody has looked yet.
pub fn is_in_doubt(judged: &Judged) -> bool {
    let is_known = judged.kept.find::<Foreseen>().is_some();
    let readable = judged.findings.iter().all(|it| it.level != Level::Notation || !it.stands());
    let exercise = judged.exercise.as_ref().filter(|_| readable && !is_known);
    exercise.is_some_and(|exercise| {
        let own = exercise.score.setting.written();
        let mut events = own.flat_map(|voice| &exercise.score.lines[voice].events);
        let is_open = VoiceId::BOTH.iter().any(|voice| {
            let mut events = exercise.score.lines[*voice].events.iter();
            events.any(Event::is_open)
        });
        is_open && events.any(|event| event.pitch().is_some())
    })
}

/// Finds out whether an exercise can be finished, and keeps it; nothing, once nobody waits for it.
pub fn foresee(judged: &Judged, cancelled: &AtomicBool) -> Option<Finding> {
    let exercise = judged.exercise.as_ref()?;
    let watch = Watch::new(super::PROMPT, cancelled);
    let realizer = Realizer::on(Terms::as_it_stands(exercise), exercise, &watch);
    let finding = realizer.dead_end().map(|end| finding(judged, exercise, &end, cancelled));
    if cancelled.load(Ordering::Relaxed) {
        return None;
    }
    judged.kept.get_or_make(|_| false, || Foreseen(finding)).0.clone()
}

fn finding(judged: &Judged, exercise: &Exercise, end: &DeadEnd, cancelled: &AtomicBool) -> Finding {
    let causes = causes(exercise, end, cancelled);
    let nearest = causes.first();
    let place = place(&exercise.score.setting, nearest.map_or(end.onset, |cause| cause.onset));
    let range = nearest.map_or_else(|| head(judged, exercise, end), |cause| cause.range);
    Finding {
        voice: nearest.map(|cause| cause.voice),
        place: Some(place),
        related: causes.iter().skip(1).map(|cause| cause.related(exercise)).collect(),
        mends: causes.iter().flat_map(|cause| cause.mends(exercise)).collect(),
        ..Finding::about_text(DEAD_END, Level::Caution, range, message(exercise, end, &causes))
    }
}

/// "As it stands, this cannot be finished without a fault: between them, the rules `cadence` and
/// `diminished-leap` leave no way through bars 3 to 5. Another note than F5 in bar 3 opens a way again."
fn message(exercise: &Exercise, end: &DeadEnd, causes: &[Cause]) -> String {
    let notes: Vec<_> = causes.iter().map(|cause| cause.name(exercise)).collect();
    let remedy = match notes.as_slice() {
        [] => "No single note that stands there is to blame; open more of them again.".to_owned(),
        [one] => format!("Another note than {one} opens a way again."),
        _ => format!("Another note for one of these opens a way again: {}.", list(&notes)),
    };
    format!("As it stands, this cannot be finished without a fault: {}. {remedy}", closed_by(end))
}

/// "the rule `leap` leaves no way through bar 5".
pub fn closed_by(end: &DeadEnd) -> String {
    let bars = match (end.first + 1, end.last + 1) {
        (first, last) if first == last => format!("bar {first}"),
        (first, last) => format!("bars {first} to {last}"),
    };
    let rules: Vec<_> = end.rules.iter().map(|rule| format!("`{rule}`")).collect();
    match rules.as_slice() {
        [one] => format!("the rule {one} leaves no way through {bars}"),
        _ => format!("between them, the rules {} leave no way through {bars}", list(&rules)),
    }
}

/// The written notes each of which, opened again, lets the end be reached; those nearest to where it
/// fails first.
fn causes(exercise: &Exercise, end: &DeadEnd, cancelled: &AtomicBool) -> Vec<Cause> {
    let setting = &exercise.score.setting;
    let (from, to) = (setting.bar_start(end.first), setting.bar_start(end.last + 1));
    let own: BTreeSet<_> = setting.written().collect();
    let notes = own.into_iter().flat_map(|voice| {
        let events = exercise.score.lines[voice].events.iter();
        events.filter_map(move |event| Some((event.pitch()?, event, voice)))
    });
    let inside = notes.filter(|(_, event, _)| event.onset < to && event.end() > from);
    let mut inside: Vec<_> = inside.collect();
    inside.sort_by_key(|(_, event, _)| event.onset.ticks().abs_diff(end.onset.ticks()));
    let watch = Watch::new(super::PROMPT, cancelled);
    let cause = |(pitch, event, voice): (Pitch, &Event, VoiceId)| {
        let terms = Terms::as_it_stands(exercise).reopening([(voice, event.onset)]);
        let best = Realizer::on(terms, exercise, &watch).best(1).found.pop()?;
        let better = best.note(voice, event.onset).map(|note| note.pitch);
        Some(Cause { onset: event.onset, voice, range: event.range, pitch, better })
    };
    inside.into_iter().take(LOOKED_AT).filter_map(cause).take(TOLD).collect()
}

impl Cause {
    /// "A4 in bar 5".
    fn name(&self, exercise: &Exercise) -> String {
        format!("{} in bar {}", self.pitch, exercise.score.setting.bar_of(self.onset) + 1)
    }

    fn related(&self, exercise: &Exercise) -> Related {
        let message = format!("Another note than {} would do as well.", self.name(exercise));
        Related { range: self.range, message }
    }

    fn mends(&self, exercise: &Exercise) -> Vec<Mend> {
        let bar = exercise.score.setting.bar_of(self.onset) + 1;
        let better = self.better.map(|pitch| Mend {
            title: format!(
                "Write {pitch} instead of {} in bar {bar}, from which the end can be reached",
                self.pitch
            ),
            range: self.range,
            text: pitch.to_string(),
        });
        let open = Mend {
            title: format!("Leave {} in bar {bar} open again", self.pitch),
            range: self.range,
            text: "?".to_owned(),
        };
        better.into_iter().chain([open]).collect()
    }
}

/// Where the finding stands if no note is to blame: the first bar of the stretch, as it is written in
/// the voice that is still open.
fn head(judged: &Judged, exercise: &Exercise, end: &DeadEnd) -> TextRange {
    let own = exercise.score.setting.written();
    let bar = usize::try_from(end.first).unwrap_or(usize::MAX);
    let mut bars = own.filter_map(|voice| exercise.score.lines[voice].bars.get(bar).copied());
    bars.next().unwrap_or_else(|| TextRange::up_to(judged.tree.text_len()))
}
