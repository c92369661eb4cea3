//! What is asked, of which exercises, and what the realizer answers. It must not know how it is told.

use std::sync::atomic::AtomicBool;
use std::time::Duration as Time;

use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Level};
use bicinium_realizer::{
    Budget, Count, DeadEnd, Extent, Found, Opening, Realization, Realizer, Watch,
};

use super::{exercises, heading};
use crate::cli::Outcome;
use crate::cli::arguments::{Realize, Telling};
use crate::cli::marked::Marked;
use crate::cli::progress::Progress;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Question {
    /// How many ways there are, and the best one.
    Overview,
    /// How many ways there are.
    Count,
    /// The best ways.
    Best(usize),
    /// Some ways drawn, by a seed.
    Sample(usize, u64),
    /// What every open place may become.
    Viable,
}

/// An exercise of which something is asked.
#[derive(Clone, Copy, Debug)]
pub(super) struct Task<'a> {
    /// Its number in the sheet, from 1.
    pub(super) number: usize,
    pub(super) block: &'a Placed,
    pub(super) exercise: &'a Exercise,
}

/// What is answered about an exercise.
#[derive(Debug)]
pub(super) struct Answer<'a> {
    pub(super) task: Task<'a>,
    pub(super) seconds: u64,
    pub(super) count: Option<Count>,
    pub(super) ways: Option<Found<Realization>>,
    pub(super) openings: Option<Found<Opening>>,
    pub(super) dead_end: Option<DeadEnd>,
}

impl Question {
    /// What the options ask; or what has to be said about them.
    pub(super) fn of(options: &Realize) -> Result<Self, String> {
        let question = match (options.count, options.best, options.sample, options.viable) {
            (true, ..) => Self::Count,
            (_, Some(most), ..) => Self::Best(most),
            (_, _, Some(number), _) => Self::Sample(number, options.seed),
            (.., true) => Self::Viable,
            _ if options.format == Telling::Json => Self::Best(1),
            _ => Self::Overview,
        };
        let is_one = matches!(question, Self::Overview | Self::Best(1) | Self::Sample(1, _));
        if options.write && !is_one {
            let complaint = "Only one way can be written into the sheet: ask for `--best 1` or \
                             `--sample 1`.";
            return Err(complaint.to_owned());
        }
        Ok(question)
    }
}

impl<'a> Task<'a> {
    /// The exercises that are meant; or what has to be said instead.
    pub(super) fn all(sheet: &'a Marked, options: &Realize) -> Result<Vec<Self>, String> {
        let exercises = sheet.snapshot().exercises().enumerate();
        let all: Vec<_> = exercises
            .map(|(index, (_, block, exercise))| Self { number: index + 1, block, exercise })
            .collect();
        let meant = match options.exercise {
            None => all.iter().copied().filter(Self::is_open).collect(),
            Some(number) => match all.iter().find(|task| task.number == number) {
                Some(task) => vec![*task],
                None => return Err(missing(sheet, number, all.len())),
            },
        };
        let several = meant.len() > 1 && options.format == Telling::Json;
        match meant.iter().find(|task| task.is_unreadable(sheet)) {
            Some(task) => Err(format!(
                "{} of {} cannot be read as it stands; `bicinium check` says what is wrong with \
                 its notation. Mend that first.",
                heading(task.number),
                sheet.source.name(),
            )),
            None if meant.is_empty() => Err(nothing_to_do(sheet, &all)),
            None if several => Err(format!(
                "Something is open in {} of {}. Say which one is meant, as in `--exercise {}`.",
                self::exercises(meant.len()),
                sheet.source.name(),
                meant[0].number,
            )),
            None => Ok(meant),
        }
    }

    /// Whether a bar is blank, whatever could be written in it.
    fn has_blank_bars(&self) -> bool {
        let events = VoiceId::BOTH.into_iter().flat_map(|it| &self.exercise.score.lines[it].events);
        events.into_iter().any(|event| event.sound == Sound::Blank)
    }

    fn is_open(&self) -> bool {
        let cancelled = AtomicBool::new(false);
        let watch = Watch::new(Budget::default(), &cancelled);
        Realizer::new(self.exercise, &watch).is_open()
    }

    fn is_unreadable(&self, sheet: &Marked) -> bool {
        let own = sheet.findings().filter(|located| located.block.number == self.block.number);
        own.into_iter()
            .any(|located| located.finding.level == Level::Notation && located.finding.stands())
    }
}

fn nothing_to_do(sheet: &Marked, all: &[Task<'_>]) -> String {
    let name = sheet.source.name();
    if all.iter().any(Task::has_blank_bars) {
        return format!(
            "The blank bars of {name} have no species, and so no rhythm in which they could be \
             filled. Name one, as in `species 1`, or write `?` for each note."
        );
    }
    format!("Nothing is open in {name}: there are no holes and no blank bars.")
}

fn missing(sheet: &Marked, number: usize, all: usize) -> String {
    let has = if all == 0 { "no exercise".to_owned() } else { exercises(all) };
    format!("There is no exercise {number}: {} has {has}.", sheet.source.name())
}

impl<'a> Answer<'a> {
    /// Asks the realizer.
    pub(super) fn find(task: &Task<'a>, question: Question, seconds: u64) -> Self {
        let progress = Progress::new(&heading(task.number));
        let cancelled = AtomicBool::new(false);
        let budget = Budget { trials: u64::MAX, time: Time::from_secs(seconds) };
        let tell = |share: f64| progress.show(share);
        let watch = Watch::new(budget, &cancelled).with_progress(&tell);
        let realizer = Realizer::new(task.exercise, &watch);
        let (count, ways, openings) = match question {
            Question::Overview => (Some(realizer.count()), Some(realizer.best(1)), None),
            Question::Count => (Some(realizer.count()), None, None),
            Question::Best(most) => (None, Some(realizer.best(most)), None),
            Question::Sample(number, seed) => (None, Some(realizer.sample(number, seed)), None),
            Question::Viable => (None, None, Some(realizer.openings())),
        };
        let mut answer = Self { task: *task, seconds, count, ways, openings, dead_end: None };
        answer.dead_end = answer.is_closed().then(|| realizer.dead_end()).flatten();
        answer
    }

    /// Whether there is certainly no way.
    fn is_closed(&self) -> bool {
        let is_none = |extent: Extent, number: usize| extent == Extent::All && number == 0;
        let count = self.count.as_ref();
        count.is_some_and(|count| is_none(count.extent, usize::from(count.number != 0u8.into())))
            || self.ways.as_ref().is_some_and(|ways| is_none(ways.extent, ways.found.len()))
            || self.openings.as_ref().is_some_and(|it| is_none(it.extent, it.found.len()))
    }

    pub(super) fn outcome(&self) -> Outcome {
        if self.is_closed() { Outcome::Faults } else { Outcome::Clean }
    }
}
