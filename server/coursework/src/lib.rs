//! Coursework: what an assignment sets, what was handed in, and what it is worth by a rubric. Plain
//! data comes out, for any report. The judge has spoken before; here nothing is judged again. Must
//! not know files, printing or editors.

pub mod assignment;
pub mod class;
pub mod mark;
pub mod merits;
pub mod points;
pub mod rubric;

pub use assignment::{Assignment, Task};
pub use class::{Class, HandIn, Student, Unread};
pub use mark::{Answer, mark};
pub use points::Points;
pub use rubric::Rubric;
