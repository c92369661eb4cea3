//! The settings of a block: key, meter, species, rulebook, author, points, deadline. What a block does not say it
//! takes from the preamble; what the preamble does not say has a default.

use bicinium_grammar::ast::{self, SettingValue};
use bicinium_grammar::{Spelling, TextRange};
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
    /// How many points it is worth, 1 to 1000, if that is said.
    pub points: Option<u32>,
    /// Until when it is to be handed in, in words.
    pub deadline: Option<String>,
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
            points: None,
            deadline: None,
        }
    }
}

impl Settings {
    /// The settings with what a block says laid over them.
    #[must_use]
    pub fn with(&self, said: Vec<ast::Setting>, findings: &mut Vec<Finding>) -> Self {
        let mut settings = Self { rulebook_range: None, ..self.clone() };
        for setting in said {
            let range = setting.range;
            if let Err(message) = settings.take(setting) {
                findings.push(Finding::about_text("setting", Level::Notation, range, message));
            }
        }
        settings
    }

    fn take(&mut self, setting: ast::Setting) -> Result<(), String> {
        match setting.value {
            SettingValue::Key { tonic, mode } => {
                self.key = read_key(tonic, mode)?.unwrap_or(self.key);
            }
            SettingValue::Meter { beats, unit } => self.meter = read_meter(beats, unit)?,
            SettingValue::Species(number) => self.species = u8::try_from(number).ok(),
            SettingValue::Rulebook(name) => {
                self.rulebook = Some(name);
                self.rulebook_range = Some(setting.value_range);
            }
            SettingValue::By(name) => self.by = Some(name),
            SettingValue::Points(number) => self.points = Some(number),
            SettingValue::Deadline(text) => self.deadline = Some(text),
        }
        Ok(())
    }
}

fn read_key(tonic: Option<Spelling>, mode: Option<String>) -> Result<Option<Key>, String> {
    let Some(tonic) = tonic else { return Ok(None) };
    let letter = Letter::from_char(tonic.letter);
    let accidental = Accidental::new(tonic.accidental);
    let (Some(letter), Some(accidental)) = (letter, accidental) else { return Ok(None) };
    let mode = mode.and_then(|mode| mode.parse().ok()).unwrap_or(Mode::Major);
    let tonic = PitchClass::new(letter, accidental);
    let name = mode.name();
    let message = || format!("{tonic} {name} would need notes with more than two accidentals.");
    Key::new(tonic, mode).map(Some).ok_or_else(message)
}

fn read_meter(beats: u32, unit: u32) -> Result<Meter, String> {
    let meter = format!("{beats}/{unit}").parse::<Meter>();
    meter.map_err(|error| format!("{beats}/{unit} cannot be a meter: {error}."))
}
