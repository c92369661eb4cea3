//! What the server takes of the machine, noted every few seconds. It must not know what is done meanwhile.

use std::fmt;
use std::fs::File;
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

use bicinium_tests::Vitals;

/// The server at one moment.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sample {
    /// Since the beginning.
    pub(crate) at: Duration,
    pub(crate) vitals: Vitals,
    /// Since the beginning.
    pub(crate) work: Work,
    /// Since the sample before: the half of the answers about findings came within this, and all of them within that.
    pub(crate) waits: (Duration, Duration),
}

/// What was done with the server.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Work {
    pub(crate) edits: u64,
    pub(crate) questions: u64,
    pub(crate) answers: u64,
}

/// All samples, which are written down at once.
pub(crate) struct Log {
    file: File,
    begun: Instant,
    samples: Vec<Sample>,
    waits: Vec<Duration>,
}

/// From one sample to the next.
const PAUSE: Duration = Duration::from_secs(2);

impl Log {
    /// An empty log that is written into a file.
    pub(crate) fn begin(path: &Path) -> Self {
        let mut file = File::create(path).expect("the log can be written");
        let head = "seconds,memory_kB,threads,handles,processor_s,edits,questions,answers,\
                    median_wait_ms,longest_wait_ms";
        writeln!(file, "{head}").expect("the log can be written");
        Log { file, begun: Instant::now(), samples: Vec::new(), waits: Vec::new() }
    }

    /// Notes how long an answer about findings took.
    pub(crate) fn waited(&mut self, wait: Duration) {
        self.waits.push(wait);
    }

    /// Takes a sample if it is time for one.
    pub(crate) fn sample(&mut self, vitals: impl FnOnce() -> Vitals, work: Work) {
        let at = self.begun.elapsed();
        if self.samples.last().is_some_and(|last| at < last.at + PAUSE) {
            return;
        }
        self.waits.sort_unstable();
        let median = self.waits.get(self.waits.len() / 2).copied().unwrap_or_default();
        let waits = (median, self.waits.last().copied().unwrap_or_default());
        self.waits.clear();
        let sample = Sample { at, vitals: vitals(), work, waits };
        writeln!(self.file, "{sample}").expect("the log can be written");
        self.samples.push(sample);
    }

    /// All samples in order.
    pub(crate) fn samples(&self) -> &[Sample] {
        &self.samples
    }
}

impl fmt::Display for Sample {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Sample { at, vitals, work, waits } = self;
        let Vitals { memory, threads, handles, ticks } = vitals;
        let Work { edits, questions, answers } = work;
        let milliseconds = |wait: Duration| wait.as_secs_f64() * 1e3;
        write!(f, "{:.1},{memory},{threads},{handles},", at.as_secs_f64())?;
        write!(f, "{}.{:02},{edits},{questions},{answers},", ticks / 100, ticks % 100)?;
        write!(f, "{:.2},{:.2}", milliseconds(waits.0), milliseconds(waits.1))
    }
}

/// What is told at the end: the first tenth of the time beside the last.
impl fmt::Display for Log {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenth = self.samples.len().div_ceil(10);
        let parts = [
            ("first tenth", &self.samples[..tenth]),
            ("last tenth", &self.samples[self.samples.len() - tenth..]),
        ];
        if let Some(last) = self.samples.last() {
            writeln!(f, "{} edits, {} questions", last.work.edits, last.work.questions)?;
        }
        for (name, part) in parts {
            let most = |of: fn(&Vitals) -> u64| part.iter().map(|it| of(&it.vitals)).max();
            let [memory, threads, handles] =
                [most(|it| it.memory), most(|it| it.threads), most(|it| it.handles)]
                    .map(Option::unwrap_or_default);
            writeln!(f, "{name}: at most {memory} kB, {threads} threads, {handles} handles")?;
        }
        Ok(())
    }
}
