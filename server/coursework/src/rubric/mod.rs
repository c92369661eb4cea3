//! A rubric: what is taken off for what was found, and what is given for what was done well. Read
//! from a TOML file; everything that is wrong in one is told at its place. Must not know any sheet.

mod read;

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::LazyLock;

use bicinium_analysis::Level;

use crate::mark::Aspect;
use crate::merits::MeritKind;
use crate::points::Points;

/// A rubric.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rubric {
    /// What it is called.
    pub title: String,
    /// What an exercise is worth where the assignment says nothing.
    pub exercise: Points,
    /// What is taken off for each finding of a level.
    pub levels: BTreeMap<Level, Rate>,
    /// What is taken off for each finding of a rule, in place of what its level says.
    pub rules: BTreeMap<String, Rate>,
    /// What is taken off for what is not as set.
    pub as_set: BTreeMap<Aspect, Rate>,
    /// What is taken off for each bar that is not written.
    pub unfinished: Rate,
    /// What is taken off for each finding that a licence accepts.
    pub licences: Rate,
    /// What is given for what was done well, in an exercise that is complete.
    pub bonus: BTreeMap<MeritKind, Points>,
}

/// How much is taken off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Rate {
    /// For each.
    pub off: Points,
    /// For all of them in one exercise; `None` if there is no bound.
    pub at_most: Option<Points>,
}

impl Rate {
    /// What is taken off for so many.
    pub fn for_all(self, number: usize) -> Points {
        let all = self.off.times(number);
        self.at_most.map_or(all, |most| all.min(most))
    }
}

/// Something wrong in a rubric.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong, and what would mend it.
    pub message: String,
    /// Where in the text, in bytes.
    pub range: Range<usize>,
}

impl Rubric {
    /// Reads a rubric. What it does not say is not taken off and not given; an exercise for which
    /// nobody says points is worth 10.
    ///
    /// # Errors
    ///
    /// Everything that is wrong, in the order of the text.
    pub fn read(text: &str) -> Result<Self, Vec<Problem>> {
        read::rubric(text)
    }

    /// The rubric that holds where none is named.
    pub fn plain() -> &'static Self {
        static PLAIN: LazyLock<Rubric> = LazyLock::new(|| {
            let read = Rubric::read(include_str!("plain.rubric.toml"));
            read.unwrap_or_else(|problems| unreachable!("the plain rubric: {problems:?}"))
        });
        &PLAIN
    }

    /// What is taken off for each finding of a rule and level.
    pub fn rate(&self, rule: &str, level: Level) -> Rate {
        let by_level = || self.levels.get(&level).copied().unwrap_or_default();
        self.rules.get(rule).copied().unwrap_or_else(by_level)
    }
}
