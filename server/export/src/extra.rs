//! What can be shown beside the notes of a score. Knows no format.

/// Something shown beside the notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extra {
    /// The interval between the voices at every note, as a figure.
    Figures,
    /// The harmonies as they are heard, as Roman numerals.
    Harmonies,
    /// What was found, in words.
    Findings,
}
