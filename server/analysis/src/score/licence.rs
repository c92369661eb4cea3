//! A licence: a finding accepted on purpose. Knows where it holds, not what it excuses.

use bicinium_grammar::TextRange;

/// A rule the writer sets aside, with the stretch and the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Licence {
    /// The name of the rule.
    pub rule: String,
    /// Where the name is written.
    pub rule_range: TextRange,
    /// Where the licence holds.
    pub span: Span,
    /// Why it was taken, if said.
    pub reason: Option<String>,
    /// The whole line of text.
    pub range: TextRange,
}

impl Licence {
    /// Whether it accepts the breach of a rule at a bar and beat; `None` for the exercise as a
    /// whole.
    pub fn accepts(&self, rule: &str, place: Option<(u32, u32)>) -> bool {
        self.rule == rule && self.span.covers(place)
    }
}

/// The stretch of an exercise that a licence covers; bars and beats are counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Span {
    /// The whole exercise.
    Everywhere,
    /// One beat of one bar.
    Beat {
        /// The bar.
        bar: u32,
        /// The beat.
        beat: u32,
    },
    /// From one bar to another, both included.
    Bars {
        /// The first bar.
        from: u32,
        /// The last bar.
        to: u32,
    },
}

impl Span {
    /// Whether a finding at a bar and beat lies in the stretch. A finding that concerns the
    /// exercise as a whole is covered only by a licence that holds everywhere.
    pub fn covers(self, place: Option<(u32, u32)>) -> bool {
        match (self, place) {
            (Self::Everywhere, _) => true,
            (_, None) => false,
            (Self::Beat { bar, beat }, Some(place)) => place == (bar, beat),
            (Self::Bars { from, to }, Some((bar, _))) => (from..=to).contains(&bar),
        }
    }
}
