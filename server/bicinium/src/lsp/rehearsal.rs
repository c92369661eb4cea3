//! Breaks on purpose, at a comment in the sheet, so that it can be tried what a panic costs. That is so only in a build
//! of its own, with the feature `rehearsal`; in every other this is nothing.
//!
//! It must not know what is done at its moments.

use super::text::Text;

/// When it may break; a comment names it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Moment {
    /// `// break while editing`: a change is taken in.
    Editing,
    /// `// break while judging`: a sheet is judged from the beginning.
    Judging,
    /// `// break while answering`: a question is answered.
    Answering,
    /// `// break while searching`: a question is answered that takes its time.
    Searching,
}

/// Breaks if this is rehearsed and the sheet asks for it.
pub(super) fn at(moment: Moment, text: &Text) {
    if cfg!(feature = "rehearsal") {
        let words = match moment {
            Moment::Editing => "// break while editing",
            Moment::Judging => "// break while judging",
            Moment::Answering => "// break while answering",
            Moment::Searching => "// break while searching",
        };
        assert!(!text.to_string().contains(words), "as rehearsed");
    }
}
