//! What can still become of an exercise: how many ways there are to fill it, and the best of them. Found
//! once for all who ask, and kept with the exercise.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use bicinium_analysis::Exercise;
use bicinium_analysis::sheet::Judged;
use bicinium_realizer::{Budget, Count, Found, Realization, Realizer, Terms, Watch};

/// How many of the best ways are found.
const BEST: usize = 3;

/// What can still become of an exercise. Faults that stand already are overlooked.
#[derive(Clone, Debug)]
pub struct Prospect {
    /// How many ways there are to fill it.
    pub count: Count,
    /// The best of them, the best first.
    pub best: Found<Realization>,
}

/// The prospect of an exercise, as far as it is found in the time that somebody waits who only looks;
/// nothing if nothing is open in it.
pub fn prospect(judged: &Judged, cancelled: &AtomicBool) -> Option<Arc<Prospect>> {
    if let Some(known) = judged.kept.find::<Prospect>() {
        return Some(known);
    }
    let found = find(judged.exercise.as_ref()?, cancelled)?;
    if cancelled.load(Ordering::Relaxed) {
        return Some(Arc::new(found));
    }
    Some(judged.kept.get_or_make(|_| false, || found))
}

/// The best way to fill an exercise, for somebody who waits for it and is told how far it has come,
/// from 0 to 1.
pub fn best_way(
    judged: &Judged,
    budget: Budget,
    cancelled: &AtomicBool,
    progress: &dyn Fn(f64),
) -> Option<Realization> {
    let known = judged.kept.find::<Prospect>().and_then(|it| it.best.found.first().cloned());
    known.or_else(|| {
        let exercise = judged.exercise.as_ref()?;
        let watch = Watch::new(budget, cancelled).with_progress(progress);
        Realizer::on(Terms::as_it_stands(exercise), exercise, &watch).best(1).found.pop()
    })
}

fn find(exercise: &Exercise, cancelled: &AtomicBool) -> Option<Prospect> {
    let watch = Watch::new(super::PROMPT, cancelled);
    let realizer = Realizer::on(Terms::as_it_stands(exercise), exercise, &watch);
    realizer.is_open().then(|| {
        // First what can be filled in, then how much there is to choose from.
        let best = realizer.best(BEST);
        Prospect { count: realizer.count(), best }
    })
}
