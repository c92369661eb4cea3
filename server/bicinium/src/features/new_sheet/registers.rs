//! Which registers two voices get of which only one is written yet. Must not know any text.

use bicinium_theory::{Pitch, Register};

use super::Side;

/// The middle of the compass of each register, as the number of a key on the keyboard (middle C is
/// 60); common practice.
const MIDDLES: [(Register, i16); 6] = [
    (Register::Soprano, 71),
    (Register::Mezzo, 67),
    (Register::Alto, 63),
    (Register::Tenor, 58),
    (Register::Baritone, 55),
    (Register::Bass, 50),
];

/// The register in whose middle a line lies best.
pub(super) fn of_line(notes: &[Pitch]) -> Register {
    let keys = || notes.iter().map(|note| note.midi());
    let middle = keys().min().unwrap_or(0).midpoint(keys().max().unwrap_or(0));
    let nearest = MIDDLES.iter().min_by_key(|(_, key)| key.abs_diff(middle));
    nearest.map_or(Register::Alto, |(register, _)| *register)
}

/// The register of a voice that is written against another: the next one above, the second one below,
/// or as near to it as there is one.
pub(super) fn against(given: Register, side: Side) -> Register {
    match side {
        Side::Above => {
            let place = Register::ALL.iter().position(|it| *it == given).unwrap_or(0);
            Register::ALL[place.saturating_sub(1)]
        }
        Side::Below => given.partner_below(),
    }
}
