//! The pitches that are tried in a hole: those of the key with its usual alterations, around what
//! the voice sings elsewhere and within what any voice can sing. The judge decides among them.

use bicinium_analysis::score::Setting;
use bicinium_theory::{Interval, Mode, Pitch, PitchClass};

/// The same degree, a semitone lower.
const SEMITONE_DOWN: Interval = Interval::new(0, -1);
/// The octaves in which any voice sings.
const OCTAVES: std::ops::RangeInclusive<i8> = 1..=6;

/// The pitches that are tried in an exercise, from the lowest up: those of the key in the octaves in
/// which any voice sings, the raised sixth and seventh degrees, and the flat that its mode is used to.
pub fn pitches(setting: &Setting) -> Vec<Pitch> {
    let classes = classes(setting);
    let all = OCTAVES.flat_map(|octave| classes.iter().filter_map(move |class| class.at(octave)));
    let mut pitches: Vec<_> = all.collect();
    pitches.sort_unstable();
    pitches.dedup();
    pitches
}

/// The scale, its raised sixth and seventh degrees, and the flat that the mode is used to.
fn classes(setting: &Setting) -> Vec<PitchClass> {
    let key = setting.key;
    let raised = [key.leading_note(), key.raised_sixth()];
    let mut classes: Vec<_> = key.scale().into_iter().chain(raised).collect();
    let lowered = match key.mode {
        Mode::Dorian => Some(key.scale()[5]),
        Mode::Lydian => Some(key.scale()[3]),
        _ => None,
    };
    classes.extend(lowered.and_then(|class| class.transpose(SEMITONE_DOWN)));
    classes
}
