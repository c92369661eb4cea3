//! What cantus the options ask for, and what is said if there is none. It must not know how one is
//! found.

use std::sync::Arc;

use bicinium_analysis::Rulebook;
use bicinium_theory::{Accidental, Key, Letter, Mode, PitchClass};

use crate::cli::arguments::ComposeCantus;
use crate::cli::school;
use crate::cli::words::list;
use crate::features::composing::{Refusal, Wish};

/// The wish; or what has to be said about the options.
pub(super) fn read(options: &ComposeCantus) -> Result<Wish, String> {
    let tonic = options.tonic.unwrap_or_else(|| usual_tonic(options.mode));
    let mode = options.mode.name();
    let key = Key::new(tonic, options.mode).ok_or_else(|| {
        format!("{tonic} {mode} would need notes with more than two accidentals.")
    })?;
    Ok(Wish {
        key,
        length: usize::from(options.length),
        voice: options.voice,
        lowest: options.lowest,
        highest: options.highest,
        rulebook: rulebook(&options.rulebook)?,
        seed: options.seed,
    })
}

/// The tonic at which the scale of a mode has no accidentals.
fn usual_tonic(mode: Mode) -> PitchClass {
    let letter = match mode {
        Mode::Major | Mode::Ionian => Letter::C,
        Mode::Dorian => Letter::D,
        Mode::Phrygian => Letter::E,
        Mode::Lydian => Letter::F,
        Mode::Mixolydian => Letter::G,
        Mode::Minor | Mode::Aeolian => Letter::A,
    };
    PitchClass::new(letter, Accidental::NATURAL)
}

fn rulebook(name: &str) -> Result<Arc<Rulebook>, String> {
    school::named(name).map_err(|refused| {
        format!("{} `bicinium check --rulebook {name}` tells more.", refused.complaint)
    })
}

/// What is said where there is no cantus.
pub(super) fn refused(wish: &Wish, refusal: &Refusal) -> String {
    let wanted = wanted(wish);
    match refusal {
        Refusal::Unfinished => format!(
            "No cantus of {wanted} was drawn in time. `--time` gives the search longer; a shorter \
             cantus or a smaller compass is found sooner."
        ),
        Refusal::Closed(rules) if rules.is_empty() => {
            format!("There is no cantus of {wanted}: the compass has no notes for it.")
        }
        Refusal::Closed(rules) => {
            let rules: Vec<_> = rules.iter().map(|rule| format!("`{rule}`")).collect();
            format!(
                "There is no cantus of {wanted}: whatever is tried breaks {}. Another length or a \
                 wider compass may help.",
                list(&rules),
            )
        }
    }
}

/// "11 notes in D dorian for alto, not below D4".
fn wanted(wish: &Wish) -> String {
    let below = wish.lowest.map(|pitch| format!(", not below {pitch}"));
    let above = wish.highest.map(|pitch| format!(", not above {pitch}"));
    let notes =
        if wish.length == 1 { "1 note".to_owned() } else { format!("{} notes", wish.length) };
    let limits = [below, above].into_iter().flatten().collect::<String>();
    format!("{notes} in {} for {}{limits}", wish.key, wish.voice)
}
