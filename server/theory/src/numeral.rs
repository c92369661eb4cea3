//! Roman numerals: a chord on a degree of a key, with its inversion. Knows the conventions of minor
//! and the modes; how numerals are written is told in `numeral_text`.

use crate::{Chord, Interval, Inversion, Key, PitchClass, Quality, TriadQuality};

/// A Roman numeral with its figures. Build it by reading one (`"V6/5".parse()`) or with
/// [`Numeral::triad`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub struct Numeral {
    /// The degree of the root, 1 to 7.
    pub degree: u8,
    /// The quality of the triad.
    pub quality: TriadQuality,
    /// Whether a seventh is added.
    pub seventh: bool,
    /// What lies lowest.
    pub inversion: Inversion,
}

impl Numeral {
    /// The triad on a degree, 1 to 7, in root position.
    pub fn triad(degree: u8, quality: TriadQuality) -> Option<Self> {
        let numeral = Self { degree, quality, seventh: false, inversion: Inversion::Root };
        (1..=7).contains(&degree).then_some(numeral)
    }

    /// The same chord with a seventh.
    #[must_use]
    pub fn with_seventh(self) -> Self {
        Self { seventh: true, ..self }
    }

    /// The same chord in another inversion. A triad has no third inversion; asked for one, it stays
    /// as it is.
    #[must_use]
    pub fn with_inversion(self, inversion: Inversion) -> Self {
        match inversion {
            Inversion::Third if !self.seventh => self,
            _ => Self { inversion, ..self },
        }
    }

    /// The chord that the numeral stands for in a key.
    ///
    /// The root is the degree of the key's own scale; only diminished triads on the sixth and
    /// seventh stand on the raised sixth and the leading note, also where these are foreign to the
    /// scale. The quality is what the numeral says, so V in minor has the raised seventh. The
    /// seventh above a major chord on the fifth degree is minor, that of any other chord is the
    /// key's own.
    pub fn chord(self, key: Key) -> Chord {
        let root = self.root(key);
        let seventh = self.seventh.then(|| self.seventh_above(root, key));
        Chord { root, quality: self.quality, seventh }
    }

    fn root(self, key: Key) -> PitchClass {
        match (self.degree, self.quality) {
            (6, TriadQuality::Diminished) => key.raised_sixth(),
            (7, TriadQuality::Diminished) => key.leading_note(),
            _ => scale_note(key, self.degree),
        }
    }

    fn seventh_above(self, root: PitchClass, key: Key) -> Quality {
        match (self.degree, self.quality) {
            (5, TriadQuality::Major) => Quality::Minor,
            _ => ascending_quality(root, scale_note(key, self.degree.saturating_add(6))),
        }
    }
}

/// The scale note on a degree; 8 is the tonic again.
fn scale_note(key: Key, degree: u8) -> PitchClass {
    key.scale()[usize::from(degree.saturating_sub(1)) % 7]
}

/// The quality of the interval from one note up to the next of the other name.
fn ascending_quality(from: PitchClass, to: PitchClass) -> Quality {
    let steps = (to.letter.index() - from.letter.index()).rem_euclid(7);
    let raised = i16::from(to.accidental.value()) - i16::from(from.accidental.value());
    Interval::new(steps, from.letter.semitones_up_to(to.letter) + raised).quality()
}
