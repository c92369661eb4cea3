//! A figure under way, of whatever kind, and what it comes to with the next note. Hands the question
//! to the kind; knows none of them.

use bicinium_theory::Duration;

use super::{Accented, Ending, Entry, Failure, Figures, Held, Link, Offence, Told, Weak};
use crate::judge::Heard;
use crate::reading::vocabulary::HarmonyId;

/// A figure that has not come to its end.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Pursuit {
    /// Begun on a weak beat.
    Weak(Weak),
    /// Begun on a strong beat.
    Accented(Accented),
    /// Held over into a dissonance.
    Held(Held),
}

/// The note that follows in a pursuit, and how it stands.
#[derive(Clone, Copy, Debug)]
pub struct Follower {
    /// The note.
    pub note: Heard,
    /// What keeps it from standing for itself; `None` if it does.
    pub offence: Option<Offence>,
    /// The harmony it stands in.
    pub harmony: Option<HarmonyId>,
    /// Whether it is the tonic of the key.
    pub is_tonic: bool,
    /// Whether it stands on a strong beat.
    pub is_strong: bool,
}

/// What a pursuit comes to with the next note.
#[derive(Clone, Debug)]
pub enum Next {
    /// The note belongs to the figure, which goes on.
    GoesOn(Box<Pursuit>),
    /// The figure has ended before or with the note: what became of its notes.
    Ends(Vec<Told>),
    /// The figure has ended before the note, and another one, begun since, goes on with it.
    HandsOn(Vec<Told>, Box<Pursuit>),
}

impl Next {
    /// Adds what has come to its end, and gives what goes on.
    pub fn into_parts(self, told: &mut Vec<Told>) -> Option<Box<Pursuit>> {
        match self {
            Self::GoesOn(pursuit) => Some(pursuit),
            Self::Ends(ends) => {
                told.extend(ends);
                None
            }
            Self::HandsOn(ends, pursuit) => {
                told.extend(ends);
                Some(pursuit)
            }
        }
    }
}

impl Follower {
    /// The follower as a link of a chain, where it does not stand for itself.
    pub(super) fn link(&self, from: Heard) -> Option<Link> {
        let (note, offence) = (self.note, self.offence?);
        Some(Link { note, from: Some(from), offence, at: note.onset })
    }

    pub(super) fn is_stable(&self) -> bool {
        self.offence.is_none()
    }

    /// Whether it may stand in the midst of a figure: for itself, or on a weak beat.
    pub(super) fn may_embellish(&self) -> bool {
        self.is_stable() || !self.is_strong
    }
}

impl Pursuit {
    /// What the figure comes to with the next note.
    pub fn follow(&self, next: Follower, figures: Figures) -> Next {
        match self {
            Self::Weak(weak) => weak.follow(next, figures),
            Self::Accented(accented) => accented.follow(next, figures),
            Self::Held(held) => held.follow(next, figures),
        }
    }

    /// What becomes of its notes when it breaks off.
    pub fn break_off(&self, failure: Failure) -> Vec<Told> {
        match self {
            Self::Weak(weak) => weak.ends(Ending::Failed(failure)),
            Self::Accented(accented) => accented.ends(Ending::Failed(failure)),
            Self::Held(held) => held.break_off(failure),
        }
    }

    /// The places whose simultaneities decide what becomes of it, besides that of the next note.
    pub fn places(&self) -> Vec<Duration> {
        match self {
            Self::Weak(_) | Self::Accented(_) => Vec::new(),
            Self::Held(held) => held.places(),
        }
    }

    /// The same without what does not decide how it goes on or what is wrong if it fails.
    #[must_use]
    pub fn in_short(&self) -> Self {
        match self {
            Self::Accented(accented) => Self::Accented(accented.in_short()),
            Self::Weak(_) | Self::Held(_) => self.clone(),
        }
    }

    /// How the notes that it takes in after the first one are entered.
    pub fn entry(&self) -> Entry {
        match self {
            Self::Weak(_) => Entry::Weak,
            Self::Accented(_) => Entry::Accented,
            Self::Held(_) => Entry::Between,
        }
    }
}
