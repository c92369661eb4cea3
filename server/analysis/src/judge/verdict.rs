//! The verdict on a whole exercise: every rule asked at every moment, and the best way of hearing
//! it. The same code judges what is written and what might be written.

use std::sync::Arc;

use super::course::Course;
use super::report::{Admission, Breach};
use crate::reading::Reading;
use crate::rulebook::Rules;
use crate::score::Score;

/// The verdict on an exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// What the rules say, in order of place.
    pub breaches: Vec<Breach>,
    /// What the rules let pass for a reason, in order of place.
    pub admissions: Vec<Admission>,
    /// How the exercise is heard.
    pub reading: Arc<Reading>,
}

/// Judges an exercise by the rules of a school for its species.
pub fn judge(score: &Score, rules: &Arc<Rules>) -> Verdict {
    Course::after(None, score, rules).1
}
