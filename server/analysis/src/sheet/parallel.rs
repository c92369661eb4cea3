//! The same work for many things, on all cores. Knows nothing of the work.

use std::num::NonZero;
use std::thread::{available_parallelism, scope};

/// Fewer things than this are not worth another thread.
const WORTHWHILE: usize = 32;

/// Does some work for each of many things; the results are in the order of the things. A panic in
/// the work comes out of here.
pub(super) fn map<T: Sync, R: Send>(things: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    // How many cores there are is a question to the system that takes longer than a few things do.
    let worthwhile = things.len() / WORTHWHILE;
    let cores = if worthwhile < 2 { 1 } else { available_parallelism().map_or(1, NonZero::get) };
    let threads = cores.min(worthwhile);
    if threads < 2 {
        return things.iter().map(work).collect();
    }
    let work = &work;
    scope(|scope| {
        let parts = things.chunks(things.len().div_ceil(threads));
        let running: Vec<_> = parts
            .map(|part| scope.spawn(move || part.iter().map(work).collect::<Vec<_>>()))
            .collect();
        let rest = |panic| std::panic::resume_unwind(panic);
        running.into_iter().flat_map(|part| part.join().unwrap_or_else(rest)).collect()
    })
}
