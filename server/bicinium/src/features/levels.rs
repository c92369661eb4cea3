//! The levels that a rulebook gives a rule, species by species. It must not know what the rule is
//! about.

use bicinium_analysis::rulebook::{About, Rules};
use bicinium_analysis::{Rulebook, rules};

use super::by_species::BySpecies;

/// A rule that a rulebook does not apply.
const OFF: &str = "off";

/// The levels of one rule in one rulebook.
pub struct Levels(BySpecies<&'static str>);

impl Levels {
    /// The levels of the rule of this name.
    pub fn of(rulebook: &Rulebook, rule: &str) -> Self {
        let level = |rules: &Rules| rules.level(rule).map_or(OFF, |level| level.name());
        let about = rules::named(rule).map_or(About::Section("rules"), About::Rule);
        Self(BySpecies::of(rulebook, about, level))
    }

    /// In one word, with a star if it is not the same in every species.
    pub fn short(&self) -> String {
        match self.0.different().as_slice() {
            [level] => (**level).to_owned(),
            levels => {
                let gravest = ["fault", "caution", "advice"]
                    .into_iter()
                    .find(|level| levels.contains(&level));
                format!("{}*", gravest.unwrap_or(OFF))
            }
        }
    }

    /// In full: "fault", or "fault in species 1 and 2, off in species 3, 4 and 5 and in free writing".
    pub fn words(&self) -> String {
        let different = self.0.different();
        let phrase = |level: &&&'static str| match self.0.places(level) {
            Some(places) => format!("{level} {places}"),
            None => level.to_string(),
        };
        different.iter().map(phrase).collect::<Vec<_>>().join(", ")
    }
}

#[cfg(test)]
mod tests {
    use bicinium_analysis::Shelf;

    use super::Levels;

    fn levels(lines: &str) -> Levels {
        let text = format!("name = \"own\"\ntitle = \"A school\"\nextends = \"tonal\"\n{lines}");
        Levels::of(&Shelf::default().add(&text).unwrap(), "overlap")
    }

    #[test]
    fn one_level_is_said_once() {
        let levels = levels("[rules.overlap]\nlevel = \"fault\"");
        assert_eq!((levels.short(), levels.words()), ("fault".to_owned(), "fault".to_owned()));
    }

    #[test]
    fn different_levels_are_told_apart_by_species() {
        let levels = levels(
            "[rules.overlap]\nlevel = \"caution\"\n\
             [species.free.rules.overlap]\nlevel = \"off\"\n\
             [species.1.rules.overlap]\nlevel = \"fault\"\n\
             [species.2.rules.overlap]\nlevel = \"fault\"",
        );
        assert_eq!(levels.short(), "fault*");
        let words = "off in free writing, fault in species 1 and 2, caution in species 3, 4 and 5";
        assert_eq!(levels.words(), words);
    }

    #[test]
    fn free_writing_goes_with_the_species_of_its_level() {
        let levels = levels(
            "[rules.overlap]\nlevel = \"off\"\n[species.2.rules.overlap]\nlevel = \"advice\"",
        );
        let words = "off in species 1, 3, 4 and 5 and in free writing, advice in species 2";
        assert_eq!(levels.words(), words);
    }
}
