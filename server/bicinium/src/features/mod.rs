//! What editors and the command line offer, as plain data made from a snapshot. Nothing here
//! knows how it is shown or who asks.

pub mod fixes;
pub mod hover;
