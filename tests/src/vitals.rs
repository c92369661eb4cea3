//! What a process takes of the machine, as the system tells it. It must not know which process it is.

use std::fs;

/// What a process takes of the machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Vitals {
    /// The memory that it holds, in kB.
    pub memory: u64,
    /// Its threads.
    pub threads: u64,
    /// The files, pipes and sockets that it has open.
    pub handles: u64,
    /// The processor time that it has used, in hundredths of a second.
    pub ticks: u64,
}

impl Vitals {
    /// Those of the process of this number.
    ///
    /// # Panics
    /// Where the process does not run, or the system has no `/proc`.
    pub fn of(process: u32) -> Self {
        let read = |name: &str| fs::read_to_string(format!("/proc/{process}/{name}"));
        let status = read("status").expect("a running process has a status");
        let of_status = |name: &str| {
            let line = status.lines().find_map(|line| line.strip_prefix(name));
            let number = line.and_then(|line| line.split_whitespace().next()?.parse().ok());
            number.expect("a status tells this")
        };
        let handles = fs::read_dir(format!("/proc/{process}/fd")).map_or(0, Iterator::count);
        let stat = read("stat").expect("a running process tells its time");
        // The name of the program stands in parentheses; user and system time are the 12th and 13th behind it.
        let behind = stat.rsplit(')').next().unwrap_or_default();
        let ticks =
            behind.split_whitespace().skip(11).take(2).filter_map(|it| it.parse::<u64>().ok());
        Vitals {
            memory: of_status("VmRSS:"),
            threads: of_status("Threads:"),
            handles: handles as u64,
            ticks: ticks.sum(),
        }
    }
}
