//! What a rulebook says about one thing, species by species, and how that is put in words. It must
//! not know what the thing is.

use bicinium_analysis::{Rulebook, rulebook::Rules};

use super::words::list;

/// Free writing, then species 1 to 5, as rulebooks ask for them.
const SPECIES: [Option<u8>; 6] = [None, Some(1), Some(2), Some(3), Some(4), Some(5)];

/// What is said for free writing, then for species 1 to 5.
#[derive(Clone, Debug)]
pub struct BySpecies<T>([T; 6]);

impl<T: PartialEq> BySpecies<T> {
    /// Asks the rules of a rulebook for each species.
    pub fn of<'r>(rulebook: &'r Rulebook, ask: impl Fn(&'r Rules) -> T) -> Self {
        Self::each(|species| ask(rulebook.rules(species)))
    }

    /// Asks for each species; for free writing with `None`.
    pub fn each(ask: impl Fn(Option<u8>) -> T) -> Self {
        Self(SPECIES.map(ask))
    }

    /// What is said, each thing once.
    pub fn different(&self) -> Vec<&T> {
        let mut different = Vec::new();
        for said in &self.0 {
            if !different.contains(&said) {
                different.push(said);
            }
        }
        different
    }

    /// Where something is said: "in species 1 and 2 and in free writing"; nothing to add if it is
    /// said everywhere.
    pub fn places(&self, said: &T) -> Option<String> {
        let meant = SPECIES.iter().zip(&self.0).filter(|(_, own)| *own == said);
        let species: Vec<_> = meant.map(|(species, _)| *species).collect();
        let numbers: Vec<_> = species.iter().flatten().map(ToString::to_string).collect();
        let numbers = (!numbers.is_empty()).then(|| format!("in species {}", list(&numbers)));
        let free = species.contains(&None).then(|| "in free writing".to_owned());
        let places: Vec<_> = numbers.into_iter().chain(free).collect();
        (species.len() < SPECIES.len()).then(|| places.join(" and "))
    }
}

#[cfg(test)]
mod tests {
    use super::BySpecies;

    #[test]
    fn what_is_said_everywhere_needs_no_place() {
        let said = BySpecies([3; 6]);
        assert_eq!((said.different(), said.places(&3)), (vec![&3], None));
    }

    #[test]
    fn places_are_species_and_free_writing() {
        let said = BySpecies([1, 1, 2, 1, 1, 1]);
        assert_eq!(said.different(), [&1, &2]);
        assert_eq!(said.places(&2).as_deref(), Some("in species 2"));
        let places = "in species 1, 3, 4 and 5 and in free writing";
        assert_eq!(said.places(&1).as_deref(), Some(places));
    }
}
