//! Somebody who writes: what is typed and what is asked, by chance that comes out the same for the same seed. It
//! must not know what is answered.

mod dice;
mod questions;
mod typing;

pub use dice::Dice;
pub use questions::{PREVIOUS, Questions, capabilities};
pub use typing::{Edit, edit, place};

/// The sheet that a day begins with.
pub const MORNING: &str = include_str!("../../editors/mill.bicinium");
