//! Work on many sheets on all cores: whoever is free takes the next one, and nobody waits for another.
//! It must not know what is done with a sheet.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

use super::sources::Source;

/// Does the same with every sheet, and returns what came of it in the order of the sheets. Each worker
/// has tools of its own.
pub(super) fn all<Tools, Done: Send>(
    sources: &[Source],
    tools: impl Fn() -> Tools + Sync,
    work: impl Fn(&Source, &mut Tools) -> Done + Sync,
) -> Vec<Done> {
    let cores = available_parallelism().map_or(1, NonZero::get);
    let next = AtomicUsize::new(0);
    let mut done: Vec<(usize, Done)> = scope(|scope| {
        let one = || one(sources, &next, tools(), &work);
        let crew: Vec<_> = (1..cores.min(sources.len())).map(|_| scope.spawn(one)).collect();
        let own = one();
        let rest = |panic| std::panic::resume_unwind(panic);
        let others = crew.into_iter().flat_map(|one| one.join().unwrap_or_else(rest));
        own.into_iter().chain(others).collect()
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, done)| done).collect()
}

fn one<Tools, Done>(
    sources: &[Source],
    next: &AtomicUsize,
    mut tools: Tools,
    work: &impl Fn(&Source, &mut Tools) -> Done,
) -> Vec<(usize, Done)> {
    let mut done = Vec::new();
    loop {
        let index = next.fetch_add(1, Ordering::Relaxed);
        let Some(source) = sources.get(index) else { return done };
        done.push((index, work(source, &mut tools)));
    }
}
