//! Numbers that have bounds. It must not know what they count.

use std::fmt::Display;
use std::ops::RangeInclusive;
use std::str::FromStr;

/// What reads a number within bounds, or says what may be written.
pub(super) fn within<N>(
    bounds: RangeInclusive<N>,
) -> impl Fn(&str) -> Result<N, String> + Clone + Send + Sync + 'static
where
    N: FromStr + PartialOrd + Display + Clone + Send + Sync + 'static,
{
    move |text| {
        let number = text.parse().ok().filter(|number| bounds.contains(number));
        let (least, most) = (bounds.start(), bounds.end());
        number.ok_or_else(|| format!("write a number from {least} to {most}"))
    }
}
