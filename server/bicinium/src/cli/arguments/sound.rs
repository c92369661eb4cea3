//! How an export sounds.

use clap::Args;

use super::Which;
use super::within::within;

/// How a WAV file sounds.
#[derive(Debug, Args)]
pub(crate) struct Sound {
    /// The frequency of A4 in sound, in hertz
    #[arg(long, value_name = "HZ", default_value_t = 440.0, value_parser = within(220.0..=880.0))]
    pub(crate) pitch: f64,
    /// In sound, tune the upper voice pure above the lower one
    #[arg(long)]
    pub(crate) just: bool,
    /// In sound, this voice alone
    #[arg(long, value_enum, value_name = "WHICH")]
    pub(crate) voice: Option<Which>,
    /// In sound, this voice softly, to sing against
    #[arg(long, value_enum, value_name = "WHICH", conflicts_with = "voice")]
    pub(crate) soft: Option<Which>,
    /// In sound, a bar of beats before the first bar
    #[arg(long)]
    pub(crate) count_in: bool,
}
