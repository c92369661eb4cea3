//! The beams of a bar as elements. Knows neither pitches nor what a bar sounds like.

use super::element::Element;
use crate::beaming;
use crate::written::Sign;

/// The beam elements of every sign of a bar, given the number of the beam that each belongs to.
pub(super) fn elements(signs: &[Sign], groups: &[Option<usize>]) -> Vec<Vec<Element>> {
    (0..signs.len()).map(|index| of(signs, groups, index)).collect()
}

fn of(signs: &[Sign], groups: &[Option<usize>], index: usize) -> Vec<Element> {
    let Some(group) = groups[index] else { return Vec::new() };
    let has = |other: Option<usize>, level: u8| {
        other.is_some_and(|other| {
            let sign = signs.get(other).filter(|_| groups[other] == Some(group));
            sign.is_some_and(|sign| beaming::count(sign.length.value) >= level)
        })
    };
    let is_first = index.checked_sub(1).is_none_or(|before| groups[before] != Some(group));
    let levels = 1..=beaming::count(signs[index].length.value);
    let beam = |level: u8| {
        let text = match (has(index.checked_sub(1), level), has(Some(index + 1), level)) {
            (true, true) => "continue",
            (true, false) => "end",
            (false, true) => "begin",
            (false, false) if is_first => "forward hook",
            (false, false) => "backward hook",
        };
        Element::text("beam", text).with("number", level)
    };
    levels.map(beam).collect()
}
