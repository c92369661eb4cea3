//! How a note stands at a moment: for itself, or foreign. Where harmony is implied the harmony
//! decides; where it is not, the interval between the voices does. Knows no figures and no rules.

use bicinium_theory::{Duration, Interval, Member};

use super::figure::Offence;
use super::vocabulary::Harmony;
use crate::judge::{Heard, LineState, Memory, Sounded};
use crate::score::{Setting, VoiceId};

/// How a note stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// For itself; as a member of the harmony, where one is implied.
    Stable(Option<Member>),
    /// Only as an embellishment.
    Foreign(Offence),
}

/// How the sounding note of a voice stands in a harmony.
pub fn in_harmony(harmony: &Harmony, memory: &Memory, voice: VoiceId, note: Heard) -> Standing {
    let sounded = memory.pair.now();
    let bass = sounded.map_or(VoiceId::Lower, |sounded| sounded.bass());
    match harmony.member(note.pitch.class()) {
        None => Standing::Foreign(outside(sounded)),
        Some(Member::Fifth) if bass == voice && is_fourth_below_root(harmony, sounded) => {
            Standing::Foreign(Offence::SixFour)
        }
        Some(member) if bass != voice || harmony.basses.contains(&member) => {
            Standing::Stable(Some(member))
        }
        Some(Member::Fifth) => Standing::Foreign(Offence::SixFour),
        Some(_) => Standing::Foreign(Offence::Misplaced),
    }
}

/// Whether a fourth sounds over the fifth of a triad; it is dissonant even where the school has second
/// inversions. In a chord of the seventh it is not minded.
fn is_fourth_below_root(harmony: &Harmony, sounded: Option<Sounded>) -> bool {
    let is_fourth = |sounded: Sounded| sounded.interval().abs().simple() == Interval::new(3, 5);
    harmony.chord.seventh.is_none() && sounded.is_some_and(is_fourth)
}

fn outside(sounded: Option<Sounded>) -> Offence {
    match sounded {
        Some(sounded) if sounded.interval().is_dissonant() => Offence::Dissonant,
        _ => Offence::Outside,
    }
}

/// How the sounding note of a voice stands where only the interval decides. Of two dissonant
/// notes the moving one is foreign: the written voice against a cantus; otherwise on a strong
/// beat the one that is held, elsewhere the one that is struck.
pub fn by_interval(memory: &Memory, voice: VoiceId, setting: &Setting) -> Standing {
    let dissonant = memory.pair.now().is_some_and(is_dissonant);
    if dissonant && is_blamed(memory, voice, setting) {
        Standing::Foreign(Offence::Dissonant)
    } else {
        Standing::Stable(None)
    }
}

/// Where voices cross, what sounds lower counts as the lower voice.
fn is_dissonant(sounded: Sounded) -> bool {
    sounded.interval().abs().is_dissonant()
}

fn is_blamed(memory: &Memory, voice: VoiceId, setting: &Setting) -> bool {
    if setting.cantus.is_some() {
        return setting.is_written(voice);
    }
    match (memory.lines[voice].state, memory.lines[voice.other()].state) {
        (LineState::Striking, LineState::Striking) => is_the_mover(memory, voice),
        (LineState::Holding, LineState::Striking) => is_on_downbeat(memory, setting),
        (LineState::Striking, LineState::Holding) => !is_on_downbeat(memory, setting),
        _ => false,
    }
}

/// Where both voices strike a dissonance, the one that comes by step embellishes; if both do, the
/// upper one.
fn is_the_mover(memory: &Memory, voice: VoiceId) -> bool {
    let by_step = |voice: VoiceId| memory.lines[voice].interval(0).is_some_and(Interval::is_step);
    match (by_step(VoiceId::Upper), by_step(VoiceId::Lower)) {
        (false, true) => voice == VoiceId::Lower,
        _ => voice == VoiceId::Upper,
    }
}

fn is_on_downbeat(memory: &Memory, setting: &Setting) -> bool {
    memory.pair.now().is_some_and(|sounded| setting.within_bar(sounded.onset) == Duration::ZERO)
}
