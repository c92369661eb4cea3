//! How the species share out a bar: how many equal notes each has in it, and which quarters of a
//! florid bar are weak. Knows the meter, no notes and no rules. Common practice.

use bicinium_theory::Duration;

use super::Setting;

/// How many equal notes a bar of a species has; for fourth species those that are tied, for fifth
/// the quarters.
pub fn count(setting: &Setting, species: u8) -> u32 {
    let beats = setting.meter.beats;
    match species {
        1 => 1,
        2 | 4 if setting.meter.is_triple() => 3,
        2 | 4 => 2,
        _ if matches!(beats, 3 | 6) => 6,
        _ if beats == 9 => 9,
        _ => 4,
    }
}

/// How long each of them is; none where the meter cannot show it.
pub fn share(setting: &Setting, species: u8) -> Option<Duration> {
    setting.bar_length().divide(count(setting, species))
}

/// Whether a place in a bar, or a length, is a multiple of a share.
pub fn is_on(place: Duration, share: Duration) -> bool {
    place.ticks().is_multiple_of(share.ticks().max(1))
}

/// The lengths that florid counterpoint mixes, under the names that they have in 2/2.
#[derive(Clone, Copy, Debug)]
pub struct Florid {
    /// What second and fourth species move in.
    pub half: Duration,
    /// What third species moves in.
    pub quarter: Duration,
    /// Half of it.
    pub eighth: Duration,
}

impl Florid {
    /// The lengths of an exercise in fifth species; none in another.
    pub fn of(setting: &Setting) -> Option<Self> {
        setting.species.filter(|species| *species == 5)?;
        let (half, quarter) = (share(setting, 2)?, share(setting, 3)?);
        Some(Self { half, quarter, eighth: quarter.divide(2)? })
    }

    /// Whether a quarter begins at a place in the bar.
    pub fn is_quarter(self, within: Duration) -> bool {
        is_on(within, self.quarter)
    }

    /// Whether a weak quarter begins at a place in the bar.
    pub fn is_weak_quarter(self, within: Duration) -> bool {
        self.is_quarter(within) && !is_on(within, self.half)
    }
}
