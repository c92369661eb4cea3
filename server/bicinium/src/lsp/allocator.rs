//! What the allocator of the C library may keep. Left to itself the one of GNU keeps for every thread as much
//! as the largest piece that was ever given back, so that after a day of searches the server would be three
//! times as large as what it holds. Threads that work at the same time are few, so few stores are enough for all.
//!
//! It must not know what the memory is for.

/// From how many bytes on a piece of memory goes back to the system as soon as it is given back.
#[cfg(all(target_os = "linux", target_env = "gnu"))]
const LARGE: libc::c_int = 1 << 20;

/// How many stores of memory there are; threads beyond that share them.
#[cfg(all(target_os = "linux", target_env = "gnu"))]
const STORES: libc::c_int = 4;

/// Has the allocator give back large pieces for as long as the process runs; elsewhere there is nothing to do.
#[cfg(all(target_os = "linux", target_env = "gnu"))]
#[expect(unsafe_code, reason = "the C library offers it to nobody else")]
pub(super) fn keep_little() {
    // SAFETY: a few numbers are handed over, which the library reads and remembers; it takes any.
    unsafe {
        libc::mallopt(libc::M_TRIM_THRESHOLD, LARGE);
        libc::mallopt(libc::M_MMAP_THRESHOLD, LARGE);
        libc::mallopt(libc::M_ARENA_MAX, STORES);
    }
}

/// Has the allocator give back large pieces for as long as the process runs; elsewhere there is nothing to do.
#[cfg(not(all(target_os = "linux", target_env = "gnu")))]
pub(super) fn keep_little() {}
