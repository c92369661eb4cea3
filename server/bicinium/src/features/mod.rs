//! What editors and the command line offer, as plain data made from a snapshot. Nothing here
//! knows how it is shown or who asks.

pub mod by_species;
pub mod comparison;
pub mod completion;
pub mod composing;
pub mod differences;
pub mod fix_all;
pub mod fixes;
pub mod folding;
pub mod highlights;
pub mod hints;
pub mod hover;
pub mod importing;
pub mod layout;
pub mod lenses;
pub mod levels;
pub mod lines;
pub mod links;
pub mod melody;
pub mod names;
pub mod new_sheet;
pub mod page;
mod patience;
pub(crate) mod pointed;
pub mod realizing;
pub mod refactorings;
pub mod section;
pub mod selection;
pub mod symbols;
pub mod tokens;
pub mod words;
