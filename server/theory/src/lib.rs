//! Elements of music theory for strict two-voice counterpoint: spelled pitches, intervals, keys,
//! chords, durations, meter and motion.
//!
//! All values are small and copied freely, and every function is total. The crate knows the names
//! musicians use for these things, but no sheet, no rule and no file.

mod accidental;
mod chord;
mod duration;
mod interval;
mod interval_name;
mod key;
mod letter;
mod meter;
mod mode;
mod motion;
mod note_length;
mod numeral;
mod numeral_text;
mod pitch;
mod pitch_class;
mod pitch_text;
mod quality;
mod register;
mod scale_degree;

pub use accidental::Accidental;
pub use chord::{Chord, Inversion, Member, TriadQuality};
pub use duration::Duration;
pub use interval::{Direction, Interval, PerfectClass};
pub use interval_name::IntervalError;
pub use key::Key;
pub use letter::Letter;
pub use meter::{Meter, MeterError, Weight};
pub use mode::{Mode, ModeError};
pub use motion::Motion;
pub use note_length::{NoteLength, NoteLengths, NoteValue};
pub use numeral::Numeral;
pub use numeral_text::NumeralError;
pub use pitch::Pitch;
pub use pitch_class::PitchClass;
pub use pitch_text::PitchError;
pub use quality::Quality;
pub use register::{Register, RegisterError};
pub use scale_degree::ScaleDegree;
