//! The levels that a rulebook gives a rule, species by species. It must not know what the rule is
//! about.

use bicinium_analysis::Rulebook;

use super::words::list;

/// Free writing, then species 1 to 5, as rulebooks ask for them.
const SPECIES: [Option<u8>; 6] = [None, Some(1), Some(2), Some(3), Some(4), Some(5)];
/// A rule that a rulebook does not apply.
const OFF: &str = "off";

/// The levels of one rule in one rulebook: free writing, then species 1 to 5.
pub(super) struct Levels([&'static str; 6]);

impl Levels {
    /// The levels of the rule of this name.
    pub(super) fn of(rulebook: &Rulebook, rule: &str) -> Self {
        Self(SPECIES.map(|species| {
            let active = rulebook.rules(species).active.iter();
            active
                .filter(|active| active.entry.name == rule)
                .map(|active| active.level.name())
                .next()
                .unwrap_or(OFF)
        }))
    }

    /// In one word, with a star if it is not the same in every species.
    pub(super) fn short(&self) -> String {
        match self.different().as_slice() {
            [level] => (*level).to_owned(),
            levels => {
                let gravest =
                    ["fault", "caution", "advice"].into_iter().find(|level| levels.contains(level));
                format!("{}*", gravest.unwrap_or(OFF))
            }
        }
    }

    /// In full: "fault", or "fault in species 1 and 2, off in species 3, 4 and 5 and in free writing".
    pub(super) fn words(&self) -> String {
        match self.different().as_slice() {
            [level] => (*level).to_owned(),
            levels => levels.iter().map(|level| self.phrase(level)).collect::<Vec<_>>().join(", "),
        }
    }

    /// The levels that occur, each once.
    fn different(&self) -> Vec<&'static str> {
        let mut different = Vec::new();
        for level in &self.0 {
            if !different.contains(level) {
                different.push(*level);
            }
        }
        different
    }

    fn phrase(&self, level: &str) -> String {
        let meant = SPECIES.iter().zip(&self.0).filter(|(_, own)| **own == level);
        let species: Vec<_> = meant.map(|(species, _)| *species).collect();
        let numbers: Vec<_> = species.iter().flatten().map(ToString::to_string).collect();
        let numbers = (!numbers.is_empty()).then(|| format!("in species {}", list(&numbers)));
        let free = species.contains(&None).then(|| "in free writing".to_owned());
        let places: Vec<_> = numbers.into_iter().chain(free).collect();
        format!("{level} {}", places.join(" and "))
    }
}

#[cfg(test)]
mod tests {
    use super::Levels;

    #[test]
    fn one_level_is_said_once() {
        let levels = Levels(["fault"; 6]);
        assert_eq!((levels.short(), levels.words()), ("fault".to_owned(), "fault".to_owned()));
    }

    #[test]
    fn different_levels_are_told_apart_by_species() {
        let levels = Levels(["off", "fault", "fault", "caution", "caution", "caution"]);
        assert_eq!(levels.short(), "fault*");
        let words = "off in free writing, fault in species 1 and 2, caution in species 3, 4 and 5";
        assert_eq!(levels.words(), words);
    }

    #[test]
    fn free_writing_goes_with_the_species_of_its_level() {
        let levels = Levels(["off", "off", "advice", "off", "off", "off"]);
        let words = "off in species 1, 3, 4 and 5 and in free writing, advice in species 2";
        assert_eq!(levels.words(), words);
    }
}
