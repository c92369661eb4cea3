//! What is said of a score that does not fit: the same thing once for each part, with its bars. Knows
//! no music.

use std::fmt;

/// Something that does not fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The part, by its name; nothing if it is about the score as a whole.
    pub part: Option<String>,
    /// The bars, counted from 1; none if it is about all.
    pub bars: Vec<u32>,
    /// What it is and what becomes of it.
    pub what: String,
}

/// How many bars are named.
const NAMED: usize = 12;

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.part.as_deref().unwrap_or("The score"))?;
        let bars: Vec<_> = self.bars.iter().take(NAMED).map(ToString::to_string).collect();
        match bars.split_last() {
            None => {}
            Some((bar, [])) => write!(f, ", bar {bar}")?,
            Some(_) if self.bars.len() > NAMED => {
                let more = self.bars.len() - NAMED;
                write!(f, ", bars {} and {more} more", bars.join(", "))?;
            }
            Some((last, first)) => write!(f, ", bars {} and {last}", first.join(", "))?,
        }
        write!(f, ": {}.", self.what)
    }
}

/// Collects remarks.
#[derive(Clone, Debug, Default)]
pub(super) struct Remarks(Vec<Remark>);

impl Remarks {
    /// Something about the whole score.
    pub(super) fn of_score(&mut self, what: &str) {
        self.note(None, None, what);
    }

    /// Something about a whole part.
    pub(super) fn of_part(&mut self, part: &str, what: &str) {
        self.note(Some(part), None, what);
    }

    /// Something in a bar, counted from 0, of a part.
    pub(super) fn of_bar(&mut self, part: &str, bar: u32, what: &str) {
        self.note(Some(part), Some(bar.saturating_add(1)), what);
    }

    /// All of them.
    pub(super) fn told(self) -> Vec<Remark> {
        self.0
    }

    fn note(&mut self, part: Option<&str>, bar: Option<u32>, what: &str) {
        let same = |known: &&mut Remark| known.part.as_deref() == part && known.what == what;
        match (self.0.iter_mut().find(same), bar) {
            (Some(known), Some(bar)) if known.bars.last() != Some(&bar) => known.bars.push(bar),
            (Some(_), _) => {}
            (None, _) => self.0.push(Remark {
                part: part.map(str::to_owned),
                bars: bar.into_iter().collect(),
                what: what.to_owned(),
            }),
        }
    }
}
