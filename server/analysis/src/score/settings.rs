//! The settings of a block: key, meter, species, rulebook, author. What a block does not say it
//! takes from the preamble; what the preamble does not say has a default.

use bicinium_grammar::{TextRange, ast};
use bicinium_theory::{Accidental, Key, Letter, Meter, Mode, PitchClass};

use crate::finding::{Finding, Level};

/// The settings in force in a block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Tonic and mode; C major if nothing is said.
    pub key: Key,
    /// The meter; 2/2 if nothing is said.
    pub meter: Meter,
    /// The species, 1 to 5; `None` for free writing.
    pub species: Option<u8>,
    /// The rulebook, if one is named.
    pub rulebook: Option<String>,
    /// Where the rulebook is named, if it is named in this block.
    pub rulebook_range: Option<TextRange>,
    /// Who wrote it.
    pub by: Option<String>,
}

impl Default for Settings {
    fn default() -> Self {
        let tonic = PitchClass::new(Letter::C, Accidental::NATURAL);
        Self {
            key: Key::new(tonic, Mode::Major).unwrap_or_else(|| unreachable!("C major is a key")),
            meter: Meter::new(2, 2).unwrap_or_else(|| unreachable!("2/2 is a meter")),
            species: None,
            rulebook: None,
            rulebook_range: None,
            by: None,
        }
    }
}

impl Settings {
    /// The settings with what a block says laid over them.
    #[must_use]
    pub fn with(
        &self,
        said: impl Iterator<Item = ast::Setting>,
        findings: &mut Vec<Finding>,
    ) -> Self {
        let mut settings = Self { rulebook_range: None, ..self.clone() };
        for setting in said {
            if let Err(message) = settings.take(&setting) {
                let range = setting.range();
                findings.push(Finding::about_text("setting", Level::Notation, range, message));
            }
        }
        settings
    }

    fn take(&mut self, setting: &ast::Setting) -> Result<(), String> {
        match setting {
            ast::Setting::Key(key) => self.key = read_key(key)?.unwrap_or(self.key),
            ast::Setting::Meter(meter) => self.meter = read_meter(meter)?.unwrap_or(self.meter),
            ast::Setting::Species(species) => self.species = read_species(species)?.or(self.species),
            ast::Setting::Rulebook(rulebook) => {
                self.rulebook = rulebook.name();
                self.rulebook_range = Some(rulebook.range());
            }
            ast::Setting::By(by) => self.by = by.name(),
        }
        Ok(())
    }
}

fn read_key(said: &ast::KeySetting) -> Result<Option<Key>, String> {
    let Some(tonic) = said.tonic() else { return Ok(None) };
    let letter = Letter::from_char(tonic.letter);
    let accidental = Accidental::new(tonic.accidental);
    let (Some(letter), Some(accidental)) = (letter, accidental) else { return Ok(None) };
    let mode = match said.mode() {
        Some(mode) => mode.parse::<Mode>().map_err(|error| error.to_string())?,
        None => Mode::Major,
    };
    let tonic = PitchClass::new(letter, accidental);
    let key = Key::new(tonic, mode);
    let message = || format!("{tonic} {} would need notes with more than two accidentals.", mode.name());
    key.map(Some).ok_or_else(message)
}

fn read_meter(said: &ast::MeterSetting) -> Result<Option<Meter>, String> {
    let (Some(beats), Some(unit)) = (said.beats(), said.unit()) else { return Ok(None) };
    let meter = format!("{beats}/{unit}").parse::<Meter>();
    meter.map(Some).map_err(|error| format!("{beats}/{unit} cannot be a meter: {error}."))
}

fn read_species(said: &ast::SpeciesSetting) -> Result<Option<u8>, String> {
    match said.number() {
        None => Ok(None),
        Some(number @ 1..=5) => Ok(u8::try_from(number).ok()),
        Some(number) => Err(format!(
            "There is no species {number}. Write 1 to 5, or leave the line out for free writing."
        )),
    }
}
