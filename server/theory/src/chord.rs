//! Chords as spelled notes: triads and seventh chords on a root. Knows no key; a numeral finds the
//! root.

use std::fmt;

use crate::{Interval, PitchClass, Quality};

/// The quality of a triad.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TriadQuality {
    /// Major third, perfect fifth.
    Major,
    /// Minor third, perfect fifth.
    Minor,
    /// Minor third, diminished fifth.
    Diminished,
    /// Major third, augmented fifth.
    Augmented,
}

/// What a note is in a chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Member {
    /// The note the chord is built on.
    Root,
    /// The third above the root.
    Third,
    /// The fifth above the root.
    Fifth,
    /// The seventh above the root.
    Seventh,
}

/// Which member of a chord lies lowest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Inversion {
    /// Root position.
    Root,
    /// The third lies lowest.
    First,
    /// The fifth lies lowest.
    Second,
    /// The seventh lies lowest.
    Third,
}

/// A triad or seventh chord on a spelled root.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Chord {
    /// The root.
    pub root: PitchClass,
    /// The quality of the triad.
    pub quality: TriadQuality,
    /// The quality of the seventh above the root, if there is one: minor, major or diminished.
    pub seventh: Option<Quality>,
}

impl TriadQuality {
    /// The name: "major", "minor", "diminished", "augmented".
    pub fn name(self) -> &'static str {
        match self {
            Self::Major => "major",
            Self::Minor => "minor",
            Self::Diminished => "diminished",
            Self::Augmented => "augmented",
        }
    }

    fn third(self) -> Interval {
        match self {
            Self::Major | Self::Augmented => Interval::new(2, 4),
            Self::Minor | Self::Diminished => Interval::new(2, 3),
        }
    }

    fn fifth(self) -> Interval {
        match self {
            Self::Diminished => Interval::new(4, 6),
            Self::Major | Self::Minor => Interval::new(4, 7),
            Self::Augmented => Interval::new(4, 8),
        }
    }
}

impl Member {
    /// The members from the root up.
    pub const ALL: [Self; 4] = [Self::Root, Self::Third, Self::Fifth, Self::Seventh];

    /// The name: "root", "third", "fifth", "seventh".
    pub fn name(self) -> &'static str {
        match self {
            Self::Root => "root",
            Self::Third => "third",
            Self::Fifth => "fifth",
            Self::Seventh => "seventh",
        }
    }
}

impl Inversion {
    /// The member that lies lowest.
    pub fn lowest(self) -> Member {
        match self {
            Self::Root => Member::Root,
            Self::First => Member::Third,
            Self::Second => Member::Fifth,
            Self::Third => Member::Seventh,
        }
    }
}

impl Chord {
    /// What the note, as spelled, is in this chord; none if it is foreign to it.
    pub fn member(self, note: PitchClass) -> Option<Member> {
        self.members().find(|(_, class)| *class == note).map(|(member, _)| member)
    }

    /// The note that is this member; none for the seventh of a triad, or beyond double accidentals.
    pub fn pitch_class(self, member: Member) -> Option<PitchClass> {
        let interval = match member {
            Member::Root => Interval::new(0, 0),
            Member::Third => self.quality.third(),
            Member::Fifth => self.quality.fifth(),
            Member::Seventh => seventh(self.seventh?)?,
        };
        self.root.transpose(interval)
    }

    /// The members that the chord has, from the root up, with their notes.
    pub fn members(self) -> impl Iterator<Item = (Member, PitchClass)> {
        Member::ALL.into_iter().filter_map(move |member| Some((member, self.pitch_class(member)?)))
    }
}

fn seventh(quality: Quality) -> Option<Interval> {
    match quality {
        Quality::Major => Some(Interval::new(6, 11)),
        Quality::Minor => Some(Interval::new(6, 10)),
        Quality::Diminished(1) => Some(Interval::new(6, 9)),
        _ => None,
    }
}

/// The root and the name of the chord: "D minor", "G dominant seventh".
impl fmt::Display for Chord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ", self.root)?;
        let Some(seventh) = self.seventh else {
            return f.write_str(self.quality.name());
        };
        match (self.quality, seventh) {
            (TriadQuality::Major, Quality::Minor) => f.write_str("dominant seventh"),
            (TriadQuality::Major, Quality::Major) => f.write_str("major seventh"),
            (TriadQuality::Minor, Quality::Minor) => f.write_str("minor seventh"),
            (TriadQuality::Diminished, Quality::Minor) => f.write_str("half-diminished seventh"),
            (TriadQuality::Diminished, Quality::Diminished(1)) => f.write_str("diminished seventh"),
            (triad, _) => write!(f, "{} with {} seventh", triad.name(), seventh.words()),
        }
    }
}
