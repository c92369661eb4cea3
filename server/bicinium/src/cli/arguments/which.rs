//! A choice of one voice.

use clap::ValueEnum;

/// One of the two voices.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Which {
    /// The upper voice
    Upper,
    /// The lower voice
    Lower,
}
