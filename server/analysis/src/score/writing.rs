//! The kinds of writing: free, the five species, and a cantus by itself. Schools decide separately for
//! each. Knows no rules.

/// What kind of writing an exercise is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Writing {
    /// Two voices without a species.
    Free,
    /// Two voices in one of the five species.
    Species(u8),
    /// A cantus by itself.
    Cantus,
}

impl Writing {
    /// All kinds: free writing, species 1 to 5, a cantus.
    pub const ALL: [Self; 7] = [
        Self::Free,
        Self::Species(1),
        Self::Species(2),
        Self::Species(3),
        Self::Species(4),
        Self::Species(5),
        Self::Cantus,
    ];
}

impl From<Option<u8>> for Writing {
    fn from(species: Option<u8>) -> Self {
        species.map_or(Self::Free, Self::Species)
    }
}
