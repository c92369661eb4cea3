//! What a rulebook says about one thing, species by species, and how that is put in words. It must
//! not know what the thing is.

use bicinium_analysis::Rulebook;
use bicinium_analysis::rulebook::{About, Rules};
use bicinium_analysis::score::Writing;

use super::words::list;

/// What is said for each kind of writing in which the thing has a place.
#[derive(Clone, Debug)]
pub struct BySpecies<T>(Vec<(Writing, T)>);

impl<T: PartialEq> BySpecies<T> {
    /// Asks the rules of a rulebook about something, for each kind of writing.
    pub fn of<'r>(rulebook: &'r Rulebook, about: About, ask: impl Fn(&'r Rules) -> T) -> Self {
        Self::each(about, |writing| ask(rulebook.rules(writing)))
    }

    /// Asks about something for each kind of writing.
    pub fn each(about: About, ask: impl Fn(Writing) -> T) -> Self {
        let has_place = |writing: &Writing| match about {
            About::Rule(entry) => entry.group.has_place_in(*writing),
            About::Section(_) => true,
        };
        let kinds = Writing::ALL.into_iter().filter(has_place);
        Self(kinds.map(|writing| (writing, ask(writing))).collect())
    }

    /// What is said, each thing once.
    pub fn different(&self) -> Vec<&T> {
        let mut different = Vec::new();
        for (_, said) in &self.0 {
            if !different.contains(&said) {
                different.push(said);
            }
        }
        different
    }

    /// Where something is said: "in species 1 and 2 and in free writing"; nothing to add if it is
    /// said everywhere.
    pub fn places(&self, said: &T) -> Option<String> {
        let meant = self.0.iter().filter(|(_, own)| own == said);
        let kinds: Vec<_> = meant.map(|(writing, _)| *writing).collect();
        let number = |writing: &Writing| match writing {
            Writing::Species(number) => Some(number.to_string()),
            Writing::Free | Writing::Cantus => None,
        };
        let numbers: Vec<_> = kinds.iter().filter_map(number).collect();
        let numbers = (!numbers.is_empty()).then(|| format!("in species {}", list(&numbers)));
        let named = [(Writing::Free, "in free writing"), (Writing::Cantus, "in a lone cantus")];
        let named = named.into_iter().filter(|(writing, _)| kinds.contains(writing));
        let places: Vec<_> =
            numbers.into_iter().chain(named.map(|(_, place)| place.to_owned())).collect();
        (kinds.len() < self.0.len()).then(|| list(&places))
    }
}

#[cfg(test)]
mod tests {
    use bicinium_analysis::rulebook::About;
    use bicinium_analysis::rules;
    use bicinium_analysis::score::Writing;

    use super::BySpecies;

    fn said(of: [u8; Writing::ALL.len()]) -> BySpecies<u8> {
        BySpecies(Writing::ALL.into_iter().zip(of).collect())
    }

    #[test]
    fn what_is_said_everywhere_needs_no_place() {
        let said = said([3; 7]);
        assert_eq!((said.different(), said.places(&3)), (vec![&3], None));
    }

    #[test]
    fn places_are_species_free_writing_and_a_lone_cantus() {
        let said = said([1, 1, 2, 1, 1, 1, 3]);
        assert_eq!(said.different(), [&1, &2, &3]);
        assert_eq!(said.places(&2).as_deref(), Some("in species 2"));
        assert_eq!(said.places(&3).as_deref(), Some("in a lone cantus"));
        let places = "in species 1, 3, 4 and 5 and in free writing";
        assert_eq!(said.places(&1).as_deref(), Some(places));
    }

    #[test]
    fn a_rule_is_asked_about_only_where_it_has_a_place() {
        let about = |rule: &str| About::Rule(rules::named(rule).expect("there is such a rule"));
        let asked = |rule: &str| BySpecies::each(about(rule), |writing| writing).0.len();
        assert_eq!((asked("cantus-frame"), asked("crossing"), asked("span")), (1, 6, 7));
    }
}
