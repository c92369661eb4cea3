//! Which bars share a system: so that all systems are about equally full. Knows widths only.

use std::ops::Range;

use super::spacing::Room;

/// The widths that systems have for their bars.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Widths {
    /// In the first system.
    pub first: f64,
    /// In all others.
    pub others: f64,
}

/// The bars of each system.
pub(super) fn systems(rooms: &[Room], widths: Widths) -> Vec<Range<usize>> {
    // For every number of bars: the least cost of setting them, and where their last system begins.
    let mut best = vec![(0.0_f64, 0_usize)];
    for end in 1..=rooms.len() {
        best.push(last_system(rooms, widths, end, &best));
    }
    let mut systems = Vec::new();
    let mut end = rooms.len();
    while end > 0 {
        let start = best[end].1.min(end - 1);
        systems.push(start..end);
        end = start;
    }
    systems.reverse();
    systems
}

/// The best beginning of a system that ends before a bar.
fn last_system(rooms: &[Room], widths: Widths, end: usize, best: &[(f64, usize)]) -> (f64, usize) {
    let (mut least, mut natural) = (0.0, 0.0);
    let mut found = (f64::INFINITY, end - 1);
    for start in (0..end).rev() {
        let width = if start == 0 { widths.first } else { widths.others };
        least += rooms[start].least();
        natural += rooms[start].at(1.0);
        let fits = least <= width;
        if !fits && end - start > 1 {
            break;
        }
        let cost = best[start].0 + cost(natural / width, end == rooms.len());
        if cost < found.0 {
            found = (cost, start);
        }
    }
    found
}

/// What a system costs that is so full; 1 is as full as it would be by itself. One more system is
/// not for nothing, and a last one that is loose costs little.
fn cost(fullness: f64, is_last: bool) -> f64 {
    let off = fullness.max(1e-6).ln();
    let weight = if is_last && off < 0.0 { 0.3 } else { 1.0 };
    0.05 + weight * off * off
}

#[cfg(test)]
mod tests {
    use super::super::spacing::Gap;
    use super::*;

    fn rooms(count: usize) -> Vec<Room> {
        vec![Room { gaps: vec![Gap { least: 5.0, spring: 10.0 }] }; count]
    }

    #[test]
    fn all_bars_are_set_in_order_and_evenly() {
        let widths = Widths { first: 100.0, others: 100.0 };
        for count in 0..60 {
            let systems = systems(&rooms(count), widths);
            let bars: Vec<_> = systems.iter().cloned().flatten().collect();
            assert_eq!(bars, (0..count).collect::<Vec<_>>());
        }
        let twelve = systems(&rooms(12), Widths { first: 65.0, others: 65.0 });
        assert_eq!(twelve, [0..6, 6..12]);
    }

    #[test]
    fn a_bar_that_does_not_fit_has_a_system_of_its_own() {
        let mut rooms = rooms(3);
        rooms[1].gaps[0].least = 500.0;
        let systems = systems(&rooms, Widths { first: 100.0, others: 100.0 });
        assert_eq!(systems, [0..1, 1..2, 2..3]);
    }
}
