//! Pages as files of the usual formats. Each writer knows its format and the display list, no music.

mod path;
mod pdf;
mod png;
mod svg;

pub use pdf::pdf;
pub use png::{TooLarge, png};
pub use svg::svg;
