//! Marks many sheets on all cores: whoever is free takes the next one. Nobody waits for another; each
//! looks up rulebooks for itself. It must not know how a sheet is marked.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

use crate::cli::marked::{By, Marked};
use crate::cli::sources::Source;

type Outcome = Result<Marked, String>;

/// Marks the sheets that can be read, in their order, and tells what has to be said of the others.
pub(super) fn mark(sources: &[Source], by: &By) -> Vec<Outcome> {
    let cores = available_parallelism().map_or(1, NonZero::get);
    let next = AtomicUsize::new(0);
    let mut marked: Vec<(usize, Outcome)> = scope(|scope| {
        let work = || work(sources, by.afresh(), &next);
        let crew: Vec<_> = (1..cores.min(sources.len())).map(|_| scope.spawn(work)).collect();
        let own = work();
        let rest = |panic| std::panic::resume_unwind(panic);
        let others = crew.into_iter().flat_map(|one| one.join().unwrap_or_else(rest));
        own.into_iter().chain(others).collect()
    });
    marked.sort_by_key(|(index, _)| *index);
    marked.into_iter().map(|(_, outcome)| outcome).collect()
}

fn work(sources: &[Source], mut by: By, next: &AtomicUsize) -> Vec<(usize, Outcome)> {
    let mut done = Vec::new();
    loop {
        let index = next.fetch_add(1, Ordering::Relaxed);
        let Some(source) = sources.get(index) else { return done };
        let marked = source.read().map(|text| Marked::new(source.clone(), text, &mut by));
        done.push((index, marked));
    }
}
